package traytender.dashboard.program;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import traytender.config.alert.Alert;
import traytender.ingest.store.JournalStore;
import traytender.ingest.store.StoreException;
import traytender.rules.AlertChange;
import traytender.rules.AlertChange.What;

/**
 * Keeps alerts on disk and tells of their changes. While stored history is evaluated it stays silent; when the watch goes live,
 * what was kept before is brought in line with what the watch has found.
 *
 * <p><b>Belongs to the watcher's thread.</b>
 */
final class AlertKeeper {
    private static final Logger log = LoggerFactory.getLogger(AlertKeeper.class);

    private final JournalStore journal;
    private final Consumer<AlertChange> told;
    /** By id, what is not on disk yet; empty for an alert that was withdrawn. */
    private final Map<String, Optional<Alert>> unsaved = new LinkedHashMap<>();

    private boolean live;

    /**
     * A keeper that stays silent until it goes live.
     *
     * @param told told of every change from then on; must return at once
     */
    AlertKeeper(JournalStore journal, Consumer<AlertChange> told) {
        this.journal = journal;
        this.told = told;
    }

    /** Takes a change of the watch. */
    void changed(AlertChange change) {
        if (!live) {
            return;
        }
        Alert alert = change.alert();
        log.info(
                "{} {} {}: {}",
                change.what().name().toLowerCase(Locale.ROOT),
                alert.place(),
                alert.kind().word(),
                alert.says());
        unsaved.put(alert.id(), change.what() == What.WITHDRAWN ? Optional.empty() : Optional.of(alert));
        save();
        told.accept(change);
    }

    /**
     * History is evaluated: these are all alerts. What was kept otherwise is put right, and those told of who must hear what is
     * open now or no longer is.
     *
     * @param firstMs the time of the oldest reading evaluated, in ms since 1970
     */
    void goLive(List<Alert> found, long firstMs) {
        live = true;
        Map<String, Alert> before = new HashMap<>();
        journal.alerts().forEach(alert -> before.put(alert.id(), alert));
        var changes = new ArrayList<AlertChange>();
        for (Alert alert : found) {
            Alert kept = before.remove(alert.id());
            if (!alert.equals(kept)) {
                unsaved.put(alert.id(), Optional.of(alert));
            }
            if (alert.isOpen() || (kept != null && kept.isOpen())) {
                changes.add(new AlertChange(alert.isOpen() ? What.OPENED : What.CLOSED, alert));
            }
        }
        withdrawStale(before.values(), firstMs, changes);
        save();
        changes.forEach(told);
    }

    /** Alerts from before the oldest reading still kept are history and stay; a later one that was not found again never was. */
    private void withdrawStale(Collection<Alert> stale, long firstMs, List<AlertChange> changes) {
        for (Alert alert : stale) {
            if (alert.isOpen()) {
                changes.add(new AlertChange(What.WITHDRAWN, alert));
            }
            if (alert.isOpen() || alert.opened().toEpochMilli() >= firstMs) {
                unsaved.put(alert.id(), Optional.empty());
            }
        }
    }

    /** Writes what is not on disk yet; what fails is tried again at the next call. */
    void save() {
        if (unsaved.isEmpty()) {
            return;
        }
        try {
            var alerts = new ArrayList<Alert>();
            for (Map.Entry<String, Optional<Alert>> entry : unsaved.entrySet()) {
                entry.getValue().ifPresentOrElse(alerts::add, () -> journal.withdrawAlert(entry.getKey()));
            }
            journal.saveAlerts(alerts);
            unsaved.clear();
        } catch (StoreException e) {
            log.error("Alerts cannot be kept: {}; trying again", e.getMessage());
        }
    }
}
