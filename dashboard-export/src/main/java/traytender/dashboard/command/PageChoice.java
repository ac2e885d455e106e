package traytender.dashboard.command;

import picocli.CommandLine.Option;
import traytender.config.folder.SiteFolder;
import traytender.dashboard.page.PageSettings;

/** The option that says where the page is served. */
final class PageChoice {
    @Option(
            names = "--page",
            paramLabel = "ADDRESS:PORT",
            defaultValue = "127.0.0.1:" + PageSettings.PORT,
            converter = PageAddress.Converter.class,
            description = "Where to serve the page; ${DEFAULT-VALUE} unless said. Beyond this machine it asks for the"
                    + " password in the site's file page.password.")
    private PageAddress address = new PageAddress("127.0.0.1", PageSettings.PORT);

    PageSettings settings(SiteFolder folder) {
        return new PageSettings(address.host(), address.port(), folder.path().resolve("page.password"));
    }
}
