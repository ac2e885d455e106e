package traytender.dashboard.limits;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
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
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import traytender.config.alert.Alert;
import traytender.config.alert.AlertKind;
import traytender.config.crop.Crops;
import traytender.config.crop.LimitKey;
import traytender.config.crop.Stage;
import traytender.config.folder.SiteFolder;
import traytender.config.folder.SiteReader;
import traytender.config.reading.Marks;
import traytender.dashboard.limits.Difference.What;
import traytender.dashboard.program.Stores;
import traytender.ingest.store.CropFileVersion;
import traytender.ingest.store.RawReading;
import traytender.ingest.store.SiteStore;
import traytender.rules.Replay;

/** Limits tried and kept on a site with four days of readings. */
class LimitsDeskTest {
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
    private static final String CROP = """
            crop: tomato
            stages:
              seedling: # under lamps
                dry-line: 0.45 # they droop below
            """;
    private static final LimitChange HIGHER = new LimitChange(null, null, LimitKey.DRY_LINE, 0.05);

    @TempDir
    Path folder;

    private SiteStore store;
    private LimitsDesk desk;
    private volatile SiteFolder site;

    @BeforeEach
    void open() throws IOException {
        Files.writeString(folder.resolve("site.yaml"), SITE);
        Files.createDirectory(folder.resolve("crops"));
        Files.writeString(crop(), CROP);
        site = SiteReader.read(folder);
        var clock = Clock.fixed(NOW, ZoneOffset.UTC);
        store = Stores.toWrite(site, clock);
        desk = new LimitsDesk(() -> site, store, this::takeOver, clock);
    }

    private void takeOver(Crops crops) {
        site = new SiteFolder(site.path(), site.site(), crops);
    }

    private Path crop() {
        return folder.resolve("crops").resolve("tomato.yaml");
    }

    @AfterEach
    void close() {
        desk.close();
        store.close();
    }

    /** From full to 43 percent and watered again, every day. */
    private void storeReadings() {
        var readings = new ArrayList<RawReading>();
        for (int minute = 0; minute <= 4 * 1440; minute += 10) {
            double moisture = 0.95 - 0.52 * (minute % 1440) / 1440.0;
            readings.add(new RawReading(
                    "T01-centre-moisture", START.toEpochMilli() + 60_000L * minute, moisture, Marks.NONE));
        }
        store.readings().append(readings);
    }

    private Trial answered(List<LimitChange> changes) {
        Trial trial = desk.start(changes, START, NOW).orElseThrow();
        await().until(() -> trial.state() != Trial.State.RUNNING);
        assertThat(trial.state()).isEqualTo(Trial.State.DONE);
        return trial;
    }

    @Test
    void higherDryLine_opensDryAlertsEarlier_asReplayHasIt() {
        storeReadings();

        Trial trial = answered(List.of(HIGHER));

        var dry = trial.differences().stream()
                .filter(difference -> difference.either().kind() == AlertKind.DRY)
                .toList();
        // 0.52 of moisture a day: 0.05 of it is 2 h 18 min.
        assertThat(dry).hasSizeGreaterThanOrEqualTo(3).allSatisfy(difference -> {
            assertThat(difference.what()).isEqualTo(What.EARLIER);
            assertThat(Duration.between(
                            difference.after().opened(), difference.before().opened()))
                    .isBetween(Duration.ofMinutes(118), Duration.ofMinutes(158));
        });
        Crops others = LimitChange.applied(desk.values(List.of(HIGHER)), site.crops());
        List<Alert> replayed =
                Replay.run(site, others, List.of(), store.readings().source(site.site()));
        assertThat(trial.differences().stream().map(Difference::after).filter(alert -> alert != null))
                .containsExactlyInAnyOrderElementsOf(replayed);
        assertThat(trial.progress()).isEqualTo(1);
    }

    @Test
    void sameLimits_makeNoDifference() {
        storeReadings();

        assertThat(answered(List.of(new LimitChange("tomato", Stage.HARDENING, LimitKey.DRY_LINE, 0.05)))
                        .differences())
                .isNotEmpty()
                .allSatisfy(difference -> assertThat(difference.what()).isEqualTo(What.SAME));
    }

    @Test
    void cancelledTrial_ends() {
        storeReadings();

        Trial trial = desk.start(List.of(HIGHER), START, NOW).orElseThrow();
        trial.cancel();

        await().until(() -> trial.state() != Trial.State.RUNNING);
        assertThat(trial.state()).isIn(Trial.State.CANCELLED, Trial.State.DONE);
    }

    @Test
    void noReadings_nothingToTryItOn() {
        assertThat(desk.start(List.of(HIGHER), START, NOW)).isEmpty();
    }

    @Test
    void changes_addUpAndStopAtTheEndOfTheRange() {
        var values =
                desk.values(List.of(HIGHER, HIGHER, new LimitChange("tomato", Stage.SEEDLING, LimitKey.WET_LINE, 9)));

        assertThat(values).containsOnlyKeys("tomato");
        assertThat(values.get("tomato").get(Stage.SEEDLING))
                .containsEntry(LimitKey.DRY_LINE, 0.55)
                .containsEntry(LimitKey.WET_LINE, 1.5);
        assertThat(desk.values(List.of(HIGHER, new LimitChange(null, null, LimitKey.DRY_LINE, -0.05))))
                .isEmpty();
    }

    @Test
    void keptLimits_areWrittenWithCommentsLeft_takenOver_andBroughtBack() throws IOException {
        var change = new LimitChange("tomato", Stage.SEEDLING, LimitKey.DRY_LINE, 0.05);

        desk.keep(List.of(change), "Mira", "they drooped at noon");

        assertThat(crop()).hasContent(CROP.replace("0.45", "0.5"));
        assertThat(site.crops().get("tomato").limits(Stage.SEEDLING).dryLine()).isEqualTo(0.5);
        assertThat(SiteReader.read(folder).crops()).isEqualTo(site.crops());
        assertThat(desk.versions())
                .extracting(CropFileVersion::text, CropFileVersion::who, CropFileVersion::what, CropFileVersion::why)
                .containsExactly(
                        org.assertj.core.groups.Tuple.tuple(CROP, "", "as it was found", ""),
                        org.assertj.core.groups.Tuple.tuple(
                                CROP.replace("0.45", "0.5"),
                                "Mira",
                                "tomato, seedling: dry-line +0.05",
                                "they drooped at noon"));

        assertThat(desk.bringBack(1, "Mira", "too soon")).isTrue();

        assertThat(crop()).hasContent(CROP);
        assertThat(site.crops().get("tomato").limits(Stage.SEEDLING).dryLine()).isEqualTo(0.45);
        assertThat(desk.versions()).hasSize(3);
        assertThat(desk.bringBack(9, "", "")).isFalse();
    }

    @Test
    void cropWithoutAFile_getsOne_andLosesItAgain() throws IOException {
        Files.delete(crop());
        site = SiteReader.read(folder);

        desk.keep(List.of(HIGHER), "", "");

        assertThat(Files.readString(crop())).startsWith("crop: tomato\nstages:\n");
        assertThat(desk.bringBack(1, "", "")).isTrue();
        assertThat(crop()).doesNotExist();
        assertThat(site.crops()).isEqualTo(SiteReader.read(folder).crops());
    }

    @Test
    void whatTheHandChanged_isKeptAsAVersion_beforeItIsWrittenOver() throws IOException {
        desk.keep(List.of(HIGHER), "", "");
        String byHand = Files.readString(crop()) + "# a note by hand\n";
        Files.writeString(crop(), byHand);

        desk.keep(List.of(HIGHER), "", "");

        assertThat(desk.versions()).extracting(CropFileVersion::text).contains(byHand);
        assertThat(crop()).content().contains("# a note by hand");
    }

    @Test
    void fileThatCannotBeChangedAlone_isLeftAsItIs() throws IOException {
        String shared = """
                crop: tomato
                stages:
                  seedling: &same {dry-line: 0.45}
                  growing-on: *same
                """;
        Files.writeString(crop(), shared);
        site = SiteReader.read(folder);

        assertThatThrownBy(() -> desk.keep(
                        List.of(new LimitChange("tomato", Stage.GROWING_ON, LimitKey.DRY_LINE, 0.05)), "", ""))
                .isInstanceOf(CropFolder.RefusedException.class)
                .hasMessageContaining("Write the limits by hand");
        assertThat(crop()).hasContent(shared);
        assertThat(desk.versions()).isEmpty();
        assertThatThrownBy(() -> desk.keep(List.of(new LimitChange("tomato", null, LimitKey.DRY_LINE, 0)), "", ""))
                .hasMessage("These limits are as they are already.");
    }
}
