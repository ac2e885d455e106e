package traytender.config.journal;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import traytender.config.crop.Crops;
import traytender.config.crop.Stage;
import traytender.config.site.Mat;
import traytender.config.site.Site;
import traytender.config.site.Sowing;
import traytender.config.site.Tray;

/** Walks through what the site file dates and the journal tells, in order of time. <b>Not threadsafe.</b> */
final class GrowingWalk {
    private final Map<String, TrayGrowing> trays = new LinkedHashMap<>();
    private final List<Growing.Doubt> doubts = new ArrayList<>();
    private final List<Step> steps = new ArrayList<>();
    private final EntryEffects effects;

    /** Something that happens to one tray; those of the same time in the order they were noted. */
    private record Step(Instant time, Runnable what) {}

    GrowingWalk(Site site, Crops crops, Instant firstReading) {
        effects = new EntryEffects(site, crops, trays, doubts);
        for (Tray tray : site.trays()) {
            Mat mat = tray.mat() == null ? null : site.mat(tray.mat()).orElse(null);
            var growing = new TrayGrowing(tray, mat, crops);
            trays.put(tray.id(), growing);
            growing.keep(tray.since());
            tray.sowings().forEach(sowing -> stepOfSowing(growing, sowing, firstReading));
            stepOfMat(growing, mat);
        }
    }

    Growing walk(List<JournalEntry> entries) {
        for (JournalEntry entry : entries) {
            TrayGrowing growing = trays.get(entry.tray());
            if (growing == null) {
                doubts.add(new Growing.Doubt(entry, "there is no tray named " + entry.tray()));
            } else {
                steps.add(new Step(entry.time(), () -> effects.take(growing, entry)));
            }
        }
        steps.stream().sorted(Comparator.comparing(Step::time)).forEach(step -> step.what.run());
        var changes = new LinkedHashMap<String, List<TrayNow>>();
        trays.forEach((id, growing) -> {
            growing.advance(Instant.MAX);
            changes.put(id, growing.changes());
        });
        return new Growing(changes, doubts);
    }

    private void stepOfSowing(TrayGrowing growing, Sowing sowing, Instant firstReading) {
        Stage own = sowing.stage() == null ? growing.tray().stage() : sowing.stage();
        Instant since = sowing.since();
        steps.add(new Step(since, () -> {
            growing.advance(since);
            growing.put(sowing, own, since, null);
            growing.keep(since);
        }));
        if (since.isBefore(firstReading)) {
            steps.add(new Step(firstReading, () -> catchUp(growing, sowing, own, firstReading)));
        }
    }

    /** The file's stage is the one at the first reading: what the journal says of earlier times cannot lag behind it. */
    private static void catchUp(TrayGrowing growing, Sowing sowing, Stage own, Instant firstReading) {
        growing.advance(firstReading);
        growing.change(
                growing.whole(),
                now -> now.sowing().variety().equals(sowing.variety())
                                && now.sowing().crop().equals(sowing.crop())
                                && now.stage().compareTo(own) < 0
                        ? growing.at(now, own, firstReading)
                        : now);
        growing.keep(firstReading);
    }

    private void stepOfMat(TrayGrowing growing, @Nullable Mat mat) {
        if (mat != null && mat.since().isAfter(Instant.MIN)) {
            steps.add(new Step(mat.since(), () -> {
                growing.advance(mat.since());
                growing.keep(mat.since());
            }));
        }
    }
}
