package traytender.dashboard.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;
import traytender.config.alert.Alert;
import traytender.config.journal.EntryKind;
import traytender.config.journal.JournalEntry;

/** A mat that was told to rest stands in the journal, and as still off until the grower has seen to it. The fixture's a2 is a mat too hot. */
class MatRestTest {
    private static final Instant NOW = BenchFixture.NOW;

    @RegisterExtension
    final ServedBench served = new ServedBench();

    @Test
    void rest_isWrittenOnce_withItsReason() {
        JournalEntry entry = MatRest.entry(tooHot(), NOW, List.of()).orElseThrow();

        assertThat(entry.kind()).isEqualTo(EntryKind.MAT_OFF);
        assertThat(entry.tray()).isEqualTo("T01");
        assertThat(entry.note()).isEqualTo("T01 is at 35.5 C.");
        assertThat(MatRest.entry(tooHot(), NOW.plusSeconds(5), List.of(entry)))
                .as("after a restart")
                .isEqualTo(Optional.empty());
    }

    @Test
    void mat_isStillOff_untilTheGrowerSaysWhatIsSo() throws Exception {
        assertThat(served.json("/api/v1/mats").at("/0/told").isNull()).isTrue();

        served.bench.write(List.of(MatRest.entry(tooHot(), NOW, List.of()).orElseThrow()));

        assertThat(served.json("/api/v1/mats").at("/0/told/why").asText()).isEqualTo("T01 is at 35.5 C.");
        assertThat(served.json("/api/v1/mats").at("/0/relay").asBoolean()).isTrue();

        served.bench.write(List.of(new JournalEntry(NOW.plusSeconds(60), "T01", EntryKind.MAT_OFF, Map.of(), "")));

        assertThat(served.json("/api/v1/mats").at("/0/told").isNull()).isTrue();
    }

    private Alert tooHot() {
        return served.bench.alerts.stream()
                .filter(alert -> alert.id().equals("a2"))
                .findFirst()
                .orElseThrow();
    }
}
