package traytender.ingest.nursery.score;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import traytender.config.alert.AlertKind;
import traytender.config.site.Zone;
import traytender.ingest.nursery.scenario.Scenario;
import traytender.ingest.nursery.scenario.ScenarioKind;
import traytender.ingest.nursery.score.Score.Fate;
import traytender.ingest.nursery.truth.Truth;

class ScoreTest {
    private static final Instant START = Instant.parse("2026-03-10T06:00:00Z");

    @Test
    void alertInTime_findsItsEpisode() {
        Score score = score(alert("dry", "centre", 130, 400, ""));

        assertThat(score.answers()).extracting(Score.Answer::fate).containsExactly(Fate.FOUND);
        assertThat(score.wrong()).isEmpty();
    }

    @Test
    void alertAfterItsLatest_isLateButNotFalse() {
        Score score = score(alert("dry", "centre", 200, 400, ""));

        assertThat(score.answers()).extracting(Score.Answer::fate).containsExactly(Fate.LATE);
        assertThat(score.wrong()).isEmpty();
    }

    @Test
    void alertElsewhere_isFalse_andTheEpisodeMissed() {
        Score score = score(alert("dry", "edge-left", 130, 400, ""), alert("air-hot", "tray", 130, 400, ""));

        assertThat(score.answers()).extracting(Score.Answer::fate).containsExactly(Fate.MISSED);
        assertThat(score.wrong()).hasSize(2);
    }

    @Test
    void alertInAnAllowedStretch_isGrey_andStillOpenLaterCountsAsFound() {
        Score score = score(alert("dry", "centre", 70, 400, ""));

        assertThat(score.wrong()).isEmpty();
        assertThat(score.answers()).extracting(Score.Answer::fate).containsExactly(Fate.FOUND);
    }

    @Test
    void sameAlertAgainWithinHalfAnHour_isReopened() {
        Score soon = score(alert("dry", "centre", 130, 140, ""), alert("dry", "centre", 150, 400, ""));
        Score later = score(alert("dry", "centre", 130, 140, ""), alert("dry", "centre", 171, 400, ""));

        assertThat(soon.tallies().get(AlertKind.DRY).reopened).isEqualTo(1);
        assertThat(later.tallies().get(AlertKind.DRY).reopened).isZero();
    }

    @Test
    void forecast_isHeldAgainstTheCrossing() {
        String forecast =
                ",\"expected\":\"" + at(330) + "\",\"earliest\":\"" + at(280) + "\",\"latest\":\"" + at(400) + "\"";

        Score score = score(alert("drying-soon", "centre", 60, 400, forecast));

        assertThat(score.forecasts()).singleElement().satisfies(error -> {
            assertThat(error.guessHours()).isEqualTo(-0.5);
            assertThat(error.errorHours()).isCloseTo(0.5, within(1e-9));
            assertThat(error.leadHours()).isCloseTo(4, within(1e-9));
            assertThat(error.inside()).isTrue();
        });
    }

    @Test
    void truthFile_isReadBackAsWritten(@TempDir Path folder) {
        Truth truth = Scenario.write(folder, "s", ScenarioKind.MISSED_CORNER, 3).truth();

        assertThat(TruthReading.read(folder.resolve("s/truth.json"))).isEqualTo(truth);
    }

    @Test
    void table_tellsCountsAndBounds() {
        String table = new ScoreTable(List.of(score(alert("dry", "centre", 130, 400, ""))), 0).write();

        assertThat(table)
                .contains("required alerts opened in time: 1.000 (1 of 1; 95 % 0.207 to 1.000)")
                .contains("false alarms in 100 tray-days: 0.00 (0; 95 % 0.00 to 183.40)");
    }

    private static Score score(AlertLine... alerts) {
        var about = new Truth.About("made", "by hand", false, START, at(1440), 2, 1, 1);
        var centre = new Truth.Where(List.of("tray:T01"), List.of(Zone.CENTRE));
        var episode = new Truth.Episode(
                List.of(AlertKind.DRY), centre, at(120), at(600), at(100), at(160), List.of(), true, null);
        var before = new Truth.Allowed(List.of(AlertKind.DRY), centre, at(60), at(100), List.of(), "near");
        var soon = new Truth.Allowed(List.of(AlertKind.DRYING_SOON), centre, at(0), at(300), List.of(), "soon");
        var crossing = new Truth.Forecast(
                "T01", Zone.CENTRE, "T01-centre-moisture", at(0), at(1440), at(300), at(290), at(300), at(270), false);
        return new Score(new Truth(about, List.of(episode), List.of(before, soon), List.of(crossing)), List.of(alerts));
    }

    private static AlertLine alert(String kind, String zone, int opened, int closed, String more) {
        return AlertLine.parse("{\"kind\":\"" + kind + "\",\"tray\":\"T01\",\"zone\":\"" + zone + "\",\"opened\":\""
                + at(opened) + "\",\"closed\":\"" + at(closed) + "\"" + more + "}");
    }

    private static Instant at(int minute) {
        return START.plusSeconds(60L * minute);
    }
}
