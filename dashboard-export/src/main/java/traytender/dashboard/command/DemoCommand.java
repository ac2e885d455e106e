package traytender.dashboard.command;

import java.net.URI;
import java.nio.file.Path;
import java.time.Clock;
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
        Clock clock = Objects.requireNonNull(parent).clock();
        UntilStopped.run(() -> start(folder, clock), demo -> out.println("The page is at " + demo.page()));
    }

    /** The demo and the folder it is in, stopped together. */
    private record Running(Demo demo, DemoFolder folder) implements AutoCloseable {
        URI page() {
            return demo.program().page();
        }

        @Override
        public void close() {
            demo.close();
            folder.close();
        }
    }

    private Running start(DemoFolder folder, Clock clock) {
        try {
            return new Running(Demo.start(folder.path(), page::settings, clock), folder);
        } catch (RuntimeException e) {
            folder.close();
            throw e;
        }
    }
}
