package traytender.dashboard.record;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;
import traytender.config.alert.Alert;
import traytender.config.alert.AlertKind;
import traytender.config.alert.Urgency;
import traytender.config.site.Zone;

class AlertJsonTest {
    private static final Instant OPENED = Instant.parse("2026-03-14T05:41:00Z");

    @Test
    void line_isTheRecordInOneOrderWithNullForWhatIsNotSo() {
        var alert = new Alert(
                "a1",
                AlertKind.DRY,
                "T01",
                null,
                Zone.CENTRE,
                Urgency.NOW,
                OPENED,
                null,
                null,
                0.41,
                0.45,
                "1",
                List.of("T01-centre-moisture"),
                "Copper Lantern",
                "Centre of T01 is at 41 %.",
                "Water the centre now.",
                null);

        assertThat(AlertJson.line(alert))
                .isEqualTo("{\"id\":\"a1\",\"kind\":\"dry\",\"tray\":\"T01\",\"zone\":\"centre\",\"urgency\":\"now\","
                        + "\"opened\":\"2026-03-14T05:41:00Z\",\"closed\":null,\"reason\":null,\"value\":0.41,\"limit\":0.45,"
                        + "\"unit\":\"1\",\"probes\":[\"T01-centre-moisture\"],\"sowing\":\"Copper Lantern\","
                        + "\"says\":\"Centre of T01 is at 41 %.\",\"do\":\"Water the centre now.\"}");
    }

    @Test
    void line_ofARoomHasNoTrayAndAnUnknownNumberIsNull() {
        var alert = new Alert(
                "a2",
                AlertKind.LIGHT_OUT,
                null,
                "propagation",
                null,
                Urgency.TODAY,
                OPENED.plusMillis(7),
                OPENED.plusSeconds(60),
                null,
                Double.NaN,
                Double.NaN,
                "1",
                List.of(),
                null,
                "It is dark.",
                "Look at the lamps.",
                null);

        assertThat(AlertJson.line(alert))
                .contains("\"room\":\"propagation\"")
                .contains("\"opened\":\"2026-03-14T05:41:00.007Z\",\"closed\":\"2026-03-14T05:42:00Z\"")
                .contains("\"value\":null,\"limit\":null")
                .doesNotContain("tray")
                .doesNotContain("zone");
    }

    @Test
    void line_ofDryingSoonCarriesTheExpectedTimeAndItsInterval() {
        var forecast = new Alert.Forecast(OPENED.plusSeconds(7200), OPENED.plusSeconds(6000), OPENED.plusSeconds(9000));
        var alert = new Alert(
                "a3",
                AlertKind.DRYING_SOON,
                "T01",
                null,
                Zone.CENTRE,
                Urgency.TODAY,
                OPENED,
                null,
                null,
                0.5,
                0.45,
                "1",
                List.of(),
                null,
                "s",
                "d",
                forecast);

        assertThat(AlertJson.line(alert))
                .endsWith("\"expected\":\"2026-03-14T07:41:00Z\",\"earliest\":\"2026-03-14T07:21:00Z\","
                        + "\"latest\":\"2026-03-14T08:11:00Z\"}");
    }
}
