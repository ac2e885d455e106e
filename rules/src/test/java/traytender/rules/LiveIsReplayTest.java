package traytender.rules;

import static org.assertj.core.api.Assertions.assertThat;
import static traytender.rules.TestBench.drying;
import static traytender.rules.TestBench.step;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;
import traytender.config.alert.Alert;
import traytender.config.alert.AlertKind;
import traytender.config.folder.SiteFolder;
import traytender.config.journal.EntryKind;
import traytender.config.journal.JournalEntry;
import traytender.config.reading.Reading;
import traytender.config.site.Quantity;

/** Same readings, same journal, same alerts, ids included: in replay, live, and in whatever order the readings came. */
class LiveIsReplayTest {
    private static final double HOURS = 14;

    /** A bench on which much goes wrong. */
    private static TestBench eventful() {
        return new TestBench()
                .all("T01", Quantity.MOISTURE, step(6, drying(0.62, 0.03), hour -> 1 - 0.02 * (hour - 6)))
                .reads("T01-corner-back-right-moisture", drying(0.6, 0.02))
                .reads("T02-centre-moisture", hour -> hour > 3 && hour < 3.2 ? 0.1 : 0.7)
                .reads("T02-edge-front-moisture", hour -> hour > 8 && hour < 11 ? Double.NaN : 0.7)
                .reads("T02-corner-back-right-temperature", step(9, 25, 34))
                .reads("propagation-air", hour -> hour > 2 && hour < 4 ? 6 : 20)
                .reads("mat-1-power", 1)
                .journal(6, "T01", EntryKind.WATERED)
                .journal(5, "T02", EntryKind.EMERGED, "percent=70");
    }

    /** A message on its way. */
    private record Delivery(long atMs, Reading reading) {}

    private static List<Delivery> deliveries(List<Reading> readings, long seed, int latePercent, int lateMinutes) {
        var random = new Random(seed);
        var deliveries = new ArrayList<Delivery>();
        for (Reading reading : readings) {
            boolean late = random.nextInt(100) < latePercent;
            long delay = random.nextInt(late ? 1 + lateMinutes * 60_000 : 3_000);
            deliveries.add(new Delivery(reading.timeMs() + delay, reading));
            if (random.nextInt(20) == 0) {
                deliveries.add(new Delivery(reading.timeMs() + delay + random.nextInt(600_000), reading));
            }
        }
        deliveries.sort(Comparator.comparingLong(Delivery::atMs));
        return deliveries;
    }

    private static Map<String, Alert> live(SiteFolder folder, List<JournalEntry> journal, List<Delivery> deliveries) {
        Map<String, Alert> told = new LinkedHashMap<>();
        try (var watch = new Watch(folder, journal, change -> note(told, change))) {
            long tick = deliveries.get(0).atMs();
            for (Delivery delivery : deliveries) {
                while (delivery.atMs() > tick + 60_000) {
                    tick += 60_000;
                    watch.tick(Instant.ofEpochMilli(tick));
                }
                watch.accept(List.of(delivery.reading()));
            }
            watch.tick(TestBench.at(HOURS).plusSeconds(10));
            assertThat(watch.alerts()).containsExactlyInAnyOrderElementsOf(told.values());
        }
        return told;
    }

    private static void note(Map<String, Alert> told, AlertChange change) {
        String id = change.alert().id();
        switch (change.what()) {
            case OPENED -> assertThat(told.put(id, change.alert())).isNull();
            case CLOSED, CHANGED -> assertThat(told.put(id, change.alert())).isNotNull();
            case WITHDRAWN -> assertThat(told.remove(id)).isNotNull();
        }
    }

    @Property(tries = 12, seed = "20260314")
    void shuffledDelayedRepeatedReadings_giveTheAlertsOfReplay(
            @ForAll long seed,
            @ForAll @IntRange(max = 30) int latePercent,
            @ForAll @IntRange(max = 240) int lateMinutes) {
        TestBench bench = eventful();
        List<Alert> replayed = bench.after(HOURS);

        Map<String, Alert> live = live(
                bench.folder(), bench.journal(), deliveries(bench.readings(HOURS), seed, latePercent, lateMinutes));

        assertThat(replayed).extracting(Alert::kind).contains(AlertKind.DRY, AlertKind.MISSED_WATERING);
        assertThat(live.values()).containsExactlyInAnyOrderElementsOf(replayed);
    }

    @Test
    void replayTwice_isTheSame() {
        assertThat(eventful().after(HOURS)).isEqualTo(eventful().after(HOURS));
    }

    @Test
    void replay_givesTheSameOnAnyNumberOfThreads() {
        List<Alert> alone = inParts(eventful(), 1);

        assertThat(alone).isNotEmpty();
        assertThat(inParts(eventful(), 2)).isEqualTo(alone);
        assertThat(inParts(eventful(), 7)).isEqualTo(alone);
    }

    private static List<Alert> inParts(TestBench bench, int parts) {
        SiteFolder folder = bench.folder();
        return Replay.run(folder, folder.crops(), bench.journal(), bench.stored(HOURS), parts);
    }

    @Test
    void storedHistoryTakenAtOnce_givesTheAlertsOfReplay() {
        TestBench bench = eventful();
        Map<String, Alert> told = new LinkedHashMap<>();
        try (var watch = new Watch(bench.folder(), bench.journal(), change -> note(told, change))) {
            watch.accept(bench.readings(HOURS));
            watch.tick(TestBench.at(HOURS).plusSeconds(10));
        }

        assertThat(told.values()).containsExactlyInAnyOrderElementsOf(bench.after(HOURS));
    }

    /** Whoever ticks the watch need not wait for the next second then. */
    @Test
    void onlyWhatChangesAMinuteLookedAt_mustBeLookedAtAgain() {
        List<Reading> readings = eventful().readings(HOURS);
        Reading late = readings.get(readings.size() / 2);
        try (var watch = new Watch(eventful().folder(), List.of(), change -> {})) {
            watch.accept(readings.stream().filter(reading -> reading != late).toList());
            watch.tick(TestBench.at(HOURS).plusSeconds(10));
            assertThat(watch.mustLookAgain()).isFalse();

            watch.accept(List.of(late));
            assertThat(watch.mustLookAgain()).isTrue();

            watch.tick(TestBench.at(HOURS).plusSeconds(11));
            assertThat(watch.mustLookAgain()).isFalse();
        }
    }

    @Test
    void journalEntriesToldLate_giveTheAlertsOfReplay() {
        TestBench bench = eventful();
        Map<String, Alert> told = new LinkedHashMap<>();
        try (var watch = new Watch(bench.folder(), List.of(), change -> note(told, change))) {
            watch.accept(bench.readings(HOURS));
            watch.tick(TestBench.at(HOURS).plusSeconds(10));
            bench.journal().forEach(watch::journal);
            watch.tick(TestBench.at(HOURS).plusSeconds(20));
        }

        assertThat(told.values()).containsExactlyInAnyOrderElementsOf(bench.after(HOURS));
    }

    @Test
    void journalEntriesWithdrawn_giveTheAlertsOfReplay() {
        TestBench bench = eventful();
        var mistaken = new ArrayList<>(bench.journal());
        mistaken.add(new JournalEntry(TestBench.at(4), "T01", EntryKind.STAGE, Map.of("stage", "hardening"), ""));
        mistaken.add(new JournalEntry(TestBench.at(2), "T02", EntryKind.COVERED, Map.of(), ""));
        mistaken.sort(Comparator.comparing(JournalEntry::time));
        var wrong = new ArrayList<>(mistaken);
        wrong.removeAll(bench.journal());
        Map<String, Alert> told = new LinkedHashMap<>();
        try (var watch = new Watch(bench.folder(), mistaken, change -> note(told, change))) {
            watch.accept(bench.readings(HOURS));
            watch.tick(TestBench.at(HOURS).plusSeconds(10));
            assertThat(List.copyOf(told.values())).as("with the mistakes").doesNotContainSequence(bench.after(HOURS));

            watch.journal(bench.journal(), wrong);
            watch.tick(TestBench.at(HOURS).plusSeconds(20));
        }

        assertThat(told.values()).containsExactlyInAnyOrderElementsOf(bench.after(HOURS));
    }

    @Test
    void views_showWhatIsSo() {
        TestBench bench = eventful();
        try (var watch = new Watch(bench.folder(), bench.journal(), change -> {})) {
            assertThat(watch.trays()).hasSize(3);
            assertThat(watch.probes())
                    .allSatisfy(probe -> assertThat(probe.last()).isNull());

            watch.accept(bench.readings(10));
            watch.tick(TestBench.at(10).plusSeconds(10));

            var tray = watch.trays().get(0);
            assertThat(tray.id()).isEqualTo("T01");
            assertThat(tray.zones()).hasSize(3);
            assertThat(tray.zones().get(0).moisture()).isBetween(0.90, 0.95);
            assertThat(tray.estimates()).hasSize(128);
            assertThat(tray.lastWatered()).isBetween(TestBench.at(5.8), TestBench.at(6.2));
            assertThat(tray.evenness()).isLessThan(0.2);
            assertThat(watch.rooms().get(0).airTemperature()).isBetween(19.0, 21.0);
            assertThat(watch.mats().get(0).state()).isEqualTo(traytender.rules.view.MatView.State.HEATING);
            assertThat(watch.probes())
                    .allSatisfy(probe -> assertThat(probe.last()).isNotNull());
        }
    }
}
