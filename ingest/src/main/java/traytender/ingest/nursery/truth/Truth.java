package traytender.ingest.nursery.truth;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import traytender.config.alert.AlertKind;
import traytender.config.alert.ShutOffReason;
import traytender.config.site.Zone;

/**
 * The truth of one scenario.
 *
 * @param episodes what must be found
 * @param allowed when an alert counts neither way
 * @param forecasts when each zone would cross its dry line
 */
public record Truth(About about, List<Episode> episodes, List<Allowed> allowed, List<Forecast> forecasts) {
    /** What a scenario is; {@code to} is exclusive. */
    public record About(
            String scenario,
            String about,
            boolean quiet,
            Instant from,
            Instant to,
            int trayDays,
            int trays,
            int rooms) {}

    /**
     * Where an alert may stand.
     *
     * @param places {@code tray:ID} or {@code room:ID}
     * @param zones empty for any
     */
    public record Where(List<String> places, List<Zone> zones) {
        public Where {
            places = List.copyOf(places);
            zones = List.copyOf(zones);
        }

        /** A zone of a tray. */
        static Where in(String tray, Zone... zones) {
            return new Where(List.of("tray:" + tray), List.of(zones));
        }
    }

    /**
     * One thing that must be found.
     *
     * @param kinds what it may be called, the right name first
     * @param from when it is plainly so
     * @param to when it no longer is
     * @param earliest from when on an alert is right
     * @param latest until when it must have opened
     * @param reasons only for shut-off, else empty
     * @param contract whether it follows from the contract and the limits alone
     * @param crosses only for drying-soon
     */
    public record Episode(
            List<AlertKind> kinds,
            Where where,
            Instant from,
            Instant to,
            Instant earliest,
            Instant latest,
            List<ShutOffReason> reasons,
            boolean contract,
            @Nullable Instant crosses) {
        public Episode {
            kinds = List.copyOf(kinds);
            reasons = List.copyOf(reasons);
        }
    }

    /**
     * A stretch in which an alert counts neither way.
     *
     * @param kinds empty for every kind
     * @param reasons empty for any
     */
    public record Allowed(
            List<AlertKind> kinds, Where where, Instant from, Instant to, List<ShutOffReason> reasons, String why) {
        public Allowed {
            kinds = List.copyOf(kinds);
            reasons = List.copyOf(reasons);
        }
    }

    /**
     * When a zone would cross its dry line with the next watering thought away.
     *
     * @param since the last watering, or the start
     * @param until the next watering, or the end
     * @param low the earlier of the true and the seen crossing
     * @param high the later one
     * @param guessed when one would think it crosses who knows how it dries but has the water from the probe alone ({@link BestGuess}); null when
     *     out of sight
     * @param wateredFirst whether it was watered before it came to that
     */
    public record Forecast(
            String tray,
            Zone zone,
            String probe,
            Instant since,
            Instant until,
            Instant crosses,
            Instant low,
            Instant high,
            @Nullable Instant guessed,
            boolean wateredFirst) {}

    public Truth {
        episodes = List.copyOf(episodes);
        allowed = List.copyOf(allowed);
        forecasts = List.copyOf(forecasts);
    }
}
