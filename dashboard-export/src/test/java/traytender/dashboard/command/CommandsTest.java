package traytender.dashboard.command;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import traytender.ingest.store.SiteLock;

/** The commands on stored readings, as the command line runs them. */
class CommandsTest {
    @TempDir
    Path folder;

    private Path site;

    @BeforeEach
    void writeSite() throws IOException {
        site = SmallSite.in(folder.resolve("site"));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "demo",
                "run",
                "new",
                "check",
                "credentials",
                "import",
                "replay",
                "night",
                "export",
                "backup",
                "restore"
            })
    void everyCommand_tellsItsUseAndItsVersion(String command) {
        assertThat(CommandLineRun.of(command, "--help"))
                .satisfies(run -> assertThat(run.status()).isZero())
                .satisfies(run -> assertThat(run.out()).contains("Usage: traytender " + command));
        assertThat(CommandLineRun.of(command, "--version").out()).startsWith("traytender ");
    }

    @Test
    void wrongUse_isStatus2() {
        assertThat(List.of(
                        CommandLineRun.of(),
                        CommandLineRun.of("dance"),
                        CommandLineRun.of("run"),
                        CommandLineRun.of("import", "--site", site),
                        CommandLineRun.of("run", "--site", site, "--page", "8420"),
                        CommandLineRun.of("night", "--site", site, "--date", "yesterday"),
                        CommandLineRun.of("export", "--site", site, "--from", "x", "--to", "2026-03-15T00:00:00Z")))
                .allSatisfy(run -> assertThat(run.status()).isEqualTo(2))
                .allSatisfy(run -> assertThat(run.out()).isEmpty())
                .allSatisfy(run -> assertThat(run.err()).isNotBlank());
    }

    @Test
    void credentials_areGivenOnce_andOnlyTheirHashesAreKept() throws IOException {
        CommandLineRun all = CommandLineRun.of("credentials", "--site", site);
        CommandLineRun again = CommandLineRun.of("credentials", "--site", site);
        CommandLineRun one = CommandLineRun.of("credentials", "--site", site, "frame", "alder/frame/#", "alder/door");

        assertThat(all.out()).matches("alder-T01-centre [a-z2-9]{20} alder/T01/centre\\n");
        assertThat(again.out()).isEmpty();
        assertThat(one.out()).matches("frame [a-z2-9]{20} alder/frame/# alder/door\\n");
        assertThat(Files.readString(site.resolve("passwords")))
                .matches("alder-T01-centre \\$2a\\$10\\S+ alder/T01/centre\\n"
                        + "frame \\$2a\\$10\\S+ alder/frame/# alder/door\\n");
        assertThat(CommandLineRun.of("credentials", "--site", site, "frame").status())
                .isEqualTo(2);
    }

    @Test
    void check_tellsEveryErrorWithItsPlace() throws IOException {
        Path file = site.resolve("site.yaml");
        Files.writeString(
                file,
                Files.readString(file)
                        .replace("Europe/Dublin", "Europe/Dubbin")
                        .replace("medium:", "mediun:")
                        .replace("row: 4", "row: 44"));

        var run = CommandLineRun.of("check", "--site", site);

        assertThat(run.status()).isEqualTo(2);
        assertThat(run.err().lines().filter(line -> line.matches("site\\.yaml:\\d+:\\d+: .+; .+")))
                .hasSize(4);
    }

    @Test
    void missingFolder_isStatus2() {
        assertThat(CommandLineRun.of("check", "--site", folder.resolve("none")).status())
                .isEqualTo(2);
    }

    @Test
    void newSite_passesCheckAndIsNeverWrittenOver() {
        Path made = folder.resolve("made");

        assertThat(CommandLineRun.of("new", made).status()).isZero();
        assertThat(CommandLineRun.of("check", "--site", made).status()).isZero();
        assertThat(CommandLineRun.of("new", made).status()).isEqualTo(1);
    }

    @Test
    void importedReadings_replayToAnAlertAndComeOutAsTheyWentIn() throws IOException {
        importReadings(SmallSite.dryReadings(90));

        var replay = CommandLineRun.of("replay", "--site", site);
        var export = export(site, "csv");
        Path copy = SmallSite.in(folder.resolve("copy"));
        Path exported = Files.writeString(folder.resolve("export.csv"), export.out());

        assertThat(replay.status()).isZero();
        assertThat(alerts(replay.out()))
                .anySatisfy(alert -> assertThat(alert.path("kind").asText()).isEqualTo("dry"))
                .allSatisfy(alert -> assertThat(alert.path("tray").asText()).isEqualTo("T01"));
        assertThat(export.out())
                .startsWith("time,probe,value,raw,marks\n2026-03-14T05:00:10Z,T01-centre-moisture,0.125,2700,\n");
        assertThat(CommandLineRun.of("import", "--site", copy, exported).status())
                .isZero();
        assertThat(export(copy, "csv").out()).isEqualTo(export.out());
    }

    @Test
    void senMlExport_comesBackToo() throws IOException {
        importReadings(SmallSite.dryReadings(3));
        Path copy = SmallSite.in(folder.resolve("copy"));
        Path exported = Files.writeString(
                folder.resolve("export.json"), export(site, "senml").out());

        assertThat(CommandLineRun.of("import", "--site", copy, exported).status())
                .isZero();
        assertThat(export(copy, "csv").out()).isEqualTo(export(site, "csv").out());
    }

    @Test
    void replay_writesTheSameToAFileAndOnlyWhatWasAskedFor() throws IOException {
        importReadings(SmallSite.dryReadings(90));
        Path file = folder.resolve("alerts.jsonl");

        String all = CommandLineRun.of("replay", "--site", site).out();
        var toFile = CommandLineRun.of("replay", "--site", site, "--out", file);
        var later = CommandLineRun.of("replay", "--site", site, "--from", "2026-03-15T00:00:00Z");

        assertThat(toFile.out()).isEmpty();
        assertThat(file).hasContent(all.stripTrailing());
        assertThat(later.out()).isEmpty();
    }

    @Test
    void replayWithOtherLimits_judgesByThem() throws IOException {
        importReadings(SmallSite.dryReadings(90));
        Path crops = Files.createDirectories(folder.resolve("other"));
        Files.writeString(crops.resolve("tomato.yaml"), "crop: tomato\nstages:\n  seedling:\n    dry-line: 0.05\n");

        var run = CommandLineRun.of("replay", "--site", site, "--crops", crops);

        assertThat(run.status()).isZero();
        assertThat(alerts(run.out()))
                .noneSatisfy(alert -> assertThat(alert.path("kind").asText()).isEqualTo("dry"));
    }

    @Test
    void rejectedLines_areToldByNumberAndTheRestIsTaken() throws IOException {
        Path file = Files.writeString(folder.resolve("r.csv"), """
                time,probe,value
                2026-03-14T05:00:00Z,T01-centre-moisture,2000
                2026-03-14T05:01:00Z,nobody,2000
                yesterday,T01-centre-moisture,2000
                2026-03-14T05:02:00Z,T01-centre-moisture,NaN
                2099-03-14T05:02:00Z,T01-centre-moisture,2000
                """);

        var run = CommandLineRun.of("import", "--site", site, file);

        assertThat(run.status()).isZero();
        assertThat(run.out()).contains("1 readings stored, 0 there already, 4 lines rejected");
        assertThat(run.err().lines()).hasSize(4).allMatch(line -> line.matches(".*r\\.csv:[3-6]: .+"));
    }

    @Test
    void siteInUse_isStatus1WithAWord() {
        try (SiteLock held = SiteLock.take(site.resolve("data"))) {
            assertThat(held).isNotNull();

            var run = CommandLineRun.of("import", "--site", site, folder.resolve("any.csv"));

            assertThat(run.status()).isEqualTo(1);
            assertThat(run.err()).contains("in use");
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"html", "csv", "json", "pdf"})
    void night_comesInEveryForm(String form) throws IOException {
        importReadings(SmallSite.dryReadings(90));
        Path file = folder.resolve("night." + form);

        var run = CommandLineRun.of("night", "--site", site, "--date", "2026-03-13", "--out", file);

        assertThat(run.err()).isEmpty();
        assertThat(run.status()).isZero();
        String beginning = new String(Files.readAllBytes(file), java.nio.charset.StandardCharsets.ISO_8859_1);
        assertThat(beginning)
                .startsWith(
                        switch (form) {
                            case "html" -> "<?xml";
                            case "csv" -> "night,probe";
                            case "json" -> "{\"date\":\"2026-03-13\"";
                            default -> "%PDF-";
                        });
    }

    @Test
    void backup_comesBackIntoAnotherFolder() throws IOException {
        importReadings(SmallSite.dryReadings(5));
        Path file = folder.resolve("site.zip");
        Path other = folder.resolve("other");

        assertThat(CommandLineRun.of("backup", "--site", site, file).status()).isZero();
        assertThat(CommandLineRun.of("restore", "--site", other, file).status()).isZero();
        assertThat(export(other, "csv").out()).isEqualTo(export(site, "csv").out());
    }

    private void importReadings(String csv) throws IOException {
        Path file = Files.writeString(folder.resolve("readings.csv"), csv);
        assertThat(CommandLineRun.of("import", "--site", site, file).status()).isZero();
    }

    private static CommandLineRun export(Path from, String format) {
        return CommandLineRun.of(
                "export",
                "--site",
                from,
                "--from",
                "2026-03-01T00:00:00Z",
                "--to",
                "2026-04-01T00:00:00Z",
                "--format",
                format);
    }

    private static List<JsonNode> alerts(String lines) throws IOException {
        var json = new ObjectMapper();
        return lines.lines()
                .map(line -> {
                    try {
                        return json.readTree(line);
                    } catch (IOException e) {
                        throw new java.io.UncheckedIOException(e);
                    }
                })
                .toList();
    }
}
