package traytender.dashboard.program;

import java.util.HashMap;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.function.Consumer;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import traytender.config.alert.Alert;
import traytender.config.alert.AlertKind;
import traytender.config.alert.ShutOffReason;
import traytender.config.alert.Urgency;
import traytender.config.site.Mat;
import traytender.config.site.Site;
import traytender.dashboard.record.AlertJson;
import traytender.rules.AlertChange;
import traytender.rules.AlertChange.What;

/**
 * What is said over MQTT about alerts: each open one as a retained record at a topic of its own, the most urgent one as one word
 * for a lamp or buzzer on the bench, and to a mat that is too hot its word to rest. There is no word to heat.
 *
 * <p><b>Safe from any thread.</b>
 */
final class AlertNotices {
    private Site site;
    private final Notices notices;
    private final Supplier<Set<String>> seen;
    private final Consumer<Alert> rested;
    private final Map<String, Alert> open = new HashMap<>();
    private @Nullable String call;

    /**
     * @param seen ids of the alerts that the grower has seen
     * @param rested told of each alert on which a mat was told to rest; must return at once
     */
    AlertNotices(Site site, Notices notices, Supplier<Set<String>> seen, Consumer<Alert> rested) {
        this.site = site;
        this.notices = notices;
        this.seen = seen;
        this.rested = rested;
    }

    /** Another site from now on. */
    synchronized void takeOver(Site other) {
        site = other;
    }

    /** Says what changed. */
    synchronized void changed(AlertChange change) {
        Alert alert = change.alert();
        boolean isOpen = change.what() != What.WITHDRAWN && alert.isOpen();
        notices.send(topic(alert), isOpen ? AlertJson.line(alert) : "", true);
        if (isOpen) {
            open.put(alert.id(), alert);
            restMat(alert);
        } else {
            open.remove(alert.id());
        }
        call();
    }

    /** The most urgent open alert not yet seen: says it again when it has changed. */
    synchronized void call() {
        Set<String> seenNow = seen.get();
        String word = open.values().stream()
                .filter(alert -> !seenNow.contains(alert.id()))
                .map(Alert::urgency)
                .filter(urgency -> urgency != Urgency.NOTE)
                .min(Urgency::compareTo)
                .map(Urgency::word)
                .orElse("none");
        if (!Objects.equals(word, call)) {
            call = word;
            notices.send(site.messages().prefix() + "/call", word, true);
        }
    }

    private String topic(Alert alert) {
        var topic = new StringBuilder(site.messages().prefix())
                .append("/alerts/")
                .append(alert.place())
                .append('/')
                .append(alert.kind().word());
        if (alert.reason() != null) {
            topic.append('/').append(alert.reason().word());
        } else if (alert.zone() != null && alert.room() == null) {
            topic.append('/').append(alert.zone().word());
        }
        return topic.toString();
    }

    private void restMat(Alert alert) {
        if (alert.kind() != AlertKind.MAT_SHUT_OFF || alert.reason() != ShutOffReason.TOO_HOT || alert.tray() == null) {
            return;
        }
        site.tray(alert.tray())
                .map(tray -> tray.mat())
                .flatMap(site::mat)
                .map(Mat::relay)
                .ifPresent(relay -> {
                    notices.send(relay.topic(), relay.rest(), false);
                    rested.accept(alert);
                });
    }
}
