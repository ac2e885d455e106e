package traytender.ingest.nursery.probe;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import traytender.config.site.Binding;
import traytender.config.site.Calibration;
import traytender.config.site.Cell;
import traytender.config.site.Cells;
import traytender.config.site.Dated;
import traytender.config.site.Location;
import traytender.config.site.Place;
import traytender.config.site.Probe;
import traytender.config.site.Quantity;
import traytender.config.site.RoomKind;
import traytender.ingest.nursery.probe.ProbeFault.Kind;
import traytender.ingest.nursery.world.Noise;
import traytender.ingest.nursery.world.Plugs;
import traytender.ingest.nursery.world.RoomAir;
import traytender.ingest.nursery.world.RoomTraits;
import traytender.ingest.nursery.world.Sky;
import traytender.ingest.nursery.world.SkyTraits;
import traytender.ingest.nursery.world.TrayTraits;
import traytender.ingest.nursery.world.World;

class SimulatedNodeTest {
    private static final Instant START = Instant.parse("2026-03-10T06:00:00Z");
    private static final Instant NOON = START.plus(Duration.ofHours(6));
    private static final Instant LATER = START.plus(Duration.ofHours(12));
    private static final Cells CELLS = new Cells(6, 12);

    @Test
    void soundProbe_sendsTheCountOfItsCell_everyFiveMinutes() {
        List<SimulatedMessage> messages = run();

        assertThat(messages).hasSizeBetween(285, 289);
        // 0.9 of the way from dry (3000) to wet (1400) is 1560; it dries a little by the next day.
        assertThat(messages).allMatch(message -> raw(message) > 1520 && raw(message) < 1750);
        assertThat(raw(messages.get(messages.size() - 1))).isGreaterThan(raw(messages.get(0)));
        assertThat(messages.get(0).text())
                .isEqualTo("{\"soil\":" + messages.get(0).readings().get(0).raw() + "}");
    }

    @Test
    void stuckProbe_repeatsItsLastCount() {
        List<SimulatedMessage> messages = run(new ProbeFault(Kind.STUCK, NOON, LATER, 0));

        assertThat(within(messages, NOON, LATER).stream()
                        .map(SimulatedNodeTest::raw)
                        .distinct())
                .hasSize(1);
        assertThat(within(messages, LATER, LATER.plusSeconds(7200)).stream()
                        .map(SimulatedNodeTest::raw)
                        .distinct())
                .hasSizeGreaterThan(3);
    }

    @Test
    void silentProbe_sendsNothing_andLiftedOneReadsDry() {
        assertThat(within(run(new ProbeFault(Kind.SILENT, NOON, LATER, 0)), NOON, LATER))
                .isEmpty();
        assertThat(within(run(new ProbeFault(Kind.LIFTED, NOON, LATER, 0)), NOON, LATER))
                .isNotEmpty()
                .allMatch(message -> raw(message) > 3000);
    }

    @Test
    void lateProbe_deliversInBatches_outOfOrder_andLosesNothing() {
        List<SimulatedMessage> sound = run();
        List<SimulatedMessage> late = run(new ProbeFault(Kind.LATE, START, LATER, 2));

        assertThat(late).isSortedAccordingTo(Comparator.comparing(SimulatedMessage::time));
        assertThat(late)
                .extracting(SimulatedNodeTest::reading)
                .isNotEqualTo(sound.stream().map(SimulatedNodeTest::reading).toList());
        assertThat(late)
                .extracting(SimulatedNodeTest::reading)
                .containsExactlyInAnyOrderElementsOf(
                        sound.stream().map(SimulatedNodeTest::reading).toList());
        assertThat(late)
                .allMatch(message -> Duration.between(reading(message).time(), message.time())
                                .compareTo(Duration.ofMinutes(122))
                        < 0);
    }

    @Test
    void wrongClock_tellsAnotherTime_andRangeAnotherWorld() {
        List<SimulatedMessage> ahead = run(new ProbeFault(Kind.CLOCK, NOON, LATER, -3600));
        List<SimulatedMessage> range = run(new ProbeFault(Kind.RANGE, NOON, LATER, 65535));

        assertThat(ahead)
                .anyMatch(message -> Duration.between(reading(message).time(), message.time())
                        .equals(Duration.ofHours(1)));
        assertThat(within(range, NOON, LATER)).isNotEmpty().allMatch(message -> raw(message) == 65535);
    }

    private static List<SimulatedMessage> run(ProbeFault... faults) {
        var probe = new Probe(
                "T-centre-moisture",
                Quantity.MOISTURE,
                Dated.always(new Place.InCell("T", new Cell(3, 6))),
                new Binding.Json("t/centre", "/soil", null, Map.of()),
                Dated.always(new Calibration.DryWet(3000, 1400)),
                Duration.ofMinutes(5));
        var simulated = new SimulatedProbe(probe, ProbeTraits.count(0.005), List.of(faults), START);
        var node = new SimulatedNode(
                List.of(simulated), Duration.ofMinutes(5), new SimulatedNode.Habits(0.1, 0, 0), START, new Noise(4));
        return new Bench(world(), List.of(node), List.of(), Bench.Witness.none())
                .messagesUntil(START.plus(Duration.ofDays(1)));
    }

    private static World world() {
        var noise = new Noise(2);
        var sky = new SkyTraits(new Location(53.35, -6.26), ZoneId.of("Europe/Dublin"), 8, 4, 1, 0.7, Map.of());
        var traits =
                new TrayTraits("T", "room", null, CELLS, 0.003, 0, 0.1, 0.4, 0, TrayTraits.Footprint.under(CELLS, 0));
        return new World(new Sky(sky, noise), START)
                .add(new RoomAir(new RoomTraits("room", RoomKind.INDOORS, 20, 16, 0.6, null), noise))
                .add(new Plugs(traits, 0.9, noise))
                .settled();
    }

    private static SimulatedReading reading(SimulatedMessage message) {
        return message.readings().get(0);
    }

    private static double raw(SimulatedMessage message) {
        return Double.parseDouble(reading(message).raw());
    }

    private static List<SimulatedMessage> within(List<SimulatedMessage> messages, Instant from, Instant to) {
        return messages.stream()
                .filter(message -> !reading(message).time().isBefore(from)
                        && reading(message).time().isBefore(to))
                .toList();
    }
}
