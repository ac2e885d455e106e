package traytender.ingest.nursery;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Instant;
import java.util.Comparator;
import java.util.Objects;
import java.util.stream.Collectors;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import traytender.config.site.Probe;
import traytender.ingest.decode.Arrival;
import traytender.ingest.decode.TopicDecoder;
import traytender.ingest.nursery.probe.SimulatedMessage;
import traytender.ingest.nursery.probe.SimulatedReading;

class DemoNurseryTest {
    private static final Instant NOW = Instant.parse("2026-03-14T15:00:00Z");

    @TempDir
    static Path folder;

    private static DemoNursery demo;

    @BeforeAll
    static void create() {
        demo = DemoNursery.create(folder, NOW, 7);
    }

    @Test
    void history_isInOrderOfArrivalAndEndsNow() {
        assertThat(demo.history())
                .isSortedAccordingTo(Comparator.comparing(SimulatedMessage::time))
                .allMatch(message -> message.time().isBefore(NOW));
    }

    @Test
    void everyProbeOfTheSite_isHeard() {
        var heard = demo.history().stream()
                .flatMap(message -> message.readings().stream())
                .map(SimulatedReading::probe)
                .collect(Collectors.toSet());

        assertThat(heard)
                .containsExactlyInAnyOrderElementsOf(
                        demo.folder().site().probes().stream().map(Probe::id).toList());
    }

    @Test
    void sameSeed_givesTheSameBytes(@TempDir Path other) {
        var again = DemoNursery.create(other, NOW, 7);

        assertThat(again.history()).isEqualTo(demo.history());
        assertThat(again.journal()).isEqualTo(demo.journal());
    }

    @Test
    void t05sCentre_isSilentForThreeHoursAndStaysSo(@TempDir Path other) {
        var own = DemoNursery.create(other, NOW, 8);

        var last = own.history().stream()
                .filter(message -> message.topic().equals("alder/T05/centre"))
                .reduce((first, second) -> second)
                .orElseThrow();
        var live = own.next(NOW.plusSeconds(1800));

        assertThat(last.time()).isBetween(NOW.minusSeconds(3 * 3600 + 1200), NOW.minusSeconds(3 * 3600));
        assertThat(live).isNotEmpty().noneMatch(message -> message.topic().equals("alder/T05/centre"));
        assertThat(live).allMatch(message -> !message.time().isBefore(NOW));
    }

    @Test
    void everyMessage_isDecodedToItsReadings() {
        var decoders = TopicDecoder.of(demo.folder().site());

        for (SimulatedMessage message : demo.history()) {
            long arrived = message.time().toEpochMilli();
            var decoded = Objects.requireNonNull(decoders.get(message.topic()))
                    .decode(message.payload(), new Arrival(arrived, arrived + 300_000, false, 0));

            assertThat(decoded.refusals()).isEmpty();
            assertThat(decoded.readings())
                    .extracting(reading -> reading.probe() + " " + reading.timeMs())
                    .containsExactlyInAnyOrderElementsOf(message.readings().stream()
                            .map(reading ->
                                    reading.probe() + " " + reading.time().toEpochMilli())
                            .toList());
        }
    }

    @Test
    void journal_tellsOnlyThePast() {
        assertThat(demo.journal())
                .isNotEmpty()
                .allMatch(entry -> entry.time().isBefore(NOW))
                .isSortedAccordingTo(Comparator.comparing(entry -> entry.time()));
    }
}
