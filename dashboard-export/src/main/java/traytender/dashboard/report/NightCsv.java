package traytender.dashboard.report;

import java.io.IOException;
import java.io.Writer;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import org.jspecify.annotations.Nullable;
import traytender.config.site.Quantity;
import traytender.rules.night.NightForecast;
import traytender.rules.night.NightReport;
import traytender.rules.trace.Beyond;

/** A night's report as a table, a line a probe; what is not known or does not apply is empty. Temperatures are in C. */
final class NightCsv {
    private static final CSVFormat FORMAT = CSVFormat.RFC4180
            .builder()
            .setRecordSeparator('\n')
            .setHeader(
                    "night",
                    "probe",
                    "measures",
                    "unit",
                    "tray",
                    "room",
                    "readings",
                    "mean",
                    "lowest",
                    "lowest-at",
                    "highest",
                    "highest-at",
                    "lower-limit",
                    "hours-below",
                    "unit-hours-below",
                    "upper-limit",
                    "hours-above",
                    "unit-hours-above",
                    "gap-hours",
                    "day-night-difference",
                    "forecast-lowest",
                    "forecast-doubt",
                    "rough-lowest")
            .get();

    private NightCsv() {}

    static void write(NightReport report, Writer out) throws IOException {
        var csv = new CSVPrinter(out, FORMAT);
        for (NightReport.ProbeNight night : report.probes()) {
            Beyond below = night.below();
            Beyond above = night.above();
            NightForecast forecast = forecast(report, night);
            csv.printRecord(
                    report.date(),
                    night.probe().id(),
                    night.probe().measures().word(),
                    night.probe().measures().unit(),
                    night.tray(),
                    night.room(),
                    night.readings(),
                    number(night.mean()),
                    number(night.lowest()),
                    time(night.lowestAt()),
                    number(night.highest()),
                    time(night.highestAt()),
                    below == null ? null : number(below.limit()),
                    below == null ? null : number(below.hours()),
                    below == null ? null : number(below.unitHours()),
                    above == null ? null : number(above.limit()),
                    above == null ? null : number(above.hours()),
                    above == null ? null : number(above.unitHours()),
                    number(night.gapTime().toSeconds()
                            / (double) Duration.ofHours(1).toSeconds()),
                    number(night.dayNightDifference()),
                    forecast == null ? null : number(forecast.lowest()),
                    forecast == null ? null : number(forecast.doubt()),
                    forecast == null ? null : number(forecast.rough()));
        }
        csv.flush();
    }

    /** What was foretold of the air in this probe's room; null for other quantities and rooms. */
    private static @Nullable NightForecast forecast(NightReport report, NightReport.ProbeNight night) {
        if (night.probe().measures() != Quantity.AIR_TEMPERATURE) {
            return null;
        }
        return report.rooms().stream()
                .filter(room -> room.room().equals(night.room()))
                .map(NightReport.RoomNight::forecast)
                .findFirst()
                .orElse(null);
    }

    private static @Nullable BigDecimal number(double value) {
        return Double.isFinite(value)
                ? BigDecimal.valueOf(value)
                        .setScale(3, RoundingMode.HALF_EVEN)
                        .stripTrailingZeros()
                        .add(BigDecimal.ZERO)
                : null;
    }

    private static @Nullable Instant time(@Nullable Instant time) {
        return time == null ? null : time.truncatedTo(ChronoUnit.MILLIS);
    }
}
