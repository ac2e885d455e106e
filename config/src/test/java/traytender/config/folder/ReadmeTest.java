package traytender.config.folder;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import traytender.config.crop.Stage;
import traytender.config.journal.EntryKind;
import traytender.config.site.Quantity;

/** The README's examples are read, and its tables leave nothing out. */
class ReadmeTest {
    private static final Pattern BLOCK = Pattern.compile("```yaml\\n(.*?)```", Pattern.DOTALL);

    @TempDir
    Path folder;

    private static String readme() throws IOException {
        return Files.readString(Path.of("README.md"));
    }

    @Test
    void examples_areReadWithoutError() throws IOException {
        List<String> blocks =
                BLOCK.matcher(readme()).results().map(match -> match.group(1)).toList();
        Folders.write(folder, "crops/tomato.yaml", blocks.get(1));

        SiteFolder read = Folders.read(folder, blocks.get(0));

        assertThat(read.site().probes()).hasSize(6);
        assertThat(read.crops().get("tomato").limits(Stage.SEEDLING).dryLine()).isEqualTo(0.5);
        assertThat(read.crops().get("tomato").sources()).containsEntry("seedling/dry-line", "my own trial of 2025");
        assertThat(Schemas.verdict(Schemas.schema("site.schema.json"), Schemas.load(blocks.get(0))))
                .isEmpty();
    }

    @Test
    void tables_nameEveryWord() throws IOException {
        String readme = readme();
        Stream<String> words = Stream.of(
                        SiteDocument.KEYS,
                        RoomReading.ROOM_KEYS,
                        RoomReading.MAT_KEYS,
                        TrayReading.KEYS,
                        TrayReading.SOWING_KEYS,
                        ProbeReading.KEYS,
                        MessagesReading.KEYS,
                        CropReading.KEYS,
                        CropReading.limitWords())
                .flatMap(List::stream);
        Stream<String> others = Stream.concat(
                Stream.of(EntryKind.values()).map(EntryKind::word),
                Stream.of(Quantity.values()).map(Quantity::word));

        assertThat(Stream.concat(words, others))
                .allSatisfy(word -> assertThat(readme).contains("`" + word + "`"));
        assertThat(CropLibrary.NAMES).allSatisfy(name -> assertThat(readme).contains(name));
        assertThat(CalibrationReading.KEYS).allSatisfy(key -> assertThat(readme).containsPattern("[{`,] ?" + key));
    }
}
