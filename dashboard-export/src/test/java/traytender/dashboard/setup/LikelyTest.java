package traytender.dashboard.setup;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import traytender.config.site.Quantity;
import traytender.ingest.decode.Fields;

/** What an undescribed message probably says. */
class LikelyTest {
    private static List<Quantity> quantities(String topic, String payload) {
        var found = Fields.of(payload).found();
        return found.stream()
                .map(field ->
                        Likely.of(topic, field, found).map(Likely::measures).orElse(null))
                .toList();
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            nullValues = "none",
            value = {
                "alder/T01 | {\"soil\":2100} | MOISTURE",
                "alder/T01 | {\"d\":{\"soil_temp\":21.4}} | TEMPERATURE",
                "alder/T01 | {\"batt\":87} | BATTERY",
                "alder/lamp/lux | 8000 | LIGHT",
                "alder/x | 2100 | MOISTURE",
                "alder/x | 21.5 | TEMPERATURE",
                "alder/x | {\"seq\":3} | none",
                "alder/T05/scale | 2412.5 | WEIGHT",
            })
    void oneNumber_isProposed(String topic, String payload, Quantity expected) {
        assertThat(quantities(topic, payload)).containsExactly(expected);
    }

    /** RFC 8428 section 12.1 names the units. */
    @Test
    void senMlUnits_decide_andTemperatureBesideHumidityIsTheAirs() {
        String pack =
                "[{\"bn\":\"alder:air:\",\"n\":\"a\",\"u\":\"Cel\",\"v\":21.5},{\"n\":\"b\",\"u\":\"%RH\",\"v\":60}]";

        assertThat(quantities("alder/air", pack)).containsExactly(Quantity.AIR_TEMPERATURE, Quantity.HUMIDITY);
        assertThat(Fields.of(pack).found().get(0).where()).isEqualTo("alder:air:a");
    }

    @Test
    void otherUnits_areBroughtIntoOurs() {
        var fields = Fields.of("{\"moisture\":63.5,\"temp\":70.1,\"at\":\"2026-03-14T05:41:00Z\",\"up\":12}")
                .found();

        assertThat(Likely.of("x", fields.get(0), fields).orElseThrow().why()).contains("in percent");
        assertThat(Likely.of("x", fields.get(1), fields).orElseThrow().why()).contains("in F");
    }

    @Test
    void timeOfTheMessage_isFound_andWordsGiveNothing() {
        assertThat(Fields.of("{\"soil\":1,\"at\":\"2026-03-14T05:41:00Z\"}").time())
                .contains("/at");
        assertThat(Fields.of("{\"soil\":1,\"ts\":812}").time()).isEmpty();
        assertThat(Fields.of("{\"soil\":1,\"ts\":812}").found()).hasSize(2);
        assertThat(Fields.of("heat").found()).isEmpty();
        assertThat(Fields.of("{\"soil\":").found()).isEmpty();
        assertThat(Fields.of("").found()).isEmpty();
    }
}
