package traytender.dashboard.limits;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
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
import traytender.config.folder.SiteReader;
import traytender.dashboard.limits.Difference.What;
import traytender.ingest.store.CropFileVersion;
import traytender.rules.Replay;

/** Limits tried and kept on a site with four days of readings. */
class LimitsDeskTest {
    private static final LimitChange HIGHER = new LimitChange(null, null, LimitKey.DRY_LINE, 0.05);

    @TempDir
    Path folder;

    private LimitsSite site;

    @BeforeEach
    void open() throws IOException {
        site = LimitsSite.in(folder);
    }

    @AfterEach
    void close() {
        site.close();
    }

    private Trial answered(List<LimitChange> changes) {
        Trial trial = site.desk.start(changes, LimitsSite.START, LimitsSite.NOW).orElseThrow();
        await().until(() -> trial.state() != Trial.State.RUNNING);
        assertThat(trial.state()).isEqualTo(Trial.State.DONE);
        return trial;
    }

    @Test
    void higherDryLine_opensDryAlertsEarlier_asReplayHasIt() {
        site.storeReadings();

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
        Crops others = LimitChange.applied(
                site.desk.values(List.of(HIGHER)), site.folder().crops());
        List<Alert> replayed = Replay.run(
                site.folder(),
                others,
                List.of(),
                site.store.readings().source(site.folder().site()));
        assertThat(trial.differences().stream().map(Difference::after).filter(alert -> alert != null))
                .containsExactlyInAnyOrderElementsOf(replayed);
        assertThat(trial.progress()).isEqualTo(1);
    }

    @Test
    void hoursBelowTheLine_areThoseOfTheReadings() {
        site.storeReadings();

        Trial trial = answered(List.of(HIGHER));

        // From 0.95 to 0.43 in a day: below 0.45 for 0.02/0.52 of it, below 0.50 for 0.07/0.52; on three of the four
        // days
        // the way up to the next reading, ten minutes, is counted as that.
        assertThat(trial.outside())
                .filteredOn(hours -> hours.limit() == LimitKey.DRY_LINE)
                .singleElement()
                .satisfies(hours -> {
                    assertThat(hours.tray()).isEqualTo("T01");
                    assertThat(hours.before()).isCloseTo(4 * 24 * 0.02 / 0.52 - 0.5, within(0.05));
                    assertThat(hours.after()).isCloseTo(4 * 24 * 0.07 / 0.52 - 0.5, within(0.1));
                });
    }

    @Test
    void sameLimits_makeNoDifference() {
        site.storeReadings();

        assertThat(answered(List.of(new LimitChange("tomato", Stage.HARDENING, LimitKey.DRY_LINE, 0.05)))
                        .differences())
                .isNotEmpty()
                .allSatisfy(difference -> assertThat(difference.what()).isEqualTo(What.SAME));
    }

    @Test
    void cancelledTrial_ends() {
        site.storeReadings();

        Trial trial = site.desk
                .start(List.of(HIGHER), LimitsSite.START, LimitsSite.NOW)
                .orElseThrow();
        trial.cancel();

        await().until(() -> trial.state() != Trial.State.RUNNING);
        assertThat(trial.state()).isIn(Trial.State.CANCELLED, Trial.State.DONE);
    }

    @Test
    void noReadings_nothingToTryItOn() {
        assertThat(site.desk.start(List.of(HIGHER), LimitsSite.START, LimitsSite.NOW))
                .isEmpty();
    }

    @Test
    void changes_addUpAndStopAtTheEndOfTheRange() {
        var values = site.desk.values(
                List.of(HIGHER, HIGHER, new LimitChange("tomato", Stage.SEEDLING, LimitKey.WET_LINE, 9)));

        assertThat(values).containsOnlyKeys("tomato");
        assertThat(values.get("tomato").get(Stage.SEEDLING))
                .containsEntry(LimitKey.DRY_LINE, 0.55)
                .containsEntry(LimitKey.WET_LINE, 1.5);
        assertThat(site.desk.values(List.of(HIGHER, new LimitChange(null, null, LimitKey.DRY_LINE, -0.05))))
                .isEmpty();
    }

    @Test
    void keptLimits_areWrittenWithCommentsLeft_takenOver_andBroughtBack() throws IOException {
        var change = new LimitChange("tomato", Stage.SEEDLING, LimitKey.DRY_LINE, 0.05);

        site.desk.keep(List.of(change), "Mira", "they drooped at noon");

        assertThat(site.cropFile()).hasContent(LimitsSite.CROP.replace("0.45", "0.5"));
        assertThat(site.folder().crops().get("tomato").limits(Stage.SEEDLING).dryLine())
                .isEqualTo(0.5);
        assertThat(SiteReader.read(folder).crops()).isEqualTo(site.folder().crops());
        assertThat(site.desk.versions())
                .extracting(CropFileVersion::text, CropFileVersion::who, CropFileVersion::what, CropFileVersion::why)
                .containsExactly(
                        org.assertj.core.groups.Tuple.tuple(LimitsSite.CROP, "", "as it was found", ""),
                        org.assertj.core.groups.Tuple.tuple(
                                LimitsSite.CROP.replace("0.45", "0.5"),
                                "Mira",
                                "tomato, seedling: dry-line +0.05",
                                "they drooped at noon"));

        assertThat(site.desk.bringBack(1, "Mira", "too soon")).isTrue();

        assertThat(site.cropFile()).hasContent(LimitsSite.CROP);
        assertThat(site.folder().crops().get("tomato").limits(Stage.SEEDLING).dryLine())
                .isEqualTo(0.45);
        assertThat(site.desk.versions()).hasSize(3);
        assertThat(site.desk.bringBack(9, "", "")).isFalse();
    }

    @Test
    void cropWithoutAFile_getsOne_andLosesItAgain() throws IOException {
        Files.delete(site.cropFile());
        site.read();

        site.desk.keep(List.of(HIGHER), "", "");

        assertThat(Files.readString(site.cropFile())).startsWith("crop: tomato\nstages:\n");
        assertThat(site.desk.bringBack(1, "", "")).isTrue();
        assertThat(site.cropFile()).doesNotExist();
        assertThat(site.folder().crops()).isEqualTo(SiteReader.read(folder).crops());
    }

    @Test
    void whatTheHandChanged_isKeptAsAVersion_beforeItIsWrittenOver() throws IOException {
        site.desk.keep(List.of(HIGHER), "", "");
        String byHand = Files.readString(site.cropFile()) + "# a note by hand\n";
        Files.writeString(site.cropFile(), byHand);

        site.desk.keep(List.of(HIGHER), "", "");

        assertThat(site.desk.versions()).extracting(CropFileVersion::text).contains(byHand);
        assertThat(site.cropFile()).content().contains("# a note by hand");
    }

    @Test
    void fileThatCannotBeChangedAlone_isLeftAsItIs() throws IOException {
        String shared = """
                crop: tomato
                stages:
                  seedling: &same {dry-line: 0.45}
                  growing-on: *same
                """;
        Files.writeString(site.cropFile(), shared);
        site.read();

        assertThatThrownBy(() -> site.desk.keep(
                        List.of(new LimitChange("tomato", Stage.GROWING_ON, LimitKey.DRY_LINE, 0.05)), "", ""))
                .isInstanceOf(CropFolder.RefusedException.class)
                .hasMessageContaining("Write the limits by hand");
        assertThat(site.cropFile()).hasContent(shared);
        assertThat(site.desk.versions()).isEmpty();
        assertThatThrownBy(() -> site.desk.keep(List.of(new LimitChange("tomato", null, LimitKey.DRY_LINE, 0)), "", ""))
                .hasMessage("These limits are as they are already.");
    }
}
