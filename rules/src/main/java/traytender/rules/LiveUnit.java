package traytender.rules;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import traytender.config.alert.Alert;
import traytender.rules.AlertChange.What;
import traytender.rules.bench.Bench;
import traytender.rules.bench.Unit;
import traytender.rules.judge.Judge;

/**
 * A unit in the live watch: how far it has come, copies of it as it was earlier, and what was last said of its alerts. A late
 * reading restores the newest copy that had not seen that time yet and runs it forward again over the remembered readings.
 * <b>Not thread-safe.</b>
 */
final class LiveUnit {
    private static final long HOUR_MS = 3_600_000;
    /** How far back a late reading still changes what is said; further back it counts in replay only. */
    static final long REACH_MS = 48 * HOUR_MS;

    private static final long FINE_MS = 6 * HOUR_MS;

    private Advance now;
    private final List<ProbeMemory> memories;
    private final List<Advance> copies = new ArrayList<>();
    private Map<String, Alert> told = new HashMap<>();
    private long backToMs = Long.MAX_VALUE;

    LiveUnit(Unit unit, List<ProbeMemory> memories) {
        this.now = new Advance(unit, Long.MIN_VALUE);
        this.memories = memories;
        copies.add(now.copy());
    }

    Unit unit() {
        return now.unit();
    }

    long lookedMs() {
        return now.lookedMs();
    }

    /** Something at this time has changed: run again from there. */
    void backTo(long timeMs) {
        if (timeMs < now.lookedMs()) {
            backToMs = Math.min(backToMs, timeMs);
        }
    }

    /** Whether something before the minute looked at last has changed. */
    boolean mustGoBack() {
        return backToMs < now.lookedMs();
    }

    void setBench(Bench bench) {
        now.unit().setBench(bench);
        copies.forEach(copy -> copy.unit().setBench(bench));
    }

    /** Looks at every minute up to this one, from further back where something changed. */
    void run(long toMs, Listening listening, Judge judge) {
        if (mustGoBack()) {
            restore();
        }
        backToMs = Long.MAX_VALUE;
        long from = now.lookedMs();
        var ahead = new Merge(memories, from);
        while (ahead.timeMs() < toMs) {
            keepCopy(ahead.timeMs(), listening, judge);
            now.to(ahead.timeMs(), listening, judge);
            now.unit().take(ahead.take());
        }
        now.to(toMs, listening, judge);
    }

    /** Further back than the oldest copy nothing is done: such readings are stored and count in replay. */
    private void restore() {
        for (int i = copies.size() - 1; i >= 0; i--) {
            if (copies.get(i).lookedMs() <= backToMs) {
                copies.subList(i + 1, copies.size()).clear();
                now = copies.get(i).copy();
                return;
            }
        }
    }

    /** Keeps a copy once an hour, at the end of a minute before which every reading has been taken. */
    private void keepCopy(long nextMs, Listening listening, Judge judge) {
        Advance newest = copies.get(copies.size() - 1);
        long hour = Math.floorDiv(nextMs, HOUR_MS) * HOUR_MS;
        if (newest.lookedMs() != Long.MIN_VALUE && hour < newest.lookedMs() + HOUR_MS) {
            return;
        }
        now.to(hour, listening, judge);
        // Past the hour, readings of a minute not yet looked at may have been taken: a copy would keep late ones out.
        if (now.lookedMs() > hour || now.lookedMs() == newest.lookedMs()) {
            return;
        }
        copies.add(now.copy());
        forget();
    }

    private void forget() {
        long newest = now.lookedMs();
        for (int i = copies.size() - 2; i >= 1; i--) {
            long age = newest - copies.get(i).lookedMs();
            boolean coarse = age > FINE_MS
                    && Math.floorDiv(copies.get(i).lookedMs(), FINE_MS)
                            == Math.floorDiv(copies.get(i - 1).lookedMs(), FINE_MS);
            if (coarse) {
                copies.remove(i);
            }
        }
        while (copies.size() > 1 && newest - copies.get(1).lookedMs() >= REACH_MS) {
            copies.remove(0);
        }
    }

    /** From when on readings may still be needed. */
    long neededFromMs() {
        return copies.get(0).lookedMs();
    }

    /** Tells what has changed since the last time it was asked. */
    void tell(Consumer<AlertChange> changes) {
        List<Alert> alerts = now.unit().book().alerts();
        if (told.size() == alerts.size() && alerts.stream().allMatch(alert -> alert.equals(told.get(alert.id())))) {
            return;
        }
        var next = new HashMap<String, Alert>();
        alerts.forEach(alert -> next.put(alert.id(), alert));
        told.values().stream()
                .filter(alert -> !next.containsKey(alert.id()))
                .sorted(Replay.ORDER)
                .forEach(alert -> changes.accept(new AlertChange(What.WITHDRAWN, alert)));
        for (Alert alert : alerts) {
            Alert before = told.get(alert.id());
            if (before == null) {
                changes.accept(new AlertChange(What.OPENED, alert));
            } else if (!before.equals(alert)) {
                changes.accept(new AlertChange(isClosing(before, alert) ? What.CLOSED : What.CHANGED, alert));
            }
        }
        told = next;
    }

    private static boolean isClosing(Alert before, Alert alert) {
        return before.isOpen()
                && alert.closed() != null
                && before.withClosed(alert.closed()).equals(alert);
    }
}
