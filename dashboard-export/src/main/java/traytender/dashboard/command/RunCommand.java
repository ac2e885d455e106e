package traytender.dashboard.command;

import java.time.ZoneId;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import traytender.config.folder.NewSite;
import traytender.config.folder.SiteFolder;
import traytender.config.site.Broker;
import traytender.dashboard.program.MendingProgram;
import traytender.dashboard.program.Program;
import traytender.dashboard.program.ServiceManager;
import traytender.ingest.broker.BuiltInBroker;

/** The real thing. */
@Command(
        name = "run",
        description =
                "Takes messages in, stores them, watches the trays and serves the page, until it is told to stop. An empty folder is"
                        + " a beginning: the page then asks for what it needs.")
final class RunCommand extends SiteCommand {
    @Mixin
    private PageChoice page = new PageChoice();

    @Override
    public void run() {
        SiteFolder folder = NewSite.isBeginning(site) ? begin() : readSite();
        UntilStopped.run(
                () -> MendingProgram.start(
                        folder,
                        wanted -> Program.start(wanted, page.settings(wanted), clock()),
                        new ServiceManager(System.getenv())),
                program -> out().println("The page is at " + program.page()));
    }

    /** Nothing is known yet: the page is where the grower says it. */
    private SiteFolder begin() {
        return NewSite.unwritten(site, ZoneId.systemDefault(), BuiltInBroker.freePort(Broker.BuiltIn.PORT));
    }
}
