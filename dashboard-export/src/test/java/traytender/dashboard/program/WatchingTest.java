package traytender.dashboard.program;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CopyOnWriteArrayList;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import traytender.config.alert.Alert;
import traytender.config.alert.AlertKind;
import traytender.config.crop.Crops;
import traytender.config.folder.SiteFolder;
import traytender.config.folder.SiteReader;
import traytender.config.journal.EntryKind;
import traytender.config.journal.JournalEntry;
import traytender.config.reading.Marks;
import traytender.ingest.store.RawReading;
import traytender.ingest.store.SiteStore;
import traytender.rules.AlertChange;
import traytender.rules.Replay;

/** The watch on stored readings of four days, and what the grower does to their past. */
class WatchingTest {
    private static final Instant START = Instant.parse("2026-03-10T00:00:00Z");
    private static final Instant NOW = START.plus(Duration.ofDays(4));
    private static final String SITE = """
            site: Alder Lane Nursery
            timezone: Europe/Dublin
            rooms:
              - {id: propagation, kind: indoors}
            trays:
              - id: T01
                room: propagation
                cells: {rows: 8, columns: 16}
                medium: peat-perlite
                stage: seedling
                sowings:
                  - {rows: 1-8, crop: tomato, variety: Copper Lantern}
            probes:
              - id: T01-centre-moisture
                measures: moisture
                at: {tray: T01, row: 4, column: 8}
                message: {topic: alder/T01, format: json, value: /soil}
                calibration: none
                every: PT10M
            """;

    @TempDir
    Path folder;

    private SiteFolder site;
    private SiteStore store;
    private Watching watching;
    private final List<AlertChange> told = new CopyOnWriteArrayList<>();

    @BeforeEach
    void watch() throws IOException {
        Files.writeString(folder.resolve("site.yaml"), SITE);
        site = SiteReader.read(folder);
        var clock = Clock.fixed(NOW, ZoneOffset.UTC);
        store = Stores.toWrite(site, clock);
        store.readings().append(readings());
        watching = new Watching(site, store, told::add, () -> {}, clock);
        watching.start();
        await().until(watching::isLive);
    }

    @AfterEach
    void close() {
        watching.close();
        store.close();
    }

    /** From full to 43 percent and watered again, every day. */
    private static List<RawReading> readings() {
        var readings = new ArrayList<RawReading>();
        for (int minute = 0; minute <= 4 * 1440; minute += 10) {
            double moisture = 0.95 - 0.52 * (minute % 1440) / 1440.0;
            readings.add(new RawReading(
                    "T01-centre-moisture", START.toEpochMilli() + 60_000L * minute, moisture, Marks.NONE));
        }
        return readings;
    }

    private List<Alert> replayed(Crops crops) {
        return Replay.run(
                site, crops, store.journal().entries(), store.readings().source(site.site()));
    }

    @Test
    void history_givesTheAlertsOfReplay() {
        assertThat(watching.watch().alerts())
                .isEqualTo(replayed(site.crops()))
                .extracting(Alert::kind)
                .contains(AlertKind.DRY);
    }

    @Test
    void entryAboutYesterday_changesTheAlertsToThoseOfReplay() {
        List<Alert> before = watching.watch().alerts();
        write(new JournalEntry(
                NOW.minus(Duration.ofHours(30)), "T01", EntryKind.STAGE, Map.of("stage", "growing-on"), ""));

        await().until(() -> !watching.watch().alerts().equals(before));

        assertThat(watching.isJudgingAnew()).isFalse();
        assertThat(watching.watch().alerts()).isEqualTo(replayed(site.crops()));
    }

    @Test
    void entryAboutDaysAgo_isJudgedFromItsTimeOnAllTheSame_andTheStoreFollows() {
        List<Alert> before = watching.watch().alerts();
        write(new JournalEntry(
                NOW.minus(Duration.ofHours(80)), "T01", EntryKind.STAGE, Map.of("stage", "growing-on"), ""));

        await().until(() -> !watching.isJudgingAnew() && watching.isLive());

        assertThat(watching.watch().alerts()).isEqualTo(replayed(site.crops())).isNotEqualTo(before);
        await().untilAsserted(() ->
                assertThat(store.journal().alerts()).containsExactlyInAnyOrderElementsOf(replayed(site.crops())));
    }

    @Test
    void otherLimits_areTakenOverWithoutARestart() throws IOException {
        Files.createDirectories(folder.resolve("crops"));
        Files.writeString(folder.resolve("crops/tomato.yaml"), "crop: tomato\nstages:\n  seedling: {dry-line: 0.6}\n");
        Crops higher = SiteReader.crops(folder, null);
        List<Alert> before = watching.watch().alerts();

        watching.judgeAnew(higher);
        watching.judgeAnew(higher);
        await().until(() -> !watching.isJudgingAnew() && watching.isLive());

        assertThat(watching.watch().alerts()).isEqualTo(replayed(higher)).isNotEqualTo(before);
        assertThat(watching.folder().crops()).isEqualTo(higher);
        await().untilAsserted(() ->
                assertThat(store.journal().alerts()).containsExactlyInAnyOrderElementsOf(replayed(higher)));
    }

    private void write(JournalEntry entry) {
        store.journal().write(List.of(entry));
        watching.journal(List.of(entry));
    }
}
