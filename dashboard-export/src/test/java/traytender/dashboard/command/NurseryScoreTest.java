package traytender.dashboard.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.File;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import traytender.ingest.nursery.scenario.ScenarioKind;
import traytender.ingest.nursery.scenario.ScenarioWriter;
import traytender.ingest.nursery.score.AlertLine;
import traytender.ingest.nursery.score.Score;
import traytender.ingest.nursery.score.Score.Answer;
import traytender.ingest.nursery.score.Score.Fate;
import traytender.ingest.nursery.score.ScoreTable;

/**
 * {@code import} and {@code replay} of simulated nurseries against their own truth. By default six clear-cut ones, whose troubles must all be found. With {@code
 * -Dnursery.count=99 -Dnursery.seeds=grading} (or {@code tuning}) as many as that of every kind, only counted: the table is in
 * {@code target/nursery-score.txt}. {@code -Dnursery.only=dry-edges,mat-dead} holds it to those kinds.
 */
class NurseryScoreTest {
    private static final List<ScenarioKind> CLEAR_CUT = List.of(
            ScenarioKind.WARM_CENTRE,
            ScenarioKind.MISSED_CORNER,
            ScenarioKind.MAT_STUCK_ON,
            ScenarioKind.COLD_NIGHT,
            ScenarioKind.PROBE_SILENT,
            ScenarioKind.QUIET_NORMAL);
    private static final Path TABLE = Path.of("target", "nursery-score.txt");

    private final CellErrors cells = new CellErrors();

    @TempDir
    private Path folder;

    @Test
    void clearCutTroubles_areFound_andQuietDaysStayQuiet() throws IOException {
        int count = Integer.getInteger("nursery.count", 0);
        List<ScenarioKind> kinds =
                count == 0 ? CLEAR_CUT : ScenarioWriter.kinds(System.getProperty("nursery.only", ""));
        List<Score> scores =
                scores(count == 0 ? CLEAR_CUT.size() : count, System.getProperty("nursery.seeds", "tuning"), kinds);
        Files.createDirectories(TABLE.toAbsolutePath().getParent());
        Files.writeString(TABLE, new ScoreTable(scores, 0).write() + "\n" + cells.write());

        if (count == 0) {
            assertThat(scores)
                    .flatExtracting(Score::answers)
                    .filteredOn(answer -> answer.fate() != Fate.FOUND)
                    .extracting(Answer::episode)
                    .isEmpty();
            assertThat(scores)
                    .filteredOn(score -> score.truth().about().quiet())
                    .flatExtracting(Score::wrong)
                    .isEmpty();
        }
    }

    private List<Score> scores(int count, String seeds, List<ScenarioKind> kinds) {
        var scores = new ArrayList<Score>();
        ScenarioWriter.write(folder, count, seeds, kinds, scenario -> {
            Path site = scenario.folder().path();
            run(
                    "import",
                    "--site",
                    site.toString(),
                    site.resolve("readings.csv").toString(),
                    "--journal",
                    site.resolve("journal.csv").toString());
            Path alerts = site.resolve("alerts.jsonl");
            run("replay", "--site", site.toString(), "--out", alerts.toString());
            scores.add(new Score(scenario.truth(), AlertLine.read(alerts)));
            scenario.glances().forEach(cells::add);
            empty(site);
        });
        return scores;
    }

    /** What is stored is done with; a great many scenarios would fill the disk. */
    private static void empty(Path site) {
        try (var files = Files.walk(site.resolve("data"))) {
            files.sorted(Comparator.reverseOrder()).map(Path::toFile).forEach(File::delete);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static void run(String... arguments) {
        var errors = new StringWriter();
        int status = Traytender.commandLine(Clock.systemUTC())
                .setOut(new PrintWriter(new StringWriter()))
                .setErr(new PrintWriter(errors))
                .execute(arguments);
        assertThat(status).as(errors.toString()).isZero();
    }
}
