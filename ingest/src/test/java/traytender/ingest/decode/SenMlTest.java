package traytender.ingest.decode;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The examples of RFC 8428, section 5, and its rules of section 4. Text read: rfc8428.txt (core-wg/senml-spec, July 2018). */
class SenMlTest {
    private static final String ONE_WIRE = "urn:dev:ow:10e2073a01080063";

    /** Resolves a pack and writes it as "name unit seconds value", relative times with a leading "now". */
    private static List<String> resolved(String pack) throws Refused {
        return SenMl.resolve(Json.parse(pack)).stream().map(SenMlTest::written).toList();
    }

    private static String written(SenMl.Resolved entry) {
        Object value = entry.value() != null
                ? String.format(Locale.ROOT, "%s", entry.value())
                : entry.text() != null ? entry.text() : entry.flag() != null ? entry.flag() : entry.data();
        String time = entry.seconds().stripTrailingZeros().toPlainString();
        return entry.name() + " " + entry.unit() + " " + (entry.isRelative() ? "now+" + time : time) + " " + value;
    }

    @Test
    void example511_singleDatapoint() throws Refused {
        assertThat(resolved("[{\"n\":\"" + ONE_WIRE + "\",\"u\":\"Cel\",\"v\":23.1}]"))
                .containsExactly(ONE_WIRE + " Cel now+0 23.1");
    }

    @Test
    void example512_baseName() throws Refused {
        assertThat(resolved("""
                [{"bn":"urn:dev:ow:10e2073a01080063:","n":"voltage","u":"V","v":120.1},{"n":"current","u":"A","v":1.2}]
                """))
                .containsExactly(ONE_WIRE + ":voltage V now+0 120.1", ONE_WIRE + ":current A now+0 1.2");
    }

    @Test
    void example512_severalDatapoints_areInOrderOfTime_anOlderVersionIsTaken() throws Refused {
        String name = "urn:dev:ow:10e2073a0108006:";

        assertThat(resolved("""
                [{"bn":"urn:dev:ow:10e2073a0108006:","bt":1.276020076001e+09,"bu":"A","bver":5,"n":"voltage","u":"V","v":120.1},
                 {"n":"current","t":-5,"v":1.2},{"n":"current","t":-4,"v":1.3},{"n":"current","t":-3,"v":1.4},
                 {"n":"current","t":-2,"v":1.5},{"n":"current","t":-1,"v":1.6},{"n":"current","v":1.7}]
                """))
                .containsExactly(
                        name + "current A 1276020071.001 1.2",
                        name + "current A 1276020072.001 1.3",
                        name + "current A 1276020073.001 1.4",
                        name + "current A 1276020074.001 1.5",
                        name + "current A 1276020075.001 1.6",
                        name + "voltage V 1276020076.001 120.1",
                        name + "current A 1276020076.001 1.7");
    }

    @Test
    void example512_stream_closed_isResolved() throws Refused {
        assertThat(resolved("""
                [{"bn":"urn:dev:ow:10e2073a01080063","bt":1.320067464e+09,"bu":"%RH","v":21.2},{"t":10,"v":21.3},
                 {"t":20,"v":21.4},{"t":30,"v":21.4},{"t":40,"v":21.5},{"t":50,"v":21.5},{"t":60,"v":21.5},
                 {"t":70,"v":21.6},{"t":80,"v":21.7}]
                """))
                .hasSize(9)
                .startsWith(ONE_WIRE + " %RH 1320067464 21.2")
                .endsWith(ONE_WIRE + " %RH 1320067544 21.7");
    }

    @Test
    void example513_isResolvedAs514Shows() throws Refused {
        assertThat(resolved("""
                [{"bn":"urn:dev:ow:10e2073a01080063","bt":1.320067464e+09,"bu":"%RH","v":20},{"u":"lon","v":24.30621},
                 {"u":"lat","v":60.07965},{"t":60,"v":20.3},{"u":"lon","t":60,"v":24.30622},{"u":"lat","t":60,"v":60.07965},
                 {"t":120,"v":20.7},{"u":"lon","t":120,"v":24.30623},{"u":"lat","t":120,"v":60.07966},
                 {"u":"%EL","t":150,"v":98},{"t":180,"v":21.2},{"u":"lon","t":180,"v":24.30628},{"u":"lat","t":180,"v":60.07967}]
                """))
                .containsExactly(
                        ONE_WIRE + " %RH 1320067464 20.0",
                        ONE_WIRE + " lon 1320067464 24.30621",
                        ONE_WIRE + " lat 1320067464 60.07965",
                        ONE_WIRE + " %RH 1320067524 20.3",
                        ONE_WIRE + " lon 1320067524 24.30622",
                        ONE_WIRE + " lat 1320067524 60.07965",
                        ONE_WIRE + " %RH 1320067584 20.7",
                        ONE_WIRE + " lon 1320067584 24.30623",
                        ONE_WIRE + " lat 1320067584 60.07966",
                        ONE_WIRE + " %EL 1320067614 98.0",
                        ONE_WIRE + " %RH 1320067644 21.2",
                        ONE_WIRE + " lon 1320067644 24.30628",
                        ONE_WIRE + " lat 1320067644 60.07967");
    }

    @Test
    void example515_otherKindsOfValue() throws Refused {
        assertThat(resolved("""
                [{"bn":"urn:dev:ow:10e2073a01080063:","n":"temp","u":"Cel","v":23.1},{"n":"label","vs":"Machine Room"},
                 {"n":"open","vb":false},{"n":"nfv-reader","vd":"aGkgCg"}]
                """))
                .containsExactly(
                        ONE_WIRE + ":temp Cel now+0 23.1",
                        ONE_WIRE + ":label null now+0 Machine Room",
                        ONE_WIRE + ":open null now+0 false",
                        ONE_WIRE + ":nfv-reader null now+0 aGkgCg");
    }

    @Test
    void example516_eachBaseFieldEndsByItself() throws Refused {
        assertThat(resolved("""
                [{"bn":"2001:db8::2/","bt":1.320078429e+09,"n":"temperature","u":"Cel","v":25.2},
                 {"n":"humidity","u":"%RH","v":30},{"bn":"2001:db8::1/","n":"temperature","u":"Cel","v":12.3},
                 {"n":"humidity","u":"%RH","v":67}]
                """))
                .containsExactly(
                        "2001:db8::2/temperature Cel 1320078429 25.2",
                        "2001:db8::2/humidity %RH 1320078429 30.0",
                        "2001:db8::1/temperature Cel 1320078429 12.3",
                        "2001:db8::1/humidity %RH 1320078429 67.0");
    }

    @Test
    void example517_aRecordOfBaseFieldsAlone_isNoMeasurement() throws Refused {
        assertThat(resolved("""
                [{"bn":"urn:dev:ow:10e2073a01080063:"},{"n":"temp","u":"Cel","v":23.1},{"n":"heat","u":"/","v":1},
                 {"n":"fan","u":"/","v":0}]
                """))
                .containsExactly(
                        ONE_WIRE + ":temp Cel now+0 23.1",
                        ONE_WIRE + ":heat / now+0 1.0",
                        ONE_WIRE + ":fan / now+0 0.0");
        assertThat(resolved("""
                [{"bt":1.320078429e+09,"bu":"/","n":"2001:db8::3","v":0.5},{"n":"2001:db8::4","v":0.5},
                 {"n":"2001:db8::3","t":0.1,"v":0},{"n":"2001:db8::4","t":0.1,"v":0}]
                """))
                .containsExactly(
                        "2001:db8::3 / 1320078429 0.5",
                        "2001:db8::4 / 1320078429 0.5",
                        "2001:db8::3 / 1320078429.1 0.0",
                        "2001:db8::4 / 1320078429.1 0.0");
    }

    /** Section 4.5.3: below 2^28 s a time is relative, from there on absolute. */
    @Test
    void time_isRelativeBelow2To28() throws Refused {
        assertThat(resolved("[{\"n\":\"a\",\"t\":268435455,\"v\":1},{\"n\":\"a\",\"t\":268435456,\"v\":2}]"))
                .containsExactly("a null 268435456 2.0", "a null now+268435455 1.0");
    }

    /** Section 4.6: a missing part of a sum counts 0. */
    @Test
    void baseValue_isAdded_orStandsAlone() throws Refused {
        assertThat(resolved("[{\"bv\":20,\"n\":\"a\",\"v\":1.5},{\"n\":\"b\",\"u\":\"Cel\"}]"))
                .containsExactly("a null now+0 21.5", "b Cel now+0 20.0");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "{\"n\":\"a\",\"v\":1}",
                "[]",
                "[1]",
                "[{\"n\":\"a\"}]",
                "[{\"v\":1}]",
                "[{\"n\":\"a\",\"v\":1,\"vb\":true}]",
                "[{\"n\":\"a\",\"v\":\"1\"}]",
                "[{\"n\":\"a\",\"vb\":1}]",
                "[{\"n\":7,\"v\":1}]",
                "[{\"n\":\"_a\",\"v\":1}]",
                "[{\"n\":\"a b\",\"v\":1}]",
                "[{\"n\":\"a\",\"v\":1,\"secret_\":true}]",
                "[{\"bver\":11,\"n\":\"a\",\"v\":1}]",
                "[{\"bver\":9.5,\"n\":\"a\",\"v\":1}]",
                "[{\"bver\":10,\"n\":\"a\",\"v\":1},{\"bver\":5,\"n\":\"a\",\"v\":1}]",
                "[{\"n\":\"a\",\"vd\":\"aGkgCg==\"}]",
                "[{\"n\":\"a\",\"vd\":\"+/\"}]",
                "[null]"
            })
    void brokenPack_isRefused(String pack) {
        assertThatThrownBy(() -> resolved(pack))
                .isInstanceOfSatisfying(
                        Refused.class, refused -> assertThat(refused.why()).isEqualTo(Cause.NOT_SENML));
    }

    @Test
    void sumAlone_isAllowed_andNoValue() throws Refused {
        var record =
                SenMl.resolve(Json.parse("[{\"n\":\"a\",\"s\":3},{\"n\":\"b\",\"bs\":1,\"s\":2,\"v\":4,\"extra\":1}]"));

        assertThat(record.get(0).value()).isNull();
        assertThat(record.get(0).sum()).isEqualTo(3);
        assertThat(record.get(1).value()).isEqualTo(4);
        assertThat(record.get(1).sum()).isEqualTo(3);
    }
}
