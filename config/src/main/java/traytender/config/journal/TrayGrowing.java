package traytender.config.journal;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;
import traytender.config.crop.Crops;
import traytender.config.crop.Stage;
import traytender.config.site.CellBlock;
import traytender.config.site.Mat;
import traytender.config.site.Sowing;
import traytender.config.site.Tray;

/**
 * One tray while its history is worked out: takes what happens in order of time and keeps a {@link TrayNow} for every
 * change. Blocks are kept as the tray stands on the bench at that time. <b>Not threadsafe.</b>
 */
final class TrayGrowing {
    private final Tray tray;
    private @Nullable Mat mat;
    private final Crops crops;
    private final List<TrayNow> changes = new ArrayList<>();
    private List<SowingNow> sowings = new ArrayList<>();
    private String room;
    private boolean covered;
    private boolean turned;
    private @Nullable Instant movedAt;

    TrayGrowing(Tray tray, @Nullable Mat mat, Crops crops) {
        this.tray = tray;
        this.mat = mat;
        this.crops = crops;
        this.room = tray.room();
    }

    Tray tray() {
        return tray;
    }

    List<SowingNow> sowings() {
        return List.copyOf(sowings);
    }

    CellBlock whole() {
        return CellBlock.whole(tray.cells());
    }

    List<TrayNow> changes() {
        return List.copyOf(changes);
    }

    /** Lets every recovery end that ends by this time. */
    void advance(Instant time) {
        while (true) {
            Instant next = null;
            for (SowingNow sowing : sowings) {
                Instant end = recovered(sowing);
                if (end != null && !end.isAfter(time) && (next == null || end.isBefore(next))) {
                    next = end;
                }
            }
            if (next == null) {
                return;
            }
            Instant end = next;
            change(whole(), sowing -> end.equals(recovered(sowing)) ? at(sowing, Stage.GROWING_ON, end) : sowing);
            keep(end);
        }
    }

    /** When a recovering sowing has recovered; null for one at another stage. */
    private static @Nullable Instant recovered(SowingNow sowing) {
        if (sowing.stage() != Stage.RECOVERING) {
            return null;
        }
        Instant from = sowing.pottedUpAt() == null ? sowing.stageSince() : sowing.pottedUpAt();
        // A sowing that the site file calls recovering has no date to count from: it stays so until the journal says
        // more.
        return from.equals(Instant.MIN)
                ? null
                : from.plus(Duration.ofSeconds(Math.round(sowing.limits().recoveryDays() * 86_400)));
    }

    /** Keeps how the tray stands from this time on. */
    void keep(Instant time) {
        Instant since = time.isBefore(tray.since()) ? tray.since() : time;
        var now = new TrayNow(tray.id(), room, matNow(since), tray.cells(), sowings, covered, turned, since, movedAt);
        if (!changes.isEmpty() && !changes.get(changes.size() - 1).since().isBefore(since)) {
            changes.remove(changes.size() - 1);
        }
        changes.add(now);
    }

    private @Nullable String matNow(Instant time) {
        return mat == null || !mat.room().equals(room) || mat.since().isAfter(time) ? null : mat.id();
    }

    void move(String to, Instant time) {
        room = to;
        movedAt = time;
    }

    /** Puts it on a mat, or on none. */
    void setMat(@Nullable Mat value) {
        mat = value;
    }

    void setCovered(boolean value) {
        covered = value;
    }

    void turn() {
        turned = !turned;
        sowings.replaceAll(sowing ->
                with(sowing, sowing.sowing().withBlock(sowing.block().turned(tray.cells()))));
    }

    /** Takes the plants out of these cells. */
    void clear(CellBlock block) {
        sowings = new ArrayList<>(sowings.stream()
                .flatMap(sowing -> sowing.block().without(block).stream()
                        .map(rest -> with(sowing, sowing.sowing().withBlock(rest))))
                .toList());
    }

    /** Puts a sowing in its cells, in place of whatever stands there. */
    void put(Sowing sowing, Stage stage, Instant time, @Nullable Instant pottedUpAt) {
        clear(sowing.block());
        var limits = crops.get(sowing.crop()).limits(stage);
        sowings.add(new SowingNow(sowing, stage, time, pottedUpAt, null, limits));
    }

    /** Changes every sowing in these cells; one that reaches beyond them is parted first. */
    void change(CellBlock block, UnaryOperator<SowingNow> change) {
        var changed = new ArrayList<SowingNow>();
        for (SowingNow sowing : sowings) {
            SowingNow after = change.apply(sowing);
            if (after.equals(sowing) || !sowing.block().overlaps(block)) {
                changed.add(sowing);
                continue;
            }
            sowing.block()
                    .common(block)
                    .forEach(part -> changed.add(with(after, after.sowing().withBlock(part))));
            sowing.block()
                    .without(block)
                    .forEach(part -> changed.add(with(sowing, sowing.sowing().withBlock(part))));
        }
        sowings = changed;
    }

    /** A sowing at another stage since a time; the same when it is there already, but for the date of hardening, which the site file cannot tell. */
    SowingNow at(SowingNow sowing, Stage stage, Instant time) {
        boolean undated = stage == Stage.HARDENING && sowing.stageSince().equals(Instant.MIN);
        if (sowing.stage() == stage && !undated) {
            return sowing;
        }
        var limits = crops.get(sowing.sowing().crop()).limits(stage);
        return new SowingNow(sowing.sowing(), stage, time, sowing.pottedUpAt(), sowing.fedAt(), limits);
    }

    /** A sowing that was potted up at a time, for the first time or again. */
    SowingNow pottedUp(SowingNow sowing, Instant time) {
        var limits = crops.get(sowing.sowing().crop()).limits(Stage.RECOVERING);
        return new SowingNow(sowing.sowing(), Stage.RECOVERING, time, time, sowing.fedAt(), limits);
    }

    /** A sowing sown at a time, for the first time or again. */
    SowingNow sown(SowingNow sowing, Instant time) {
        var limits = crops.get(sowing.sowing().crop()).limits(Stage.GERMINATING);
        return new SowingNow(sowing.sowing(), Stage.GERMINATING, time, null, null, limits);
    }

    static SowingNow fed(SowingNow sowing, Instant time) {
        return new SowingNow(
                sowing.sowing(), sowing.stage(), sowing.stageSince(), sowing.pottedUpAt(), time, sowing.limits());
    }

    private static SowingNow with(SowingNow now, Sowing sowing) {
        return new SowingNow(sowing, now.stage(), now.stageSince(), now.pottedUpAt(), now.fedAt(), now.limits());
    }
}
