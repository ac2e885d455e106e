package traytender.dashboard.report;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import traytender.config.folder.SiteFolder;
import traytender.config.journal.Growing;
import traytender.ingest.store.SiteStore;
import traytender.rules.bench.Bench;
import traytender.rules.bench.RoomNights;
import traytender.rules.night.NightReport;
import traytender.rules.night.NightSpan;
import traytender.rules.night.Nights;

/** A night's report from what is stored. */
public final class StoredNight {
    /** Readings of the morning show that the night is over; our choice. */
    private static final Duration MORNING = Duration.ofHours(2);

    private StoredNight() {}

    /** The night that begins on the evening of that date, as far as it has come. */
    public static NightReport of(SiteFolder folder, SiteStore store, LocalDate date) {
        var growing = Growing.of(folder.site(), folder.crops(), store.journal().entries());
        var span = NightSpan.of(folder.site(), date);
        Instant to = span.sunrise().plus(MORNING);
        Instant heardTo = store.readings().newestTime().orElse(to);
        NightReport report = Nights.report(
                folder.site(),
                growing,
                date,
                heardTo,
                probe -> store.history().readings(probe, span.sunriseBefore(), span.sunrise()));
        Instant from = RoomNights.neededFrom(folder.site(), date);
        var bench = new Bench(folder, folder.crops(), store.journal().entries(), Instant.MIN);
        return report.with(RoomNights.of(
                bench,
                date,
                heardTo.isBefore(to) ? heardTo : to,
                probe -> store.history().readings(probe, from, to)));
    }
}
