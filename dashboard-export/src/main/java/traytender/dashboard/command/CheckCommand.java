package traytender.dashboard.command;

import picocli.CommandLine.Command;
import traytender.config.folder.SiteReader;
import traytender.config.site.Site;

/** Reads a site folder and reports every error. */
@Command(name = "check", description = "Reads the site folder and reports every error.")
final class CheckCommand extends SiteCommand {
    @Override
    public void run() {
        Site read = readSite().site();
        SiteReader.notices(site);
        out().println(site + ": no errors; " + read.rooms().size() + " rooms, "
                + read.trays().size() + " trays, " + read.probes().size() + " probes");
    }
}
