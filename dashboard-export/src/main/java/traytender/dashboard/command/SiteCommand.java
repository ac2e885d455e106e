package traytender.dashboard.command;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.Clock;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.ParentCommand;
import picocli.CommandLine.Spec;
import traytender.config.folder.SiteFolder;
import traytender.config.folder.SiteReader;

/** What every command has that works on a site folder. */
abstract class SiteCommand implements Runnable {
    @Option(names = "--site", required = true, paramLabel = "DIR", description = "The site folder, with its site.yaml.")
    Path site = Path.of("");

    @Spec
    private @Nullable CommandSpec spec;

    @ParentCommand
    private @Nullable Traytender parent;

    /**
     * Reads the site folder.
     *
     * @throws traytender.config.folder.SiteFolderException with every error in it
     */
    final SiteFolder readSite() {
        return SiteReader.read(site);
    }

    final Clock clock() {
        return Objects.requireNonNull(parent).clock();
    }

    /** Where the command's answer goes, and nothing else. */
    final PrintWriter out() {
        return commandLine().getOut();
    }

    /** Where the command tells of troubles. */
    final PrintWriter err() {
        return commandLine().getErr();
    }

    /** Says that the command was used wrongly. */
    final ParameterException wrongUse(String message) {
        return new ParameterException(commandLine(), message);
    }

    private CommandLine commandLine() {
        return Objects.requireNonNull(spec).commandLine();
    }
}
