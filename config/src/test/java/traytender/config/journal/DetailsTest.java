package traytender.config.journal;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import traytender.config.crop.Stage;
import traytender.config.site.Zone;

class DetailsTest {
    @ParameterizedTest
    @CsvSource({"1-4, 1-4", "3, 3", "' 2 - 5 ', 2-5", "2–5, 2-5"})
    void rows_areReadInclusive(String text, String expected) {
        assertThat(Rows.parse(text)).hasValueSatisfying(rows -> assertThat(rows).hasToString(expected));
    }

    @ParameterizedTest
    @CsvSource({"4-1", "0", "0-3", "a", "''", "1-", "-1", "1-2-3", "99999"})
    void rows_thatAreNoneAreEmpty(String text) {
        assertThat(Rows.parse(text)).isEmpty();
    }

    @ParameterizedTest
    @CsvSource({"90, 90", "90%, 90", "90 %, 90", "0, 0", "100, 100", "33.5, 33.5"})
    void percent_isReadWithOrWithoutItsSign(String text, double expected) {
        assertThat(new Details(Map.of("percent", text)).share()).hasValue(expected);
    }

    @ParameterizedTest
    @CsvSource({"101", "-1", "many", "1e2", "NaN", "''"})
    void percent_beyondItsRangeIsAsIfNotSaid(String text) {
        assertThat(new Details(Map.of("percent", text)).share()).isEmpty();
    }

    @Test
    void share_isCountOverOf() {
        assertThat(new Details(Map.of("count", "58", "of", "64")).share()).hasValue(90.625);
        assertThat(new Details(Map.of("count", "70", "of", "64")).share()).hasValue(100);
        assertThat(new Details(Map.of("count", "58", "of", "0")).share()).isEmpty();
        assertThat(new Details(Map.of("count", "58")).share()).isEmpty();
    }

    @Test
    void otherKeys_areReadAsTheyAsk() {
        var details = new Details(Map.of(
                "zones",
                "centre + Edge-Back nowhere",
                "litres",
                "1.5",
                "from",
                "Below",
                "stage",
                "growing-on",
                "to",
                " "));

        assertThat(details.zones()).containsExactly(Zone.CENTRE, Zone.EDGE_BACK);
        assertThat(details.litres()).hasValue(1.5);
        assertThat(details.from()).contains(Details.WateredFrom.BELOW);
        assertThat(details.stage()).contains(Stage.GROWING_ON);
        assertThat(details.to()).isEmpty();
        assertThat(details.rows()).isEmpty();
    }
}
