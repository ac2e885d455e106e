package traytender.ingest.decode;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import traytender.config.reading.Marks;
import traytender.config.site.Binding;
import traytender.config.site.Probe;
import traytender.config.site.Quantity;
import traytender.ingest.store.Bench;
import traytender.ingest.store.RawReading;

class TopicDecoderTest {
    private static final long NOW = Instant.parse("2026-03-14T05:41:00Z").toEpochMilli();
    private static final Arrival ARRIVAL = new Arrival(NOW, NOW + 300_000, false, Marks.NONE);
    private static final String TOPIC = "alder/T01";

    private static Decoded decode(String payload, Binding... bindings) {
        return decode(payload.getBytes(StandardCharsets.UTF_8), ARRIVAL, bindings);
    }

    private static Decoded decode(byte[] payload, Arrival arrival, Binding... bindings) {
        var probes = new Probe[bindings.length];
        for (int i = 0; i < bindings.length; i++) {
            probes[i] = Bench.probe("p" + i, Quantity.MOISTURE, bindings[i]);
        }
        return TopicDecoder.of(Bench.site(probes)).get(TOPIC).decode(payload, arrival);
    }

    private static Binding text() {
        return new Binding.Text(TOPIC, Map.of("heat", 1.0, "rest", 0.0));
    }

    private static Binding json(String pointer) {
        return new Binding.Json(TOPIC, pointer, null, Map.of("heat", 1.0));
    }

    private static Binding timed(String pointer) {
        return new Binding.Json(TOPIC, pointer, "/at", Map.of());
    }

    private static RawReading reading(int probe, long timeMs, double raw) {
        return new RawReading("p" + probe, timeMs, raw, Marks.NONE);
    }

    @ParameterizedTest
    @CsvSource({
        "21.5, 21.5",
        "' 21.5\n', 21.5",
        "-.5, -0.5",
        "+1e3, 1000",
        "5., 5",
        "heat, 1",
        "rest, 0",
        "-0, -0.0",
        "1e300, 1e300",
        "\uFEFF7, 7"
    })
    void text_isANumberOrAWord(String payload, double raw) {
        assertThat(decode(payload, text()).readings()).containsExactly(reading(0, NOW, raw));
    }

    @ParameterizedTest
    @CsvSource({
        "NaN, NOT_FINITE", "Infinity, NOT_FINITE", "-inf, NOT_FINITE", "1e400, NOT_FINITE", "boil, NOT_A_NUMBER",
        "'21,5', NOT_A_NUMBER", "0x1p3, NOT_A_NUMBER", "1d, NOT_A_NUMBER", "21.5 C, NOT_A_NUMBER", "' ', EMPTY",
        "'1\u00002', NOT_A_NUMBER"
    })
    void text_thatIsNeither_isRefused(String payload, Cause cause) {
        assertThat(decode(payload, text())).isEqualTo(Decoded.refused(cause, 1));
    }

    /** RFC 6901, section 5: document and answers as printed there. */
    @ParameterizedTest
    @CsvSource(
            delimiter = '=',
            value = {
                "/foo/0=11",
                "'/'=0",
                "/a~1b=1",
                "/c%d=2",
                "/e^f=3",
                "/g|h=4",
                "'/i\\j'=5",
                "'/k\"l'=6",
                "'/ '=7",
                "/m~0n=8"
            })
    void pointer_findsWhatTheRfcSays(String pointer, double raw) {
        var document = """
                {"foo":[11,12],"":0,"a/b":1,"c%d":2,"e^f":3,"g|h":4,"i\\\\j":5,"k\\"l":6," ":7,"m~n":8}""";

        assertThat(decode(document, json(pointer)).readings()).containsExactly(reading(0, NOW, raw));
    }

    @Test
    void pointer_emptyIsTheWholeDocument_andOddIndexesFindNothing() {
        assertThat(decode("21.5", json("")).readings()).containsExactly(reading(0, NOW, 21.5));
        for (var pointer : new String[] {"/foo/01", "/foo/-", "/foo/2", "/foo/0/0", "/~01"}) {
            assertThat(decode("{\"foo\":[1,2]}", json(pointer))).isEqualTo(Decoded.refused(Cause.NO_FIELD, 1));
        }
        assertThat(decode("{\"~1\":3}", json("/~01")).readings()).containsExactly(reading(0, NOW, 3));
    }

    @Test
    void json_ofTwoProbes_isRefusedOnlyWhenNoneFindsItsField() {
        assertThat(decode("{\"soil\":1663,\"temp\":21.5}", json("/soil"), json("/temp"))
                        .readings())
                .containsExactly(reading(0, NOW, 1663), reading(1, NOW, 21.5));
        assertThat(decode("{\"temp\":21.5}", json("/soil"), json("/temp")))
                .isEqualTo(new Decoded(List.of(reading(1, NOW, 21.5)), List.of()));
        assertThat(decode("{\"other\":1}", json("/soil"), json("/temp"))).isEqualTo(Decoded.refused(Cause.NO_FIELD, 2));
        assertThat(decode("{\"soil\":", json("/soil"), json("/temp"))).isEqualTo(Decoded.refused(Cause.NOT_JSON, 2));
    }

    @Test
    void json_aFailedValue_doesNotCostTheOthers() {
        var decoded =
                decode("{\"soil\":NaN,\"temp\":21.5,\"word\":\"heat\"}", json("/soil"), json("/temp"), json("/word"));

        assertThat(decoded.readings()).containsExactly(reading(1, NOW, 21.5), reading(2, NOW, 1));
        assertThat(decoded.refusals()).containsExactly(Cause.NOT_FINITE);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "{\"v\":\"21.5\"} | NOT_A_NUMBER",
                "{\"v\":null} | NOT_A_NUMBER",
                "{\"v\":{}} | NOT_A_NUMBER",
                "{\"v\":true} | NOT_A_NUMBER",
                "{\"v\":1e400} | NOT_FINITE",
                "{\"v\":-Infinity} | NOT_FINITE",
                "{\"v\":1,\"v\":2} | NOT_JSON",
                "{\"v\":1} 2 | NOT_JSON",
                "{v:1} | NOT_JSON",
                "{\"v\":01} | NOT_JSON",
            })
    void json_thatCannotBeUsed_isRefused(String payload, Cause cause) {
        assertThat(decode(payload, json("/v"))).isEqualTo(Decoded.refused(cause, 1));
    }

    @Test
    void json_bombs_areRefused() {
        assertThat(decode("[".repeat(60_000), json("/v"))).isEqualTo(Decoded.refused(Cause.NOT_JSON, 1));
        assertThat(decode("{\"v\":" + "[".repeat(1_000) + "]".repeat(1_000) + "}", json("/v")))
                .isEqualTo(Decoded.refused(Cause.NOT_JSON, 1));
        assertThat(decode("{\"v\":" + "9".repeat(60_000) + "}", json("/v")).readings())
                .isEmpty();
    }

    /** RFC 3339, section 5.8, and the contract's numbers; the epochs of the leap second as POSIX folds it. */
    @ParameterizedTest
    @CsvSource({
        "'\"1985-04-12T23:20:50.52Z\"', 482196050520",
        "'\"1996-12-19T16:39:57-08:00\"', 851042397000",
        "'\"1990-12-31T23:59:60Z\"', 662688000000",
        "'\"1990-12-31T15:59:60-08:00\"', 662688000000",
        "'\"2026-03-14t05:40:59.9999999999z\"', 1773466859999",
        "1773466800, 1773466800000",
        "1773466800.25, 1773466800250",
        "1773466800000, 1773466800000",
        "0, 0"
    })
    void time_ofItsOwn_isTaken(String time, long timeMs) {
        assertThat(decode("{\"v\":1,\"at\":" + time + "}", timed("/v")).readings())
                .containsExactly(reading(0, timeMs, 1));
    }

    @ParameterizedTest
    @CsvSource({
        "'\"2026-03-14T05:41:00\"', BAD_TIME",
        "'\"2026-03-14 05:41:00Z\"', BAD_TIME",
        "'\"2026-03-14T05:41Z\"', BAD_TIME",
        "'\"2026-02-30T05:41:00Z\"', BAD_TIME",
        "'\"2026-03-14T05:41:60Z\"', BAD_TIME",
        "'\"yesterday\"', BAD_TIME",
        "true, BAD_TIME",
        "'[]', BAD_TIME",
        "-1, BAD_TIME",
        "1e300, BAD_TIME",
        "'\"1937-01-01T12:00:27.87+00:20\"', BAD_TIME",
        "'\"2099-01-01T00:00:00Z\"', FUTURE",
        "1773467161, FUTURE"
    })
    void time_thatIsNone_orInTheFuture_isRefused(String time, Cause cause) {
        assertThat(decode("{\"v\":1,\"at\":" + time + "}", timed("/v"))).isEqualTo(Decoded.refused(cause, 1));
    }

    @Test
    void time_fiveMinutesAhead_isTaken_andAMissingOneIsThatOfArrival() {
        assertThat(decode("{\"v\":1,\"at\":\"2026-03-14T05:46:00Z\"}", timed("/v"))
                        .readings())
                .containsExactly(reading(0, NOW + 300_000, 1));
        assertThat(decode("{\"v\":1}", timed("/v")).readings()).containsExactly(reading(0, NOW, 1));
        assertThat(decode("{\"v\":1,\"at\":null}", timed("/v")).readings()).containsExactly(reading(0, NOW, 1));
    }

    @Test
    void keptMessage_isTakenByItsOwnTimeAlone() {
        var kept = new Arrival(NOW, NOW + 300_000, true, Marks.NONE);
        var withTime = "{\"v\":1,\"at\":1773466800}".getBytes(StandardCharsets.UTF_8);

        assertThat(decode(withTime, kept, timed("/v")).readings()).hasSize(1);
        assertThat(decode("1".getBytes(StandardCharsets.UTF_8), kept, text()))
                .isEqualTo(Decoded.refused(Cause.STALE, 1));
    }

    @Test
    void wrongClock_refusesNoTime_andMarksAll() {
        var wrong = new Arrival(NOW, Long.MAX_VALUE, false, Marks.CLOCK);
        var later = "{\"v\":1,\"at\":\"2027-01-01T00:00:00Z\"}".getBytes(StandardCharsets.UTF_8);

        assertThat(decode(later, wrong, timed("/v")).readings())
                .containsExactly(new RawReading(
                        "p0", Instant.parse("2027-01-01T00:00:00Z").toEpochMilli(), 1, Marks.CLOCK));
    }

    @Test
    void senMl_givesEveryRecordOfTheName_relativeToArrival() {
        var pack =
                "[{\"bn\":\"alder:air:\",\"n\":\"temp\",\"t\":-60,\"v\":20},{\"n\":\"temp\",\"v\":21},{\"n\":\"open\",\"vb\":true},"
                        + "{\"n\":\"word\",\"vs\":\"x\"}]";

        assertThat(decode(pack, new Binding.SenMl(TOPIC, "alder:air:temp")).readings())
                .containsExactly(reading(0, NOW - 60_000, 20), reading(0, NOW, 21));
        assertThat(decode(pack, new Binding.SenMl(TOPIC, "alder:air:open")).readings())
                .containsExactly(reading(0, NOW, 1));
        assertThat(decode(pack, new Binding.SenMl(TOPIC, "alder:air:word")))
                .isEqualTo(Decoded.refused(Cause.NOT_A_NUMBER, 1));
        assertThat(decode(pack, new Binding.SenMl(TOPIC, "temp"))).isEqualTo(Decoded.refused(Cause.NO_FIELD, 1));
        assertThat(decode("{}", new Binding.SenMl(TOPIC, "temp"))).isEqualTo(Decoded.refused(Cause.NOT_SENML, 1));
    }

    @Test
    void payload_thatIsNoText_orTooLarge_orEmpty_isRefusedForEachProbe() {
        assertThat(decode(new byte[] {(byte) 0xff, (byte) 0xfe, 0}, ARRIVAL, json("/a"), json("/b")))
                .isEqualTo(Decoded.refused(Cause.NOT_UTF8, 2));
        assertThat(decode("9".repeat(65_537), text())).isEqualTo(Decoded.refused(Cause.TOO_LARGE, 1));
        assertThat(decode("0".repeat(65_535) + "7", text()).readings()).containsExactly(reading(0, NOW, 7));
        assertThat(decode("", text())).isEqualTo(Decoded.refused(Cause.EMPTY, 1));
    }
}
