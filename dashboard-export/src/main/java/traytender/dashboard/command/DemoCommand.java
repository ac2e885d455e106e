package traytender.dashboard.command;

import java.nio.file.Path;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParentCommand;
import picocli.CommandLine.Spec;
import traytender.dashboard.program.Demo;

/** A made-up nursery to look at. */
@Command(
        name = "demo",
        description =
                "Shows a made-up nursery: several days of it sent through a real broker into a real store at once, live from"
                        + " then on. Prints the page's address.")
final class DemoCommand implements Runnable {
    @Option(
            names = "--site",
            paramLabel = "DIR",
            description = "Where to keep the nursery; a temporary folder, removed at the end, unless said.")
    private @Nullable Path site;

    @Mixin
    private PageChoice page = new PageChoice();

    @Spec
    private @Nullable CommandSpec spec;

    @ParentCommand
    private @Nullable Traytender parent;

    @Override
    public void run() {
        var out = Objects.requireNonNull(spec).commandLine().getOut();
        var folder = site == null ? DemoFolder.temporary() : DemoFolder.named(site);
        out.println("Alder Lane Nursery is being made up in " + folder.path());
        Demo demo;
        try {
            demo = Demo.start(
                    folder.path(),
                    page::settings,
                    Objects.requireNonNull(parent).clock());
        } catch (RuntimeException e) {
            folder.close();
            throw e;
        }
        StopSignal.await(
                () -> {
                    demo.close();
                    folder.close();
                },
                () -> out.println("The page is at " + demo.program().page()));
    }
}
