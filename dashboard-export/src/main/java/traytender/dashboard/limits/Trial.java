package traytender.dashboard.limits;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CancellationException;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import traytender.config.crop.Crops;
import traytender.config.folder.SiteFolder;
import traytender.config.journal.Growing;
import traytender.config.journal.JournalEntry;
import traytender.config.reading.Reading;
import traytender.config.reading.ReadingSource;
import traytender.config.site.Probe;
import traytender.config.site.Site;
import traytender.ingest.store.ReadingHistory;
import traytender.rules.Replay;
import traytender.rules.trace.Stay;
import traytender.rules.trace.Stays;

/**
 * A question what other limits would have made different, being answered: all stored readings are judged twice, by the limits in
 * force and by the others. <b>Safe from any thread.</b>
 */
public final class Trial {
    /** How far it has come. */
    public enum State {
        RUNNING,
        DONE,
        CANCELLED,
        FAILED
    }

    /**
     * What is judged.
     *
     * @param newest readings after it are left out, in both
     */
    record Question(
            SiteFolder folder,
            Crops others,
            List<JournalEntry> journal,
            ReadingHistory history,
            Instant first,
            Instant newest,
            Instant from,
            Instant to) {}

    private final int number;
    private final Question question;
    private volatile State state = State.RUNNING;
    private volatile boolean cancelled;
    private volatile double progress;
    private volatile List<Difference> differences = List.of();
    private volatile List<HoursOutside> outside = List.of();
    private volatile @Nullable String trouble;

    Trial(int number, Question question) {
        this.number = number;
        this.question = question;
    }

    void run() {
        try {
            var before = replay(question.folder.crops(), 0);
            var after = replay(question.others, 0.5);
            differences = Difference.between(before, after, question.from, question.to);
            outside = hoursOutside();
            progress = 1;
            state = State.DONE;
        } catch (CancellationException e) {
            state = State.CANCELLED;
        } catch (RuntimeException e) {
            trouble = String.valueOf(e.getMessage());
            state = State.FAILED;
            throw e;
        }
    }

    private List<traytender.config.alert.Alert> replay(Crops crops, double begin) {
        ReadingSource readings = question.history.source(question.folder.site());
        return Replay.run(
                question.folder,
                crops,
                question.journal,
                (from, to, each) ->
                        readings.scan(from, Math.min(to, question.newest.toEpochMilli() + 1), watched(each, begin)));
    }

    private Consumer<Reading> watched(Consumer<Reading> each, double begin) {
        long firstMs = question.first.toEpochMilli();
        double spanMs = Math.max(1, question.newest.toEpochMilli() - firstMs);
        return reading -> {
            if (cancelled) {
                throw new CancellationException();
            }
            progress = begin + Math.min(0.5, Math.max(0, (reading.timeMs() - firstMs) / spanMs / 2));
            each.accept(reading);
        };
    }

    private List<HoursOutside> hoursOutside() {
        Site site = question.folder.site();
        Growing old = Growing.of(site, question.folder.crops(), question.journal);
        Growing fresh = Growing.of(site, question.others, question.journal);
        Instant from = question.from;
        Instant to = question.to.isAfter(question.newest) ? question.newest.plusMillis(1) : question.to;
        var before = new ArrayList<Stay>();
        var after = new ArrayList<Stay>();
        for (Probe probe : Stays.probes(site)) {
            if (cancelled) {
                throw new CancellationException();
            }
            List<Reading> readings = question.history.readings(probe, from, to);
            before.addAll(Stays.of(old, probe, readings, from, to));
            after.addAll(Stays.of(fresh, probe, readings, from, to));
        }
        return HoursOutside.between(before, after);
    }

    /** Ends it at the next reading. */
    public void cancel() {
        cancelled = true;
    }

    public int number() {
        return number;
    }

    public State state() {
        return state;
    }

    /** From 0 to 1. */
    public double progress() {
        return progress;
    }

    /** Every pair of alerts that opened in the time asked about; empty until it is done. */
    public List<Difference> differences() {
        return differences;
    }

    /** Hours of each tray outside its limits in the time asked about; empty until it is done. */
    public List<HoursOutside> outside() {
        return outside;
    }

    /** Why it failed; null unless it did. */
    public @Nullable String trouble() {
        return trouble;
    }

    /** From when on alerts are compared. */
    public Instant from() {
        return question.from;
    }

    /** Up to when alerts are compared, exclusive. */
    public Instant to() {
        return question.to;
    }
}
