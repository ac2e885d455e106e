package traytender.rules.bench;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import traytender.config.alert.AlertKind;
import traytender.config.journal.JournalEntry;
import traytender.config.site.Zone;
import traytender.rules.book.AlertBook;

/**
 * The last watering of a whole tray, from the journal or from probes that rise together, and what each place gained and has
 * lost since. <b>Not thread-safe.</b>
 */
final class Watering {
    private static final long MINUTE_MS = 60_000;
    /** Rises within this time of the start belong to the same watering; our choice, a round of the bench with the can. */
    private static final long SAME_MS = 60 * MINUTE_MS;
    /** Drained by then; drying counts from there. */
    private static final long SETTLED_MS = 50 * MINUTE_MS;
    /** A watering from below creeps up through the plugs. */
    private static final double FROM_BELOW_MINUTES = 90;

    private static final double FROM_ABOVE_MINUTES = 40;
    /** Less than this drains or dries away of a watering within hours; our choice. */
    private static final double STAYS = 0.15;
    /** A gain that is no doubt a watering; our choice. */
    private static final double RISEN = 0.12;
    /** One probe alone that rose so long before the grower says that the tray was watered tells of something else, such as a wrong clock. */
    private static final long LONE_MS = 15 * MINUTE_MS;

    private long startMs = Long.MIN_VALUE;
    private boolean told;
    private @Nullable String zones;
    private boolean fromBelow;
    private boolean settled = true;
    private long basedMs = Long.MIN_VALUE;
    private long disturbedMs = Long.MIN_VALUE;
    private long journalReadMs = Long.MIN_VALUE;
    private int fastest = -1;
    private int slowest = -1;
    private double ratio = Double.NaN;

    Watering() {}

    Watering copy() {
        var copy = new Watering();
        copy.startMs = startMs;
        copy.told = told;
        copy.zones = zones;
        copy.fromBelow = fromBelow;
        copy.settled = settled;
        copy.basedMs = basedMs;
        copy.disturbedMs = disturbedMs;
        copy.journalReadMs = journalReadMs;
        copy.fastest = fastest;
        copy.slowest = slowest;
        copy.ratio = ratio;
        return copy;
    }

    /** A probe has seen its place rise. */
    void seen(MoistureSpot riser, List<MoistureSpot> all) {
        traytender.rules.drying.Watering own = riser.drying().lastWatering();
        if (own == null || isSame(own.startMs())) {
            return;
        }
        begin(own.startMs(), all);
        riser.before = own.before();
    }

    private boolean isSame(long timeMs) {
        return startMs != Long.MIN_VALUE && timeMs < startMs + SAME_MS;
    }

    private void begin(long timeMs, List<MoistureSpot> all) {
        startMs = timeMs;
        told = false;
        zones = null;
        fromBelow = false;
        settled = false;
        for (MoistureSpot spot : all) {
            if (isRisenSince(spot, timeMs)) {
                continue;
            }
            double before = spot.levelAt(timeMs - 6 * MINUTE_MS);
            spot.before = Double.isNaN(before) ? spot.level() : before;
            spot.gained = 0;
            spot.othersGained = Double.NaN;
        }
    }

    /** Whether a place already rose by the watering that now turns out to have begun at another time. */
    private boolean isRisenSince(MoistureSpot spot, long timeMs) {
        var own = spot.drying().lastWatering();
        return spot.gained >= RISEN && own != null && Math.abs(own.startMs() - timeMs) < SAME_MS;
    }

    /** Reads the journal up to this minute and follows what each place gains. */
    void look(long minuteMs, Bench bench, String tray, List<MoistureSpot> all) {
        readJournal(minuteMs, bench, tray, all);
        if (startMs == Long.MIN_VALUE) {
            return;
        }
        long since = minuteMs - startMs;
        if (since <= 4 * SAME_MS) {
            for (MoistureSpot spot : all) {
                if (!Double.isNaN(spot.before)) {
                    spot.gained = Math.max(spot.gained, spot.level() - spot.before);
                }
            }
            for (MoistureSpot spot : all) {
                spot.othersGained = othersGain(spot, all, minuteMs);
            }
        }
        boolean drained = since >= (fromBelow ? 2 * SETTLED_MS : SETTLED_MS);
        if (!settled && drained && (since >= 3 * SETTLED_MS || !isRising(all))) {
            settled = true;
            double most = all.stream().mapToDouble(spot -> spot.gained).max().orElse(0);
            if (told || most >= 0.06) {
                base(minuteMs, all);
                noteSoaks(minuteMs, all);
            }
        }
    }

    private static void noteSoaks(long minuteMs, List<MoistureSpot> all) {
        for (MoistureSpot spot : all) {
            if (spot.placed && !spot.isInTrouble(minuteMs)) {
                spot.track()
                        .probe()
                        .calibration()
                        .at(Instant.ofEpochMilli(minuteMs))
                        .ifPresent(by -> spot.soaks().drained(spot.level(), spot.gained, by));
            }
        }
        for (MoistureSpot spot : all) {
            double[] others = all.stream()
                    .filter(other -> other != spot)
                    .mapToDouble(other -> other.soaks().moved())
                    .filter(moved -> !Double.isNaN(moved))
                    .sorted()
                    .toArray();
            spot.soaks().othersMoved(others.length == 0 ? 0 : others[others.length / 2]);
        }
    }

    private static boolean isRising(List<MoistureSpot> all) {
        for (MoistureSpot spot : all) {
            var own = spot.drying().lastWatering();
            if (spot.placed && own != null && !own.isSettled()) {
                return true;
            }
        }
        return false;
    }

    private void readJournal(long minuteMs, Bench bench, String tray, List<MoistureSpot> all) {
        for (JournalEntry entry : bench.journal(tray, journalReadMs, minuteMs)) {
            long at = entry.time().toEpochMilli();
            switch (entry.kind()) {
                case WATERED -> tell(entry, at, all);
                case POTTED_UP, TURNED, MOVED, SOWN -> disturbedMs = at;
                default -> {
                    // No matter for the water.
                }
            }
        }
        journalReadMs = minuteMs;
    }

    private void tell(JournalEntry entry, long at, List<MoistureSpot> all) {
        boolean alone = at - startMs > LONE_MS
                && all.stream().filter(spot -> spot.gained >= RISEN).count() <= 1;
        if (startMs == Long.MIN_VALUE || Math.abs(at - startMs) > SAME_MS || alone) {
            begin(at, all);
        }
        told = true;
        zones = entry.detail().get("zones");
        fromBelow = "below".equals(entry.detail().get("from"));
    }

    private void base(long minuteMs, List<MoistureSpot> all) {
        basedMs = minuteMs;
        for (MoistureSpot spot : all) {
            boolean heard = spot.track().lastMs() >= minuteMs - SETTLED_MS;
            spot.base = heard ? spot.level() : Double.NaN;
            spot.before = heard ? spot.before : Double.NaN;
        }
    }

    /** Compares how fast the places have dried since. */
    void compare(long minuteMs, List<MoistureSpot> all, long listenedMinutes, AlertBook book) {
        if (basedMs == Long.MIN_VALUE && listenedMinutes >= 30) {
            base(minuteMs, all);
        }
        fastest = -1;
        slowest = -1;
        ratio = Double.NaN;
        if (!settled) {
            return;
        }
        for (int i = 0; i < all.size(); i++) {
            if (!counts(all.get(i), minuteMs, listenedMinutes)) {
                continue;
            }
            if (fastest < 0 || outruns(all.get(i), all.get(fastest), book)) {
                fastest = i;
            }
        }
        for (int i = 0; fastest >= 0 && i < all.size(); i++) {
            MoistureSpot spot = all.get(i);
            if (spot.zone != all.get(fastest).zone
                    && counts(spot, minuteMs, listenedMinutes)
                    && (slowest < 0 || lost(spot) < lost(all.get(slowest)))) {
                slowest = i;
            }
        }
        if (slowest >= 0) {
            MoistureSpot fast = all.get(fastest);
            MoistureSpot slow = all.get(slowest);
            double noise = Math.hypot(
                    fast.drying().filter().spread(), slow.drying().filter().spread());
            ratio = (lost(fast) - noise) / Math.max(0.005, lost(slow) + noise);
        }
    }

    /** The zone whose alert is open stays the fastest, so that near ties do not take turns. */
    private static boolean outruns(MoistureSpot spot, MoistureSpot than, AlertBook book) {
        boolean open = book.isOpen(AlertKind.UNEVEN_DRYING, spot.zone, null);
        boolean thanOpen = book.isOpen(AlertKind.UNEVEN_DRYING, than.zone, null);
        return open == thanOpen ? lost(spot) > lost(than) : open;
    }

    private static boolean counts(MoistureSpot spot, long minuteMs, long listenedMinutes) {
        return spot.isTrusted(minuteMs, listenedMinutes) && !Double.isNaN(spot.base);
    }

    /** Moisture lost since drying counts. */
    static double lost(MoistureSpot spot) {
        return spot.base - spot.level();
    }

    int fastest() {
        return fastest;
    }

    int slowest() {
        return slowest;
    }

    double ratio() {
        return ratio;
    }

    /**
     * The largest gain among other zones than this place's, of probes that are well; NaN when the tray as a whole was not
     * watered: nobody says so and fewer than half of its probes rose.
     */
    private double othersGain(MoistureSpot spot, List<MoistureSpot> all, long minuteMs) {
        if (Double.isNaN(spot.before)) {
            return Double.NaN;
        }
        double most = Double.NaN;
        int risen = 0;
        int placed = 0;
        for (MoistureSpot other : all) {
            if (!other.placed || other.isInTrouble(minuteMs) || Double.isNaN(other.before)) {
                continue;
            }
            placed++;
            // A spike or a jumping probe gains for a moment only; water stays.
            double gain = Math.min(other.gained, other.level() - other.before + STAYS);
            risen += gain >= RISEN ? 1 : 0;
            if (other.zone != spot.zone && !(gain <= most)) {
                most = gain;
            }
        }
        return told || 2 * risen >= placed ? most : Double.NaN;
    }

    /** Whether the last watering was meant for this zone: the journal names no zones, or names this one. */
    boolean meant(Zone zone) {
        return zones == null || zones.toLowerCase(Locale.ROOT).contains(zone.word());
    }

    double showsMinutes() {
        return fromBelow ? FROM_BELOW_MINUTES : FROM_ABOVE_MINUTES;
    }

    double minutesSince(long minuteMs) {
        return startMs == Long.MIN_VALUE ? Double.NaN : (minuteMs - startMs) / (double) MINUTE_MS;
    }

    boolean isRecent(long minuteMs, Duration within) {
        return startMs != Long.MIN_VALUE && minuteMs - startMs < within.toMillis();
    }

    /** Whether the grower had hands in the tray within the last hour. */
    boolean wasDisturbed(long minuteMs) {
        return disturbedMs != Long.MIN_VALUE && minuteMs - disturbedMs < SAME_MS;
    }

    boolean isSettled() {
        return settled;
    }

    /** Event time at which it began; {@link Long#MIN_VALUE} when none is known. */
    long startMs() {
        return startMs;
    }

    /** Evenness of the last watering: the least gain over the largest, among probed places; NaN when unknown. */
    double evenness(List<MoistureSpot> all) {
        if (startMs == Long.MIN_VALUE) {
            return Double.NaN;
        }
        double least = Double.NaN;
        double most = Double.NaN;
        for (MoistureSpot spot : all) {
            if (spot.placed && !Double.isNaN(spot.before)) {
                least = Double.isNaN(least) ? spot.gained : Math.min(least, spot.gained);
                most = Double.isNaN(most) ? spot.gained : Math.max(most, spot.gained);
            }
        }
        return most >= 0.06 ? Math.max(0, least / most) : Double.NaN;
    }
}
