package traytender.dashboard.report;

import java.time.Duration;
import java.time.Instant;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import traytender.config.site.Quantity;
import traytender.config.site.Site;
import traytender.rules.night.NightForecast;
import traytender.rules.night.NightReport;
import traytender.rules.night.NightReport.ProbeNight;
import traytender.rules.trace.Beyond;

/** A night's report as one page that stands by itself, on a screen or on paper; well-formed, so that it can become a PDF. */
final class NightHtml {
    private static final DateTimeFormatter DAY = DateTimeFormatter.ofPattern("EEEE d MMMM uuuu", Locale.ENGLISH);
    private static final String HEAD = """
            <?xml version="1.0" encoding="UTF-8"?>
            <!DOCTYPE html>
            <html xmlns="http://www.w3.org/1999/xhtml" lang="en">
            <head>
            <meta charset="UTF-8"/>
            <meta name="viewport" content="width=device-width, initial-scale=1"/>
            <title>%1$s</title>
            <style>
            @page { size: A4 landscape; margin: 12mm; }
            body { font-family: Helvetica, Arial, sans-serif; color: #1d1a16; background: #fff; margin: 1em; }
            table { border-collapse: collapse; width: 100%%; font-size: 0.85em; }
            caption { text-align: left; font-weight: bold; padding: 0.6em 0; }
            th, td { border-bottom: 1px solid #b9ab98; padding: 0.3em 0.5em; text-align: right; }
            th[scope=row], th:first-child { text-align: left; }
            .beyond { font-weight: bold; }
            </style>
            </head>
            <body>
            <h1>%1$s</h1>
            """;

    private final Site site;
    private final NightReport report;

    NightHtml(Site site, NightReport report) {
        this.site = site;
        this.report = report;
    }

    String page() {
        var page = new StringBuilder(
                HEAD.stripLeading().formatted(Escaped.of(site.name() + ", night of " + DAY.format(report.date()))));
        sentences()
                .forEach(sentence ->
                        page.append("<p>").append(Escaped.of(sentence)).append("</p>\n"));
        for (Quantity quantity : Quantity.values()) {
            table(page, quantity);
        }
        page.append("<p>Lower and upper limits are those of the crop and stage on each probe; times are those of ")
                .append(Escaped.of(site.timezone().getId()))
                .append(".</p>\n</body>\n</html>\n");
        return page.toString();
    }

    /** The night in a few sentences: when it was, the coldest places of each quantity, what was foretold. */
    List<String> sentences() {
        var sentences = new ArrayList<String>();
        sentences.add(span());
        for (Quantity quantity : List.of(Quantity.AIR_TEMPERATURE, Quantity.TEMPERATURE)) {
            report.probes().stream()
                    .filter(night -> night.probe().measures() == quantity && Double.isFinite(night.lowest()))
                    .min(Comparator.comparingDouble(ProbeNight::lowest))
                    .ifPresent(night -> sentences.add(coldest(quantity, night)));
        }
        report.rooms().forEach(room -> sentences.add(foretold(room.room(), room.forecast())));
        return sentences;
    }

    private String coldest(Quantity quantity, ProbeNight night) {
        Beyond below = night.below();
        return heading(quantity) + ", lowest: " + value(quantity, night.lowest()) + " at " + clock(night.lowestAt())
                + ", "
                + where(night) + " (" + night.probe().id() + ")"
                + (below == null || below.hours() == 0
                        ? "."
                        : "; " + hours(below.hours()) + " below " + value(quantity, below.limit()) + ".");
    }

    private String span() {
        String from = report.bySun() ? "From sunset at " : "Counted by the clock, from ";
        String to = report.bySun() ? " to sunrise at " : " to ";
        String end = report.complete() ? "." : "; it is not over, or its end was not heard.";
        return from + clock(report.sunset()) + to + clock(report.sunrise()) + end;
    }

    /** What was foretold of an outdoor room's air beside what came. */
    private String foretold(String room, NightForecast night) {
        Quantity air = Quantity.AIR_TEMPERATURE;
        if (!Double.isFinite(night.lowest()) && !Double.isFinite(night.rough())) {
            return "No forecast was made of the lowest air temperature in " + room + ".";
        }
        String first = Double.isFinite(night.rough())
                ? "before dusk roughly " + value(air, night.rough()) + (Double.isFinite(night.lowest()) ? ", " : "")
                : "";
        String then = Double.isFinite(night.lowest())
                ? "two hours after sunset " + value(air, night.lowest()) + ", give or take "
                        + difference(air, night.doubt()).replace("+", "")
                : "";
        String leaf = night.clear() && Double.isFinite(night.lowest())
                ? " The evening was clear: leaves under open sky were expected at about " + value(air, night.leaf())
                        + "."
                : "";
        return "Air in " + room + ", lowest foretold: " + first + then + "; "
                + (report.complete() ? "it came to " : "so far it has come to ") + value(air, night.came()) + "."
                + leaf;
    }

    private void table(StringBuilder page, Quantity quantity) {
        var nights = report.probes().stream()
                .filter(night -> night.probe().measures() == quantity)
                .toList();
        if (nights.isEmpty()) {
            return;
        }
        page.append("<table>\n<caption>").append(heading(quantity)).append("</caption>\n<thead><tr>");
        for (String column : new String[] {
            "Probe",
            "Where",
            "Lowest",
            "at",
            "Highest",
            "at",
            "Mean",
            "Beyond the lower limit",
            "Beyond the upper limit",
            "Day minus night",
            "Not heard"
        }) {
            page.append("<th scope=\"col\">").append(column).append("</th>");
        }
        page.append("</tr></thead>\n<tbody>\n");
        nights.forEach(night -> row(page, quantity, night));
        page.append("</tbody>\n</table>\n");
    }

    private void row(StringBuilder page, Quantity quantity, ProbeNight night) {
        page.append("<tr><th scope=\"row\">")
                .append(Escaped.of(night.probe().id()))
                .append("</th>");
        cell(page, where(night));
        cell(page, value(quantity, night.lowest()));
        cell(page, clock(night.lowestAt()));
        cell(page, value(quantity, night.highest()));
        cell(page, clock(night.highestAt()));
        cell(page, value(quantity, night.mean()));
        beyond(page, quantity, night.below());
        beyond(page, quantity, night.above());
        cell(page, difference(quantity, night.dayNightDifference()));
        cell(page, night.gapTime().isZero() ? "" : hours(night.gapTime().toSeconds() / 3600.0));
        page.append("</tr>\n");
    }

    private static String where(ProbeNight night) {
        if (night.tray() != null) {
            return night.tray() + (night.room() == null ? "" : ", " + night.room());
        }
        return night.room() == null ? "" : night.room();
    }

    private void beyond(StringBuilder page, Quantity quantity, @Nullable Beyond beyond) {
        if (beyond == null) {
            cell(page, "");
            return;
        }
        String limit = value(quantity, beyond.limit());
        if (beyond.hours() == 0) {
            cell(page, "never (" + limit + ")");
            return;
        }
        page.append("<td class=\"beyond\">")
                .append(Escaped.of(hours(beyond.hours()) + " beyond " + limit + sum(quantity, beyond.unitHours())))
                .append("</td>");
    }

    /** Degree-hours tell how hard the hours were; for other quantities the hours alone are told. */
    private String sum(Quantity quantity, double unitHours) {
        if (!isTemperature(quantity)) {
            return "";
        }
        double shown = site.show().fahrenheit() ? unitHours * 1.8 : unitHours;
        return String.format(Locale.ENGLISH, ", %.1f degree-hours", shown);
    }

    private static void cell(StringBuilder page, String text) {
        page.append("<td>").append(Escaped.of(text)).append("</td>");
    }

    private String value(Quantity quantity, double value) {
        return value(site, quantity, value);
    }

    static String value(Site site, Quantity quantity, double value) {
        if (!Double.isFinite(value)) {
            return "no reading";
        }
        if (isTemperature(quantity)) {
            return site.show().fahrenheit()
                    ? String.format(Locale.ENGLISH, "%.1f \u00b0F", value * 1.8 + 32)
                    : String.format(Locale.ENGLISH, "%.1f \u00b0C", value);
        }
        return quantity == Quantity.MOISTURE
                ? String.format(Locale.ENGLISH, "%.0f %%", value * 100)
                : String.format(Locale.ENGLISH, "%.0f %%", value);
    }

    private String difference(Quantity quantity, double value) {
        if (!Double.isFinite(value) || !isTemperature(quantity)) {
            return "";
        }
        return site.show().fahrenheit()
                ? String.format(Locale.ENGLISH, "%+.1f \u00b0F", value * 1.8)
                : String.format(Locale.ENGLISH, "%+.1f \u00b0C", value);
    }

    private static boolean isTemperature(Quantity quantity) {
        return quantity == Quantity.TEMPERATURE
                || quantity == Quantity.AIR_TEMPERATURE
                || quantity == Quantity.MAT_SURFACE;
    }

    private static String heading(Quantity quantity) {
        return switch (quantity) {
            case TEMPERATURE -> "Root zone";
            case AIR_TEMPERATURE -> "Air";
            case MAT_SURFACE -> "Mats";
            case HUMIDITY -> "Humidity";
            case MOISTURE -> "Moisture";
            default -> quantity.word();
        };
    }

    private static String hours(double hours) {
        Duration length = Duration.ofMinutes(Math.round(hours * 60));
        return length.toHours() + " h " + length.toMinutesPart() + " min";
    }

    private String clock(@Nullable Instant time) {
        return time == null ? "" : site.show().clock(time, site.timezone());
    }
}
