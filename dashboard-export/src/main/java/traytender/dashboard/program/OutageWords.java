package traytender.dashboard.program;

import java.time.Duration;
import java.time.Instant;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import java.util.function.DoubleFunction;
import java.util.stream.Collectors;
import traytender.config.site.Site;
import traytender.dashboard.page.Outage;
import traytender.dashboard.page.Outage.Low;

/** What is said of a time in which the program did not run: from when to when, what it was like, and what has not come back. */
final class OutageWords {
    private static final DateTimeFormatter DAY = DateTimeFormatter.ofPattern("EEE d MMM", Locale.ENGLISH);

    private final Site site;

    OutageWords(Site site) {
        this.site = site;
    }

    String of(Outage outage) {
        var text = new StringBuilder("Nothing was watched from ")
                .append(when(outage.from()))
                .append(" to ")
                .append(when(outage.to()))
                .append(" (")
                .append(length(Duration.between(outage.from(), outage.to())))
                .append(outage.wasCut() ? "): the program was cut off." : "): the program was stopped.");
        add(text, " Coldest meanwhile and just after, as far as known: ", lows(outage.coldest(), this::warmth));
        add(text, " Driest: ", lows(outage.driest(), value -> Math.round(100 * value) + " %"));
        add(text, " Not heard again yet: ", String.join(", ", outage.probes()));
        add(text, " Heated before and not since: ", String.join(", ", outage.mats()));
        add(text, " Dark in the lamps' hours: ", String.join(", ", outage.lamps()));
        if (!outage.probes().isEmpty()
                || !outage.mats().isEmpty()
                || !outage.lamps().isEmpty()) {
            text.append(" Look at them yourself.");
        }
        return text.toString();
    }

    private static void add(StringBuilder text, String before, String what) {
        if (!what.isEmpty()) {
            text.append(before).append(what).append('.');
        }
    }

    private String lows(List<Low> lows, DoubleFunction<String> shown) {
        return lows.stream()
                .map(low -> shown.apply(low.value()) + " at " + low.probe() + " ("
                        + site.show().clock(low.at(), site.timezone()) + ")")
                .collect(Collectors.joining(", "));
    }

    private String warmth(double celsius) {
        return site.show().fahrenheit()
                ? String.format(Locale.ROOT, "%.1f F", celsius * 9 / 5 + 32)
                : String.format(Locale.ROOT, "%.1f C", celsius);
    }

    private String when(Instant time) {
        return DAY.format(time.atZone(site.timezone())) + " " + site.show().clock(time, site.timezone());
    }

    private static String length(Duration length) {
        long minutes = length.toMinutes();
        return minutes < 120
                ? minutes + " minutes"
                : minutes < 48 * 60 ? minutes / 60 + " h " + minutes % 60 + " min" : length.toDays() + " days";
    }
}
