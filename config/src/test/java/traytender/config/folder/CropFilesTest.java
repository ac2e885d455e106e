package traytender.config.folder;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import traytender.config.crop.Crop;
import traytender.config.crop.Crops;
import traytender.config.crop.Stage;

class CropFilesTest {
    private static final Crops BUILT_IN = SiteReader.crops(null, null);

    @TempDir
    Path folder;

    private Crops crops(String name, String text) {
        Folders.write(folder, "crops/" + name + ".yaml", text);
        return SiteReader.crops(folder, null);
    }

    private String error(String name, String text) {
        Folders.write(folder, "crops/" + name + ".yaml", text);
        var wrong = catchThrowableOfType(SiteFolderException.class, () -> SiteReader.crops(folder, null));
        return wrong.errors().get(0).toString();
    }

    @Test
    void file_overridesTheBuiltInCropKeyByKey() {
        Crop tomato = crops("tomato", "crop: tomato\nstages: {seedling: {dry-line: 0.5, damp-air: {hours: 6}}}")
                .get("tomato");

        assertThat(tomato.limits(Stage.SEEDLING).dryLine()).isEqualTo(0.5);
        assertThat(tomato.limits(Stage.SEEDLING).dampAirHours()).isEqualTo(6);
        assertThat(tomato.limits(Stage.SEEDLING).dampAirHumidity())
                .isEqualTo(BUILT_IN.get("tomato").limits(Stage.SEEDLING).dampAirHumidity());
        assertThat(tomato.limits(Stage.GERMINATING))
                .isEqualTo(BUILT_IN.get("tomato").limits(Stage.GERMINATING));
        assertThat(tomato.pottedUp()).isTrue();
        assertThat(tomato.sources())
                .containsEntry("seedling/dry-line", "crops/tomato.yaml")
                .containsEntry(
                        "seedling/wet-line", BUILT_IN.get("tomato").sources().get("seedling/wet-line"));
    }

    @Test
    void emptyStages_changeNothing() {
        Crop tomato = crops("tomato", "crop: tomato\nstages: {}").get("tomato");

        assertThat(tomato).isEqualTo(BUILT_IN.get("tomato"));
    }

    @Test
    void cropThatIsNotBuiltIn_mayBeginWithAnother() {
        Crop physalis = crops("physalis", "crop: physalis\nlike: tomato\nplant-out-weeks: 3\n")
                .get("physalis");

        assertThat(physalis.name()).isEqualTo("physalis");
        assertThat(physalis.plantOutWeeks()).isEqualTo(3);
        assertThat(physalis.limits(Stage.SEEDLING))
                .isEqualTo(BUILT_IN.get("tomato").limits(Stage.SEEDLING));
    }

    @Test
    void cropThatIsNotBuiltIn_mustGiveEveryLimit() {
        assertThat(error("physalis", "crop: physalis\nstages:\n  seedling: {dry-line: 0.5}\n"))
                .startsWith(
                        "crops/physalis.yaml:1:1: the crop physalis is not built in, and its stage germinating has no"
                                + " dry-line, wet-line")
                .endsWith("give them, or begin with \"like: tomato\" or another crop that is built in");
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
                    {dry-line: 0.96}                  | 2:31: tomato seedling: dry-line 0.96 is not below wet-line 0.95; less than 0.95 is right for dry-line, or a larger wet-line
                    {wet-line: 0.3}                   | 2:31: tomato seedling: dry-line 0.45 is not below wet-line 0.3; less than 0.3 is right for dry-line, or a larger wet-line
                    {root-hot: 36}                    | 2:31: tomato seedling: root-hot 36 is not below root-shut-off 34; at most 34 is right for root-hot, or a larger root-shut-off
                    {root-target: [24, 20]}           | 2:35: tomato seedling: root-target-low 24 is not below root-target-high 20; at most 20 is right for root-target-low, or a larger root-target-high
                    {root-cold: 30}                   | 2:32: tomato seedling: root-cold 30 is not below root-hot 30; less than 30 is right for root-cold, or a larger root-hot
                    {air-night-cold: 35}              | 2:37: tomato seedling: air-night-cold 35 is not below air-hot 34; less than 34 is right for air-night-cold, or a larger air-hot
                    """)
    void contradiction_isReportedAtTheNumberTheFileGives(String limits, String expected) {
        assertThat(error("tomato", "crop: tomato\nstages: {seedling: " + limits + "}"))
                .isEqualTo("crops/tomato.yaml:" + expected);
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
                    crop: tomatoes                    | 1:7: the crop is "tomatoes", the file crops/tomato.yaml; give the file the crop's name
                    like: moonflower                  | 1:7: there is no built-in crop "moonflower" to begin with; right are asparagus
                    {stages: {seedling: {dry: 1}}}    | 1:22: unknown key "dry" in seedling; right are dry-line
                    {stages: {seedling: {root-target: 20}}} | 1:35: root-target is "20"; a list is right, each item after a dash
                    {stages: {seedling: {root-target: [1, 2, 3]}}} | 1:35: root-target has 3 numbers; [lowest, highest] is right
                    {stages: {seedling: {root-cold: 18 C}}} | 1:33: root-cold is "18 C"; a number from -10 to 40 C is right
                    {stages: {seedling: {wet-hours: -1}}} | 1:33: wet-hours is "-1"; a number from 0 to 1000 hours is right
                    {potted-up: "yes"}                | 1:13: potted-up is "yes"; true or false is right
                    {emergence: {base: 8}}            | 1:13: emergence has no "degree-days"; give its degree-days
                    """)
    void wrongCropFile_isReportedAtItsPlace(String text, String expected) {
        assertThat(error("tomato", text)).startsWith("crops/tomato.yaml:" + expected);
    }

    @Test
    void overrideFolder_liesOverTheSitesOwn() {
        Folders.write(folder, "crops/tomato.yaml", "stages: {seedling: {dry-line: 0.5, wet-hours: 10}}");
        Folders.write(folder, "trial/tomato.yaml", "stages: {seedling: {dry-line: 0.55}}");

        Crop tomato = SiteReader.crops(folder, folder.resolve("trial")).get("tomato");

        assertThat(tomato.limits(Stage.SEEDLING).dryLine()).isEqualTo(0.55);
        assertThat(tomato.limits(Stage.SEEDLING).wetHours()).isEqualTo(10);
    }

    @Test
    void twoFilesOfOneCrop_areRefused() {
        Folders.write(folder, "crops/tomato.yml", "{}");

        assertThat(error("tomato", "{}")).contains("the crop tomato has two files");
    }

    @Test
    void sowingOfACropWithErrors_isNoFurtherError() {
        Folders.write(folder, "crops/physalis.yaml", "like: nothing");
        String site = Folders.LEAST + Folders.TRAY + "    sowings: [{crop: physalis}]\n";

        assertThat(Folders.errors(folder, site)).singleElement().asString().startsWith("crops/physalis.yaml:1:7");
    }

    @Test
    void siteWith500Trays_isRead() {
        var site = new StringBuilder(Folders.LEAST).append("trays:\n");
        for (int i = 1; i <= 500; i++) {
            site.append("  - {id: T%d, room: propagation, cells: {rows: 8, columns: 16}, sowings: [{crop: kale}]}\n"
                    .formatted(i));
        }
        site.append("probes:\n");
        for (int i = 1; i <= 500; i++) {
            for (int row = 1; row <= 8; row++) {
                site.append(
                        "  - {id: T%d-%d, measures: moisture, at: {tray: T%d, row: %d, column: 3}, message: {topic: t/%d, format: json, value: /%d}, calibration: {dry: 2900, wet: 1300}, every: PT1M}\n"
                                .formatted(i, row, i, row, i, row));
            }
        }

        assertThat(Folders.read(folder, site.toString()).site().probes()).hasSize(4000);
    }
}
