package traytender.ingest.decode;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.Map;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.constraints.Size;
import traytender.config.reading.Marks;
import traytender.config.site.Binding;
import traytender.config.site.Quantity;
import traytender.ingest.store.Bench;

/** Whatever comes, it ends in readings or refusals; the decoders never throw. */
class TopicDecoderFuzzTest {
    private static final String TOPIC = "alder/T01";
    private static final Arrival ARRIVAL = new Arrival(1_773_466_860_000L, 1_773_467_160_000L, false, Marks.NONE);

    private static TopicDecoder decoder() {
        return TopicDecoder.of(Bench.site(
                        Bench.probe("text", Quantity.MOISTURE, new Binding.Text(TOPIC, Map.of("heat", 1.0))),
                        Bench.probe("json", Quantity.MOISTURE, new Binding.Json(TOPIC, "/v", "/at", Map.of())),
                        Bench.probe("senml", Quantity.MOISTURE, new Binding.SenMl(TOPIC, "a"))))
                .get(TOPIC);
    }

    @Property(seed = "20260314")
    void anyBytes_endInReadingsOrRefusals(@ForAll @Size(max = 200) byte[] payload) {
        var decoder = decoder();

        var decoded = decoder.decode(payload, ARRIVAL);

        assertThat(decoded.readings().size() + decoded.refusals().size()).isPositive();
        assertThat(decoded.readings()).allMatch(reading -> reading.timeMs() <= ARRIVAL.latestMs());
    }

    @Property(seed = "20260314")
    void anyJson_endsInReadingsOrRefusals(@ForAll("documents") String document) {
        var decoded = decoder().decode(document.getBytes(StandardCharsets.UTF_8), ARRIVAL);

        assertThat(decoded.readings().size() + decoded.refusals().size()).isPositive();
    }

    @Provide
    static Arbitrary<String> documents() {
        var values = Arbitraries.of(
                "1",
                "-1e308",
                "1e308",
                "1e999",
                "NaN",
                "null",
                "true",
                "\"a\"",
                "\"\"",
                "[]",
                "{}",
                "\"2026-03-14T05:41:00Z\"",
                "268435456",
                "1e-320",
                "99999999999999999999",
                "\"\\ud800\"");
        var names = Arbitraries.of(
                "n", "bn", "bt", "bu", "bv", "bs", "bver", "u", "v", "vs", "vb", "vd", "s", "t", "at", "x_");
        var object = Combinators.combine(names, values)
                .as((name, value) -> "\"" + name + "\":" + value)
                .list()
                .ofMaxSize(5)
                .map(fields -> "{" + String.join(",", fields) + "}");
        return Arbitraries.oneOf(object, object.list().ofMaxSize(4).map(list -> "[" + String.join(",", list) + "]"));
    }
}
