package traytender.ingest.nursery.scenario;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import traytender.config.alert.AlertKind;
import traytender.ingest.nursery.truth.Truth;

class ScenarioTest {
    @TempDir
    Path out;

    @ParameterizedTest
    @EnumSource(mode = EnumSource.Mode.MATCH_ANY, names = "QUIET.*")
    void quietScenario_requiresNothing(ScenarioKind kind) {
        assertThat(Scenario.write(out, "quiet", kind, 5).truth().episodes()).isEmpty();
    }

    @ParameterizedTest
    @EnumSource(names = {"WARM_CENTRE", "OVER_A_MAT", "OVERWATERED", "MAT_DEAD", "CLEAR_NIGHT", "PROBE_SILENT"})
    void everyEpisode_isAlsoPossible_andInOrder(ScenarioKind kind) {
        Truth truth = Scenario.write(out, "one", kind, 6).truth();

        assertThat(truth.episodes()).allSatisfy(episode -> {
            assertThat(episode.earliest()).isBeforeOrEqualTo(episode.latest());
            assertThat(episode.from()).isBeforeOrEqualTo(episode.to());
            assertThat(episode.latest()).isBefore(truth.about().to());
        });
        assertThat(truth.forecasts()).allSatisfy(forecast -> {
            assertThat(forecast.low()).isBeforeOrEqualTo(forecast.crosses());
            assertThat(forecast.high()).isAfterOrEqualTo(forecast.crosses());
            assertThat(forecast.crosses()).isAfter(forecast.since());
        });
    }

    @Test
    void guess_ofWhoKnowsTheDrying_isNearerThanWhatTheProbeSees() {
        Truth truth = Scenario.write(out, "mat", ScenarioKind.OVER_A_MAT, 4).truth();
        double guessed = 0;
        double seen = 0;
        for (Truth.Forecast forecast : truth.forecasts()) {
            Instant guess = forecast.guessed();
            if (guess != null) {
                guessed += Duration.between(forecast.crosses(), guess).abs().toMinutes();
                seen += Duration.between(forecast.low(), forecast.high()).toMinutes();
            }
        }

        assertThat(guessed).isPositive().isLessThan(seen);
    }

    @Test
    void missedCorner_isRequiredWhereTheHandMissed() {
        Truth truth =
                Scenario.write(out, "corner", ScenarioKind.MISSED_CORNER, 1).truth();

        assertThat(truth.episodes())
                .filteredOn(episode -> episode.kinds().get(0) == AlertKind.MISSED_WATERING)
                .isNotEmpty()
                .allMatch(episode -> episode.where().zones().toString().equals("[CORNER_BACK_RIGHT]"));
    }

    @Test
    void sameSeed_writesTheSameBytes() throws IOException {
        Scenario.write(out, "a/s", ScenarioKind.WARM_CENTRE, 9);
        Scenario.write(out, "b/s", ScenarioKind.WARM_CENTRE, 9);
        Scenario.write(out, "c/s", ScenarioKind.WARM_CENTRE, 10);

        for (String file : List.of("site.yaml", "readings.csv", "journal.csv")) {
            assertThat(out.resolve("b/s").resolve(file))
                    .hasSameBinaryContentAs(out.resolve("a/s").resolve(file));
        }
        assertThat(Files.readString(out.resolve("c/s/readings.csv")))
                .isNotEqualTo(Files.readString(out.resolve("a/s/readings.csv")));
    }

    @Test
    void seedsOfTuningAndGrading_neverMeet() throws IOException {
        ScenarioWriter.write(out.resolve("t"), 1, "tuning", List.of(ScenarioKind.QUIET_NORMAL), scenario -> {});
        ScenarioWriter.write(out.resolve("g"), 1, "grading", List.of(ScenarioKind.QUIET_NORMAL), scenario -> {});

        assertThat(Files.readString(out.resolve("t/quiet-normal-01/readings.csv")))
                .isNotEqualTo(Files.readString(out.resolve("g/quiet-normal-01/readings.csv")));
    }
}
