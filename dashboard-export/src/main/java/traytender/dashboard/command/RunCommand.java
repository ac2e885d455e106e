package traytender.dashboard.command;

import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import traytender.config.folder.SiteFolder;
import traytender.dashboard.program.MendingProgram;
import traytender.dashboard.program.Program;
import traytender.dashboard.program.ServiceManager;

/** The real thing. */
@Command(
        name = "run",
        description =
                "Takes messages in, stores them, watches the trays and serves the page, until it is told to stop.")
final class RunCommand extends SiteCommand {
    @Mixin
    private PageChoice page = new PageChoice();

    @Override
    public void run() {
        SiteFolder folder = readSite();
        UntilStopped.run(
                () -> MendingProgram.start(
                        () -> Program.start(folder, page.settings(folder), clock()),
                        new ServiceManager(System.getenv())),
                program -> out().println("The page is at " + program.page()));
    }
}
