package traytender.dashboard.page;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Consumer;
import traytender.config.alert.Alert;
import traytender.config.crop.Crops;
import traytender.config.reading.Reading;
import traytender.config.site.Probe;
import traytender.config.site.Site;
import traytender.ingest.store.Act;
import traytender.ingest.store.KeptEntry;
import traytender.rules.night.NightReport;
import traytender.rules.view.MatView;
import traytender.rules.view.ProbeView;
import traytender.rules.view.RoomView;
import traytender.rules.view.TrayView;

/**
 * Every question the page asks of the running program. Answers are immutable and as of the moment of asking; none is null.
 *
 * <p><b>Safe to ask from any thread, and quick: no answer waits for the watcher or for the broker.</b>
 */
public interface BenchFacts {
    /** The site as its folder describes it. */
    Site site();

    /** The time it is on the bench: the wall clock, except where a simulation sets the pace. */
    Instant now();

    /** Every tray that is watched, in the site's order. */
    List<TrayView> trays();

    /**
     * How a tray looked at times of the past, from its stored readings.
     *
     * @param times rising
     */
    List<TrayView> history(String tray, List<Instant> times);

    /** Every room, in the site's order. */
    List<RoomView> rooms();

    /** Every mat, in the site's order. */
    List<MatView> mats();

    /** Every probe with its newest reading, in the site's order. */
    List<ProbeView> probes();

    /** Alerts, newest opening first. */
    List<Alert> alerts(AlertChoice choice);

    /** By alert, what the grower did about it last, also where it asks again by now; what was undone is not among them. */
    Map<String, Act> marks();

    /**
     * Stored readings of a probe, calibrated, in order of time.
     *
     * @param from from this time on, inclusive
     * @param to up to this time, exclusive
     */
    List<Reading> readings(Probe probe, Instant from, Instant to);

    /** The crops with the limits they are judged by. */
    Crops crops();

    /** Every journal entry on record, in order of time; those that no longer count are marked. */
    List<KeptEntry> journal();

    /** What the night that begins on the evening of that date was like, as far as it has come. */
    NightReport night(LocalDate date);

    /** What became of the readings that came in. */
    MessageCounts counts();

    /** What was refused, by cause and topic, the most frequent first. */
    List<Refusal> refusals();

    /** Topics heard that no probe names, in order of topic. */
    List<UnassignedTopic> unassigned();

    /** Whether the program is doing its work; plants and probes never make it unwell. */
    Health health();

    /** The last time in which the program did not run, while it is news; empty when there was none within a day. */
    Optional<Outage> outage();

    /** How the sending to the long-term database stands; empty when the site names none. */
    Optional<LongTerm> longTerm();

    /**
     * Asks to be told of changes until the answer is closed. The listener is called from the program's own threads, must
     * return at once and must not throw; it may be called often, and asks again for what has changed.
     */
    Subscription listen(Consumer<Change> listener);

    /** Which alerts are asked for. */
    enum AlertChoice {
        OPEN,
        /** Open ones and those that have closed, as far back as they are kept. */
        ALL
    }

    /** What has changed. */
    enum Change {
        ALERTS,
        TRAYS,
        COUNTS,
        JOURNAL
    }

    /** A listener's place; closing it ends the calls. */
    interface Subscription extends AutoCloseable {
        @Override
        void close();
    }

    /**
     * What became of readings since the program started, and on disk before; received = stored + repeated + refused.
     *
     * @param received readings that came in; one message that two probes read counts two
     * @param stored new on disk
     * @param repeated already on disk with the same probe and time
     * @param refused could not be used
     * @param unassigned messages on a topic no probe names
     * @param refusals how many were refused for each cause, together {@code refused}
     */
    record MessageCounts(
            long received, long stored, long repeated, long refused, long unassigned, Map<String, Long> refusals) {
        public MessageCounts {
            refusals = Map.copyOf(refusals);
        }
    }

    /**
     * Messages of one topic refused for one cause.
     *
     * @param cause the word of the cause, for example {@code not-a-number}
     * @param count how many
     * @param firstBytes the beginning of the newest one, as far as it can be shown as text
     * @param last when the newest one came
     */
    record Refusal(String cause, String topic, long count, String firstBytes, Instant last) {}

    /**
     * A topic that no probe names.
     *
     * @param payload the beginning of its newest message, as far as it can be shown as text
     * @param count how many messages came
     * @param last when the newest one came
     */
    record UnassignedTopic(String topic, String payload, long count, Instant last) {}

    /**
     * Readings on their way to the long-term database.
     *
     * @param waiting readings on disk that are still to be sent
     * @param sent readings it took since the program started
     * @param refused readings it refused for good; they stay in the site's own store
     * @param isTaking whether it takes readings at the moment
     */
    record LongTerm(long waiting, long sent, long refused, boolean isTaking) {}

    /**
     * How the program is.
     *
     * @param causes why it is not doing its work, in plain words; empty while all is well
     * @param notes what does not keep it from its work and still must be known, in plain words
     */
    record Health(List<String> causes, List<String> notes) {
        public Health {
            causes = List.copyOf(causes);
            notes = List.copyOf(notes);
        }

        /** Whether nothing keeps it from its work. */
        public boolean isWell() {
            return causes.isEmpty();
        }
    }
}
