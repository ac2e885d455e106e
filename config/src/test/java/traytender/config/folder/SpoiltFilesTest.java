package traytender.config.folder;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.StringReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.lifecycle.AfterContainer;
import net.jqwik.api.lifecycle.BeforeContainer;
import traytender.config.journal.JournalCsv;

/** Whatever is done to a file, reading it ends in a site or in errors with a place, never in another exception. */
class SpoiltFilesTest {
    private static Path folder = Path.of("");

    record Edit(int place, int cut, String put) {}

    @BeforeContainer
    static void makeFolder() throws IOException {
        folder = Files.createTempDirectory("spoilt");
        Files.createDirectories(folder.resolve("crops"));
    }

    @AfterContainer
    static void deleteFolder() throws IOException {
        try (var files = Files.walk(folder)) {
            for (Path file : files.sorted((one, other) -> other.compareTo(one)).toList()) {
                Files.delete(file);
            }
        }
    }

    @Property(seed = "20260314")
    void spoiltSite_endsInASiteOrInErrors(@ForAll("edits") List<Edit> edits) throws IOException {
        Files.deleteIfExists(folder.resolve("crops/tomato.yaml"));
        Files.write(folder.resolve("site.yaml"), spoil(SiteReaderTest.resource("alder-lane.yaml"), edits));

        readOrErrors();
    }

    @Property(seed = "20260314")
    void spoiltCrop_endsInCropsOrInErrors(@ForAll("edits") List<Edit> edits) throws IOException {
        Files.writeString(folder.resolve("site.yaml"), Folders.LEAST);
        Files.write(folder.resolve("crops/tomato.yaml"), spoil(SiteReaderTest.resource("library/tomato.yaml"), edits));

        readOrErrors();
    }

    private static void readOrErrors() {
        try {
            assertThat(SiteReader.read(folder).site().name()).isNotBlank();
        } catch (SiteFolderException wrong) {
            assertThat(wrong.errors()).isNotEmpty();
            assertThat(wrong.errors()).allSatisfy(error -> {
                assertThat(error.line()).isPositive();
                assertThat(error.column()).isPositive();
                assertThat(error.toString())
                        .doesNotContain("\n")
                        .matches("(site|crops/tomato)\\.yaml:\\d+:\\d+: .+; .+");
            });
        }
    }

    @Property(seed = "20260314")
    void anyText_isReadAsAJournal(@ForAll("edits") List<Edit> edits) {
        String journal = """
                time,tray,entry,detail
                2026-03-02T09:00:00Z,T01,sown,"rows=1-4;crop=tomato"
                2026-03-09T09:15:00+01:00,T02,watered,zones=centre
                2026-03-09T09:15:00Z,T01,note,"a ""word"" here"
                """;
        String spoilt = new String(spoil(journal, edits), StandardCharsets.UTF_8);

        JournalCsv read = JournalCsv.read(new StringReader(spoilt));

        assertThat(read.entries().size() + read.rejected().size()).isLessThanOrEqualTo(200);
        assertThat(read.rejected())
                .allSatisfy(rejected -> assertThat(rejected.line()).isPositive());
    }

    private static byte[] spoil(String text, List<Edit> edits) {
        var spoilt = new StringBuilder(text);
        for (Edit edit : edits) {
            int place = Math.floorMod(edit.place(), spoilt.length() + 1);
            spoilt.replace(place, Math.min(spoilt.length(), place + edit.cut()), edit.put());
        }
        return spoilt.toString().getBytes(StandardCharsets.UTF_8);
    }

    @Provide
    Arbitrary<List<Edit>> edits() {
        Arbitrary<String> put = Arbitraries.of(
                "",
                "",
                ":",
                ": ",
                "- ",
                "\n",
                "\n  ",
                "\t",
                "[",
                "]",
                "{",
                "}",
                ",",
                "#",
                "&a ",
                "*a",
                "!t ",
                "!!int ",
                "|\n",
                ">",
                "'",
                "\"",
                "\\",
                "%YAML 1.1\n---\n",
                "---\n",
                "...\n",
                "? ",
                "<<: ",
                "~",
                "null",
                "0x" + "f".repeat(40),
                "1e999",
                ".nan",
                "-0",
                "99999999999999999999",
                "\u0000",
                "\u0007",
                "\uFEFF",
                "\uD83C\uDF31",
                "\uD83C",
                "-",
                "T",
                "999999",
                "P",
                "'' ");
        return Combinators.combine(
                        Arbitraries.integers(), Arbitraries.integers().between(0, 8), put)
                .as(Edit::new)
                .list()
                .ofMinSize(1)
                .ofMaxSize(4);
    }
}
