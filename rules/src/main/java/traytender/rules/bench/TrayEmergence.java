package traytender.rules.bench;

import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.LinkedHashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import traytender.config.crop.Crop;
import traytender.config.crop.Stage;
import traytender.config.journal.SowingNow;
import traytender.config.journal.TrayNow;
import traytender.rules.emergence.ThermalTime;
import traytender.rules.view.EmergenceView;

/** When each germinating sowing of one tray is due to come up, by the warmth of its root zone. <b>Not thread-safe.</b> */
final class TrayEmergence {
    /** The hour at which a sowing of which only the day is known counts as sown; our choice. */
    private static final LocalTime NOON = LocalTime.of(12, 0);

    private final Map<Key, ThermalTime> counts;

    /** A sowing, wherever in the tray it stands by now. */
    private record Key(
            String crop, String variety, @Nullable LocalDate sown, Instant since) {
        static Key of(SowingNow sowing) {
            return new Key(
                    sowing.sowing().crop(),
                    sowing.sowing().variety(),
                    sowing.sowing().sown(),
                    sowing.stageSince());
        }
    }

    TrayEmergence() {
        this(new LinkedHashMap<>());
    }

    private TrayEmergence(Map<Key, ThermalTime> counts) {
        this.counts = counts;
    }

    TrayEmergence copy() {
        var copied = new LinkedHashMap<Key, ThermalTime>();
        counts.forEach((key, count) -> copied.put(key, count.copy()));
        return new TrayEmergence(copied);
    }

    /** Takes a minute's warmth. */
    void look(long minuteMs, TrayUnit unit, TrayNow here) {
        for (SowingNow sowing : here.sowings()) {
            Crop.Emergence emergence =
                    unit.bench().crops().get(sowing.sowing().crop()).emergence();
            double celsius = warmth(unit, sowing);
            if (sowing.stage() != Stage.GERMINATING || emergence == null || Double.isNaN(celsius)) {
                continue;
            }
            Key key = Key.of(sowing);
            ThermalTime count = counts.get(key);
            if (count == null) {
                Instant sown = sown(sowing, unit.bench());
                if (sown == null) {
                    continue;
                }
                count = new ThermalTime(emergence, sown.toEpochMilli());
                counts.put(key, count);
            }
            count.accept(minuteMs, celsius);
        }
    }

    private static @Nullable Instant sown(SowingNow sowing, Bench bench) {
        if (!sowing.stageSince().equals(Instant.MIN)) {
            return sowing.stageSince();
        }
        LocalDate day = sowing.sowing().sown();
        return day == null
                ? null
                : day.atTime(NOON).atZone(bench.site().timezone()).toInstant();
    }

    /** The mean of the believed root probes in its own cells, or of the tray's, or the room's air. */
    static double warmth(TrayUnit unit, SowingNow sowing) {
        double own = 0;
        int owns = 0;
        double all = 0;
        int count = 0;
        for (RootSpot root : unit.roots()) {
            if (!root.isTrusted(unit.listenedMinutes())) {
                continue;
            }
            all += root.value();
            count++;
            if (root.sowing != null && root.sowing.sowing().equals(sowing.sowing())) {
                own += root.value();
                owns++;
            }
        }
        return owns > 0 ? own / owns : count > 0 ? all / count : unit.airC();
    }

    /** When a sowing is due; null when it does not germinate, when nobody knows when it was sown, or before an hour was heard. */
    @Nullable
    EmergenceView view(SowingNow sowing) {
        ThermalTime count = sowing.stage() == Stage.GERMINATING ? counts.get(Key.of(sowing)) : null;
        if (count == null || Double.isNaN(count.progress())) {
            return null;
        }
        return new EmergenceView(
                count.progress(),
                time(count.dueMs(ThermalTime.EARLY)),
                time(count.dueMs(1)),
                time(count.dueMs(ThermalTime.LATE)),
                count.isWindowOpen(),
                count.progress() > ThermalTime.LATE);
    }

    private static @Nullable Instant time(long timeMs) {
        return timeMs == Long.MAX_VALUE ? null : Instant.ofEpochMilli(Math.floorDiv(timeMs, 60_000L) * 60_000L);
    }
}
