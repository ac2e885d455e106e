package traytender.dashboard.notice;

import java.time.LocalTime;
import java.time.ZoneId;
import java.util.List;
import traytender.config.site.Broker;
import traytender.config.site.Messages;
import traytender.config.site.Show;
import traytender.config.site.Site;
import traytender.config.site.StoreSettings;

/** The site whose people hear of things: only its name, its clock and how it shows them matter here. */
final class NoticeSite {
    private NoticeSite() {}

    static Site shown(Show show) {
        return new Site(
                "Alder Lane Nursery",
                ZoneId.of("Europe/Dublin"),
                null,
                show,
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                new Messages(new Broker.BuiltIn("127.0.0.1", 0), "traytender"),
                new StoreSettings(null, null),
                null,
                LocalTime.of(7, 0));
    }
}
