package traytender.dashboard.program;

import com.sun.management.UnixOperatingSystemMXBean;
import java.lang.management.ManagementFactory;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import traytender.dashboard.page.BenchFacts.Health;
import traytender.ingest.decode.Cause;
import traytender.ingest.intake.Intake;
import traytender.ingest.intake.Refusal;
import traytender.ingest.store.InfluxOutbox;
import traytender.ingest.store.OutboxState;
import traytender.ingest.store.SiteStore;

/** How the program is, asked of its parts. <b>Safe from any thread.</b> */
final class ProgramHealth {
    /** Share of the file handles above which the grower is told; our choice. */
    private static final double MANY_HANDLES = 0.9;

    /** As many sensors with a wrong clock are named at once; our choice. */
    private static final int MOST_CLOCKS = 5;

    /** As long as one probe may be silent before that is told. */
    private static final Duration ALL_SILENT = Duration.ofMinutes(60);

    private final SiteStore store;
    private final @Nullable InfluxOutbox outbox;
    private final Intake intake;
    private final Watching watching;
    private final Supplier<List<String>> siteNotes;
    private final Supplier<Optional<String>> heartbeatTrouble;
    private final Supplier<Optional<String>> outage;
    private final Clock clock;
    private final Instant started;

    /**
     * @param siteNotes what is to be told of the site's files
     * @param heartbeatTrouble why the last heartbeat was not taken, if it was not
     * @param outage what the last outage was like, in words, while it is news
     */
    ProgramHealth(
            SiteStore store,
            @Nullable InfluxOutbox outbox,
            Intake intake,
            Watching watching,
            Supplier<List<String>> siteNotes,
            Supplier<Optional<String>> heartbeatTrouble,
            Supplier<Optional<String>> outage,
            Clock clock) {
        this.siteNotes = siteNotes;
        this.store = store;
        this.outbox = outbox;
        this.intake = intake;
        this.watching = watching;
        this.heartbeatTrouble = heartbeatTrouble;
        this.outage = outage;
        this.clock = clock;
        this.started = clock.instant();
    }

    /** Whether it does its work now, and what must be known besides. */
    Health now() {
        return new Health(causes(), notes());
    }

    /** Whether its threads live; one that has ended does not come back. */
    boolean isAlive() {
        return intake.isAlive() && watching.isAlive();
    }

    private List<String> causes() {
        List<String> causes = new ArrayList<>();
        if (!watching.isLive()) {
            causes.add("stored history is still being evaluated");
        }
        String trouble = watching.trouble();
        if (trouble != null) {
            causes.add(trouble);
        }
        var state = intake.state();
        causes.addAll(state.troubles());
        if (!state.isSubscribed() && state.troubles().isEmpty()) {
            causes.add("the broker has not confirmed the subscription yet");
        }
        return causes;
    }

    private List<String> notes() {
        List<String> notes = new ArrayList<>(siteNotes.get());
        outage.get().ifPresent(notes::add);
        for (String old : store.standingAside()) {
            notes.add("a database was found damaged and set aside whole as data/" + old + "; a new one was begun."
                    + "\nMaybe read it with sqlite3 " + old + " .recover, then take it away from there.");
        }
        if (intake.isClockWrong()) {
            notes.add("this machine's clock stands before the newest reading on disk, so it must be wrong; readings"
                    + " without a time of their own carry its time.");
        }
        intake.clockSetBack()
                .filter(set -> Duration.between(set.at(), clock.instant()).compareTo(LastOutage.TOLD_FOR) < 0)
                .ifPresent(set -> notes.add(
                        "this machine's clock was set back by " + set.by().toMinutes()
                                + " minutes at " + set.at().truncatedTo(ChronoUnit.SECONDS)
                                + "; readings that came before it without a time of their own stand that far ahead."));
        addHandles(notes);
        notes.addAll(clocksAhead(intake.refusals(), clock.instant()));
        store.readings().newestTime().ifPresent(newest -> addSilence(newest, notes));
        outbox().ifPresent(state -> addOutbox(state, notes));
        heartbeatTrouble
                .get()
                .ifPresent(why -> notes.add("the heartbeat is not taken, so its silence means nothing: " + why));
        return notes;
    }

    private static void addHandles(List<String> notes) {
        if (ManagementFactory.getOperatingSystemMXBean() instanceof UnixOperatingSystemMXBean system) {
            long open = system.getOpenFileDescriptorCount();
            long most = system.getMaxFileDescriptorCount();
            if (open > MANY_HANDLES * most) {
                notes.add("the program has " + open + " files and connections open and may have " + most
                        + "; beyond that nobody can connect any more.");
            }
        }
    }

    /** A sensor whose clock runs ahead falls silent to the watch, for its readings are refused; this says why. */
    static List<String> clocksAhead(List<Refusal> refusals, Instant now) {
        return refusals.stream()
                .filter(refusal -> refusal.cause().equals(Cause.FUTURE.word()))
                .filter(refusal -> Duration.between(refusal.last(), now).compareTo(ALL_SILENT) < 0)
                .limit(MOST_CLOCKS)
                .map(refusal -> "the sensor at " + refusal.topic()
                        + " stamps its readings more than five minutes ahead of this machine's clock, so they are refused ("
                        + refusal.count() + " so far)."
                        + "\nMaybe set the sensor's clock, or this machine's; its probes count as silent until then.")
                .toList();
    }

    /** No alert can tell that nothing is heard from anything: in the readings alone it looks as if the program had been off. */
    private void addSilence(Instant newest, List<String> notes) {
        Instant since = newest.isAfter(started) ? newest : started;
        Duration silence = Duration.between(since, clock.instant());
        if (silence.compareTo(ALL_SILENT) >= 0) {
            notes.add(
                    "nothing has been heard from any probe for "
                            + (silence.toHours() < 2 ? silence.toMinutes() + " minutes" : silence.toHours() + " hours")
                            + ", so no tray is watched."
                            + "\nMaybe the sensors' power, the broker or the network is down. Look at the trays yourself until they speak again.");
        }
    }

    private static void addOutbox(OutboxState state, List<String> notes) {
        if (state.trouble() != null) {
            notes.add("InfluxDB takes no readings, " + state.pending() + " wait on disk: " + state.trouble());
        }
        if (state.setAside() > 0) {
            notes.add("InfluxDB refused " + state.setAside() + " readings for good; they are kept here"
                    + (state.lastRefusal() == null ? "" : ". Its last word: " + state.lastRefusal()));
        }
    }

    /** How the sending to the long-term database stands; empty when the site names none. */
    Optional<OutboxState> outbox() {
        return Optional.ofNullable(outbox).map(InfluxOutbox::state);
    }
}
