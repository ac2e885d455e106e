package traytender.dashboard.limits;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import traytender.config.alert.Alert;
import traytender.config.alert.AlertKind;
import traytender.config.alert.Urgency;
import traytender.config.crop.Crops;
import traytender.config.crop.Stage;
import traytender.config.journal.EntryKind;
import traytender.config.journal.JournalEntry;
import traytender.config.site.Zone;
import traytender.dashboard.limits.LineMoment.Why;
import traytender.dashboard.limits.LineSuggestion.Tradeoff;
import traytender.ingest.store.Act.Mark;

/** Dry lines suggested by what the grower said and did. */
class LineSuggestionTest {
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

    @Test
    void line_warnsOfMostNeedsWithoutTheFalseAlarms() {
        LineSuggestion suggestion = suggested(List.of(
                moments(Why.WANTED, 0.50, 0.52, 0.48), moments(Why.LATE, 0.55, 0.70), moments(Why.NOT_SO, 0.60, 0.44)));

        assertThat(suggestion.suggested()).hasValue(0.56);
        assertThat(suggestion.tradeoff())
                .contains(new Tradeoff(0.45, 0, 1), new Tradeoff(0.53, 3, 1), new Tradeoff(0.56, 4, 1))
                .contains(new Tradeoff(0.61, 4, 2), new Tradeoff(0.71, 5, 2));
    }

    @Test
    void lineThatOnlyGaveFalseAlarms_isSuggestedLower() {
        LineSuggestion suggestion =
                suggested(List.of(moments(Why.NOT_SO, 0.44, 0.42, 0.43), moments(Why.WANTED, 0.38)));

        assertThat(suggestion.suggested()).hasValue(0.42);
    }

    @Test
    void lineThatIsAsGood_stays_andTooLittleSaidSuggestsNothing() {
        assertThat(suggested(List.of(moments(Why.WANTED, 0.40, 0.41), moments(Why.NOT_SO, 0.47)))
                        .suggested())
                .isEmpty();
        assertThat(suggested(List.of(moments(Why.WANTED, 0.50, 0.52))).suggested())
                .isEmpty();
    }

    @Test
    void wantsWater_isAnsweredByTheReadings() {
        site.storeReadings();
        Instant time = LimitsSite.START.plus(Duration.ofHours(18));
        site.store.journal().add(new JournalEntry(time, "T01", EntryKind.WANTS_WATER, Map.of("zones", "centre"), ""));
        site.store
                .journal()
                .add(new JournalEntry(time, "T01", EntryKind.WANTS_WATER, Map.of("zones", "edge-front"), ""));

        List<LineMoment> moments = onlySuggestion().moments();

        assertThat(moments).singleElement().satisfies(moment -> {
            assertThat(moment.why()).isEqualTo(Why.WANTED);
            assertThat(moment.zone()).isEqualTo(Zone.CENTRE);
            assertThat(moment.stage()).isEqualTo(Stage.SEEDLING);
            // 0.95 - 0.52 * 18/24; the middle of the half hour before it is a few thousandths higher.
            assertThat(moment.moisture()).isBetween(0.56, 0.57);
        });
    }

    @Test
    void wateringLongAfterItsAlert_wouldHaveNeededTheAlertSoonerByAsMuch() {
        site.storeReadings();
        Instant midnight = LimitsSite.START.plus(Duration.ofDays(1));
        site.store
                .journal()
                .saveAlerts(List.of(
                        dry("late", midnight.minus(Duration.ofHours(2)), midnight),
                        dry("in-time", midnight.minus(Duration.ofMinutes(40)), midnight),
                        // Closed at noon, when nothing was watered.
                        dry(
                                "not-watered",
                                midnight.minus(Duration.ofHours(15)),
                                midnight.minus(Duration.ofHours(12)))));

        List<LineMoment> moments = onlySuggestion().moments();

        assertThat(moments).singleElement().satisfies(moment -> {
            assertThat(moment.why()).isEqualTo(Why.LATE);
            // Four hours before midnight.
            assertThat(moment.moisture())
                    .isCloseTo(LimitsSite.moisture(midnight.minus(Duration.ofHours(4))), within(0.01));
        });
    }

    @Test
    void notSo_isAFalseAlarm_untilItIsTakenBack() {
        site.storeReadings();
        Instant opened = LimitsSite.START.plus(Duration.ofHours(22));
        site.store.journal().saveAlert(dry("a", opened, null));
        long act = site.store
                .journal()
                .acts()
                .write(Mark.NOT_SO, opened.plus(Duration.ofHours(1)), null, List.of("a"), List.of())
                .number();

        assertThat(onlySuggestion().moments()).extracting(LineMoment::why).containsExactly(Why.NOT_SO);

        site.store.journal().acts().undo(act);

        assertThat(site.desk.suggestions()).isEmpty();
        assertThat(site.desk.versions()).as("nothing is applied by itself").isEmpty();
    }

    private static org.assertj.core.data.Offset<Double> within(double offset) {
        return org.assertj.core.data.Offset.offset(offset);
    }

    private LineSuggestion onlySuggestion() {
        List<LineSuggestion> all = site.desk.suggestions();
        assertThat(all).hasSize(1);
        return all.get(0);
    }

    private LineSuggestion suggested(List<List<LineMoment>> moments) {
        Crops crops = site.folder().crops();
        List<LineSuggestion> all =
                LineSuggestion.of(moments.stream().flatMap(List::stream).toList(), crops);
        assertThat(all).hasSize(1);
        assertThat(all.get(0).now()).isEqualTo(0.45);
        return all.get(0);
    }

    private static List<LineMoment> moments(Why why, double... moistures) {
        return Arrays.stream(moistures)
                .mapToObj(moisture ->
                        new LineMoment("T01", Zone.CENTRE, "tomato", Stage.SEEDLING, LimitsSite.START, why, moisture))
                .toList();
    }

    private static Alert dry(String id, Instant opened, Instant closed) {
        return new Alert(
                id,
                AlertKind.DRY,
                "T01",
                null,
                Zone.CENTRE,
                Urgency.NOW,
                opened,
                closed,
                null,
                0.45,
                0.45,
                "1",
                List.of("T01-centre-moisture"),
                "Copper Lantern",
                "Centre of T01 is at 45 %.",
                "Water the centre.",
                null);
    }
}
