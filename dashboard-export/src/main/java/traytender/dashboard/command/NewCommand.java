package traytender.dashboard.command;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;
import traytender.config.folder.NewSite;
import traytender.dashboard.program.ProgramException;

/** Makes a site folder to begin with. */
@Command(name = "new", description = "Makes a commented site folder to begin with.")
final class NewCommand implements Runnable {
    @Parameters(paramLabel = "DIR", description = "The folder to make.")
    private Path folder = Path.of("");

    @Spec
    private @Nullable CommandSpec spec;

    @Override
    public void run() {
        var out = Objects.requireNonNull(spec).commandLine().getOut();
        try {
            NewSite.write(folder, ZoneId.systemDefault()).forEach(file -> out.println(file + " written"));
        } catch (FileAlreadyExistsException e) {
            throw new ProgramException(e.getMessage() + " is there already; it was left as it is", e);
        } catch (IOException e) {
            throw new ProgramException("cannot write " + folder + ": " + e.getMessage(), e);
        }
        out.println(
                "Describe your site in " + folder.resolve("site.yaml") + ", then: traytender check --site " + folder);
    }
}
