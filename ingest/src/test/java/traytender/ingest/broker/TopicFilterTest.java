package traytender.ingest.broker;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** MQTT 3.1.1 (OASIS), section 4.7: the standard's own examples. */
class TopicFilterTest {
    @ParameterizedTest
    @CsvSource({
        "sport/tennis/player1/#, sport/tennis/player1, true",
        "sport/tennis/player1/#, sport/tennis/player1/ranking, true",
        "sport/tennis/player1/#, sport/tennis/player1/score/wimbledon, true",
        "sport/#, sport, true",
        "sport/tennis/+, sport/tennis/player1, true",
        "sport/tennis/+, sport/tennis/player1/ranking, false",
        "sport/+, sport, false",
        "sport/+, sport/, true",
        "+/+, /finance, true",
        "/+, /finance, true",
        "+, /finance, false",
        "#, $SYS/uptime, false",
        "+/monitor/Clients, $SYS/monitor/Clients, false",
        "$SYS/#, $SYS/monitor/Clients, true",
        "$SYS/monitor/+, $SYS/monitor/Clients, true"
    })
    void filter_matchesAsTheStandardSays(String filter, String topic, boolean isMatch) {
        assertThat(new TopicFilter(filter).matches(topic)).isEqualTo(isMatch);
    }

    @ParameterizedTest
    @ValueSource(strings = {"sport/tennis#", "sport/tennis/#/ranking", "sport+", ""})
    void noFilter_isRefused(String text) {
        assertThatThrownBy(() -> new TopicFilter(text)).isInstanceOf(IllegalArgumentException.class);
    }

    @Test
    void filter_coversOnlyWhatItWhollyMeans() {
        assertThat(new TopicFilter("alder/#").covers("alder/T01/#")).isTrue();
        assertThat(new TopicFilter("alder/+").covers("alder/#")).isFalse();
        assertThat(new TopicFilter("alder/T01/+").covers("#")).isFalse();
    }
}
