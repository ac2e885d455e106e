package traytender.rules.night;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import org.jspecify.annotations.Nullable;
import traytender.config.site.Probe;
import traytender.rules.trace.Beyond;
import traytender.rules.trace.Gap;

/**
 * What one night was like, by probe. Values are in the unit of the probe's quantity.
 *
 * @param date the day on whose evening the night begins
 * @param bySun false when the night was counted by the clock, for want of a location or of a sunset
 * @param complete whether the night was over when the report was made
 * @param probes probes of air, root zone, mat surface, humidity and moisture, in the site's order; those without any
 *     reading too
 * @param rooms outdoor rooms with a forecast of the lowest; empty where none was made
 */
public record NightReport(
        LocalDate date,
        Instant sunset,
        Instant sunrise,
        boolean bySun,
        boolean complete,
        List<ProbeNight> probes,
        List<RoomNight> rooms) {
    public NightReport {
        probes = List.copyOf(probes);
        rooms = List.copyOf(rooms);
    }

    /** The same report with what was foretold of the night. */
    public NightReport with(List<RoomNight> foretold) {
        return new NightReport(date, sunset, sunrise, bySun, complete, probes, foretold);
    }

    /** What was foretold of the night in one outdoor room, and what came. */
    public record RoomNight(String room, NightForecast forecast) {}

    /** How long the night lasted. */
    public Duration length() {
        return Duration.between(sunset, sunrise);
    }

    /**
     * One probe's night.
     *
     * @param tray the tray it is in; null for a probe in a room or at a mat
     * @param room the room it is in, or its tray stands in; null when not known
     * @param readings how many counted
     * @param mean time-weighted, gaps left out; NaN without a reading
     * @param lowest NaN without a reading
     * @param lowestAt null without a reading
     * @param highest NaN without a reading
     * @param highestAt null without a reading
     * @param below the lower limit and the time beyond it; null where no limit applies
     * @param above the upper limit and the time beyond it; null where no limit applies
     * @param gaps stretches in which nothing was heard
     * @param dayMean time-weighted mean of the day before the night; NaN without a reading
     * @param degreeDays of the day and night together, for temperatures with a base; null otherwise
     */
    public record ProbeNight(
            Probe probe,
            @Nullable String tray,
            @Nullable String room,
            int readings,
            double mean,
            double lowest,
            @Nullable Instant lowestAt,
            double highest,
            @Nullable Instant highestAt,
            @Nullable Beyond below,
            @Nullable Beyond above,
            List<Gap> gaps,
            double dayMean,
            @Nullable Warmth degreeDays) {
        public ProbeNight {
            gaps = List.copyOf(gaps);
        }

        /** Day mean minus night mean; NaN when either is unknown. */
        public double dayNightDifference() {
            return dayMean - mean;
        }

        /** All gaps together. */
        public Duration gapTime() {
            return gaps.stream().map(Gap::length).reduce(Duration.ZERO, Duration::plus);
        }
    }

    /**
     * Degree days from sunrise to sunrise.
     *
     * @param baseC base temperature in C
     * @param average by the mean of lowest and highest
     * @param singleSine by the single sine
     */
    public record Warmth(double baseC, double average, double singleSine) {}
}
