package traytender.config.folder;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import traytender.config.crop.Crop;
import traytender.config.crop.LimitKey;
import traytender.config.crop.Limits;
import traytender.config.crop.Stage;

class CropFileEditTest {
    private static final Crop TOMATO = SiteReader.crops(null, null).get("tomato");

    @TempDir
    Path folder;

    @Test
    void number_isChangedAlone_commentsAndLayoutStay() {
        String text = """
                # Ours since the wet spring.  ü 🌱
                crop: tomato
                stages:
                  seedling:      # under lamps
                    dry-line: 0.5   # was 0.45, they drooped
                    root-target: [ 16, 24 ]

                  growing-on: {dry-line: 0.4, damp-air: {humidity: 90, hours: 8}} # tight
                """;

        String edited = CropFileEdit.set(
                text,
                TOMATO,
                Map.of(
                        Stage.SEEDLING, Map.of(LimitKey.DRY_LINE, 0.55, LimitKey.ROOT_TARGET_HIGH, 23.5),
                        Stage.GROWING_ON, Map.of(LimitKey.DRY_LINE, 0.45, LimitKey.DAMP_AIR_HOURS, 9.0)));

        assertThat(edited)
                .isEqualTo(text.replace("dry-line: 0.5 ", "dry-line: 0.55 ")
                        .replace("[ 16, 24 ]", "[ 16, 23.5 ]")
                        .replace("{dry-line: 0.4,", "{dry-line: 0.45,")
                        .replace("hours: 8}", "hours: 9}"));
    }

    @Test
    void newFile_readsAsAHandWouldWriteIt() {
        var higher = Map.of(LimitKey.DRY_LINE, 0.5, LimitKey.FROST, 1.0);

        assertThat(CropFileEdit.set("", TOMATO, Map.of(Stage.HARDENING, higher, Stage.SEEDLING, higher)))
                .isEqualTo("""
                        crop: tomato
                        stages:
                          seedling:
                            dry-line: 0.5
                            frost: 1
                          hardening:
                            dry-line: 0.5
                            frost: 1
                        """);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "crop: tomato\n",
                "crop: tomato",
                "crop: tomato\nstages: {}\n",
                "crop: tomato\nstages: {hardening: {dry-line: 0.3}}\n",
                "crop: tomato\nstages:\n  hardening:\n    dry-line: 0.3\n",
                "crop: tomato\nstages:\n    seedling: {}\n",
                "crop: tomato\nstages:\n    seedling:\n        # beneath\n        frost: 1\n",
                "crop: tomato\nstages:\n  seedling:\n    root-target:\n      - 15\n      - 23\n    dry-line: 0.4\n# the end\n",
            })
    void everyLayout_givesTheNewLimitsAndNoOthers(String text) throws IOException {
        Crop before = read(text);

        String edited = CropFileEdit.set(
                text, before, Map.of(Stage.SEEDLING, Map.of(LimitKey.DRY_LINE, 0.5, LimitKey.ROOT_TARGET_LOW, 16.0)));

        Crop after = read(edited);
        for (Stage stage : CropReading.STAGES) {
            Limits expected = stage == Stage.SEEDLING
                    ? before.limits(stage).with(Map.of(LimitKey.DRY_LINE, 0.5, LimitKey.ROOT_TARGET_LOW, 16.0))
                    : before.limits(stage);
            assertThat(after.limits(stage)).as(stage.word() + " in\n" + edited).isEqualTo(expected);
        }
        assertThat(List.of(edited.split("\n"))).containsAll(comments(text));
    }

    private static List<String> comments(String text) {
        return text.lines().filter(line -> line.strip().startsWith("#")).toList();
    }

    @ParameterizedTest
    @EnumSource(LimitKey.class)
    void everyLimit_canBeSetInAnEmptyFile_andChangedAgain(LimitKey key) throws IOException {
        double value = TOMATO.limits(Stage.GERMINATING).get(key) * 0.75 + 0.25 * key.highest();
        String first = CropFileEdit.set("", TOMATO, Map.of(Stage.GERMINATING, Map.of(key, key.lowest())));

        String edited = CropFileEdit.set(first, TOMATO, Map.of(Stage.GERMINATING, Map.of(key, value)));

        assertThat(edited).contains(CropReading.wordInFile(key));
        assertThat(edited.lines()).hasSameSizeAs(first.lines().toList());
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "- a list\n",
                "{crop: tomato}\n",
                "crop: [tomato\n",
                "crop: tomato\nstages: 3\n",
                "crop: tomato\nstages:\n  seedling: 5\n"
            })
    void whatIsNoCropFile_isRefusedWithAWord(String text) {
        assertThatThrownBy(() -> CropFileEdit.set(text, TOMATO, Map.of(Stage.SEEDLING, Map.of(LimitKey.DRY_LINE, 0.5))))
                .isInstanceOf(UneditableException.class)
                .hasMessageMatching("(?s).*(file|YAML).*");
    }

    private Crop read(String text) throws IOException {
        Path crops = Files.createDirectories(folder.resolve("crops"));
        if (text.isEmpty()) {
            return TOMATO;
        }
        Files.writeString(crops.resolve("tomato.yaml"), text);
        return SiteReader.crops(folder, null).get("tomato");
    }
}
