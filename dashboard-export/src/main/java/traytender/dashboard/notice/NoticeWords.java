package traytender.dashboard.notice;

import java.time.Instant;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import traytender.config.alert.Alert;
import traytender.config.alert.Urgency;
import traytender.config.site.Site;

/** What a mail says: what to do first, then why and until when, the most urgent first. */
final class NoticeWords {
    private static final int LONGEST_SUBJECT = 90;

    private final Site site;
    private final @Nullable String page;

    NoticeWords(Site site, @Nullable String page) {
        this.site = site;
        this.page = page;
    }

    /** @param alerts the most urgent first; at least one */
    String subject(List<Alert> alerts) {
        Alert first = alerts.get(0);
        String more = alerts.size() > 1 ? " (and " + (alerts.size() - 1) + " more)" : "";
        String what = word(first.urgency()) + ": " + first.place() + ": " + first.does();
        int room = LONGEST_SUBJECT - more.length();
        return (what.length() > room ? what.substring(0, room - 1) + "…" : what) + more;
    }

    String body(List<Alert> alerts, Instant now) {
        var text = new StringBuilder(site.name()).append(", ").append(when(now)).append("\n");
        Urgency last = null;
        for (Alert alert : alerts) {
            if (alert.urgency() != last) {
                text.append('\n')
                        .append(word(alert.urgency()).toUpperCase(Locale.ROOT))
                        .append("\n\n");
                last = alert.urgency();
            }
            text.append(alert.place()).append(": ").append(alert.does()).append('\n');
            text.append("  ").append(alert.says()).append('\n');
            Alert.Forecast forecast = alert.forecast();
            text.append("  ")
                    .append(
                            forecast == null
                                    ? "Since " + when(alert.opened())
                                    : "Until about " + when(forecast.expected()))
                    .append("\n\n");
        }
        if (page != null) {
            text.append(page).append('\n');
        }
        return text.append("This advises; look before you act.\n").toString();
    }

    private String when(Instant time) {
        return DateTimeFormatter.ofPattern("EEE d MMM ", Locale.ENGLISH).format(time.atZone(site.timezone()))
                + site.show().clock(time, site.timezone());
    }

    private static String word(Urgency urgency) {
        return switch (urgency) {
            case NOW -> "Now";
            case TODAY -> "Today";
            case NOTE -> "Good to know";
        };
    }
}
