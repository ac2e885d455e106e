package traytender.ingest.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;
import traytender.ingest.decode.Cause;
import traytender.ingest.mqtt.Incoming;

/** What is remembered of what cannot be used stays small, and every single one is counted. */
class TallyTest {
    private static final int MILLION = 1_000_000;
    private static final int LISTED = 1_001;
    private static final Instant NOW = Instant.parse("2026-03-14T05:41:00Z");

    private final Tally tally = new Tally();

    @Test
    void aMillionTopics_areCounted_andAThousandListed() {
        for (int i = 0; i < MILLION; i++) {
            var message = message("alder/made-up/" + i, "rubbish");
            tally.unassigned(message);
            tally.refused(message, List.of(Cause.NOT_A_NUMBER));
        }

        assertThat(tally.counts().unassigned()).isEqualTo(MILLION);
        assertThat(tally.unassigned())
                .hasSize(LISTED)
                .extracting(Unassigned::count)
                .satisfies(counts -> assertThat(sum(counts)).isEqualTo(MILLION));
        assertThat(tally.counts().refused()).isEqualTo(MILLION);
        assertThat(tally.refusals())
                .hasSize(LISTED)
                .extracting(Refusal::count)
                .satisfies(counts -> assertThat(sum(counts)).isEqualTo(MILLION));
        assertThat(tally.counts().refusals()).hasSize(1);
    }

    @Test
    void topicThatIsLongerThanASensors_isCountedWithTheFurtherOnes() {
        tally.unassigned(message("x".repeat(60_000), "1"));

        assertThat(tally.unassigned()).extracting(Unassigned::topic).containsExactly("(further topics)");
    }

    @Test
    void newestPayload_isShown_wholeOnlyUpToItsBound() {
        tally.unassigned(message("alder/new", "1"));
        tally.unassigned(message("alder/new", "2"));
        tally.unassigned(message("alder/long", "9".repeat(60_000)));

        assertThat(tally.unassigned())
                .containsExactly(
                        new Unassigned("alder/long", "9".repeat(80) + "...", "", 1, NOW),
                        new Unassigned("alder/new", "2", "2", 2, NOW));
    }

    private static long sum(List<? extends Long> counts) {
        return counts.stream().mapToLong(Long::longValue).sum();
    }

    private static Incoming message(String topic, String payload) {
        return new Incoming(topic, payload.getBytes(StandardCharsets.UTF_8), NOW, false, null);
    }
}
