package traytender.config.folder;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.networknt.schema.JsonSchema;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.statistics.Statistics;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.snakeyaml.engine.v2.api.Dump;
import org.snakeyaml.engine.v2.api.DumpSettings;
import org.snakeyaml.engine.v2.schema.CoreSchema;
import traytender.config.crop.LimitKey;

/** The JSON Schemas and the reader say the same, where a schema can tell. */
class SchemaTest {
    private static final JsonSchema SITE = Schemas.schema("site.schema.json");
    private static final JsonSchema CROP = Schemas.schema("crop.schema.json");

    @TempDir
    Path folder;

    private static List<String> names(JsonNode object) {
        var names = new ArrayList<String>();
        object.get("properties").fieldNames().forEachRemaining(names::add);
        return names;
    }

    @Test
    void keys_areTheReadersKeys() {
        JsonNode site = Schemas.node("site.schema.json");
        JsonNode defs = site.get("$defs");

        assertThat(names(site)).containsExactlyInAnyOrderElementsOf(SiteDocument.KEYS);
        assertThat(names(defs.get("room"))).containsExactlyInAnyOrderElementsOf(RoomReading.ROOM_KEYS);
        assertThat(names(defs.get("mat"))).containsExactlyInAnyOrderElementsOf(RoomReading.MAT_KEYS);
        assertThat(names(defs.get("tray"))).containsExactlyInAnyOrderElementsOf(TrayReading.KEYS);
        assertThat(names(defs.get("sowing"))).containsExactlyInAnyOrderElementsOf(TrayReading.SOWING_KEYS);
        assertThat(names(defs.get("probe"))).containsExactlyInAnyOrderElementsOf(ProbeReading.KEYS);
        assertThat(names(Schemas.node("crop.schema.json"))).containsExactlyInAnyOrderElementsOf(CropReading.KEYS);
    }

    @Test
    void everyLimit_isInTheSchemaWithItsRange() {
        JsonNode limits = Schemas.node("crop.schema.json").at("/$defs/limits/properties");

        for (LimitKey key : LimitKey.values()) {
            JsonNode schema = switch (key) {
                case ROOT_TARGET_LOW -> limits.at("/root-target/prefixItems/0");
                case ROOT_TARGET_HIGH -> limits.at("/root-target/prefixItems/1");
                case DAMP_AIR_HUMIDITY -> limits.at("/damp-air/properties/humidity");
                case DAMP_AIR_HOURS -> limits.at("/damp-air/properties/hours");
                default -> limits.get(key.word());
            };

            assertThat(schema).as(key.word()).isNotNull();
            assertThat(schema.get("minimum").asDouble()).as(key.word()).isEqualTo(key.lowest());
            assertThat(schema.get("maximum").asDouble()).as(key.word()).isEqualTo(key.highest());
        }
        assertThat(names(Schemas.node("crop.schema.json").at("/$defs/limits")))
                .containsExactlyInAnyOrderElementsOf(CropReading.limitWords());
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "location: {latitude: 91, longitude: 0}",
                "location: {latitude: 53.35}",
                "show: {temperature: K}",
                "show: {clock: 13}",
                "last-frost: 04-31",
                "last-frost: 420",
                "morning-round: 7:00",
                "store: {keep: 400}",
                "store: {keep: P1Y}",
                "store: {influxdb: {url: 127.0.0.1, database: a}}",
                "store: {influxdb: {url: 'http://a', database: a, password-file: p}}",
                "messages: {broker: 'mqtt://x'}",
                "messages: {broker: 'tcp://x/y'}",
                "messages: {broker: 'tcp://x', port: 1884}",
                "messages: {broker: built-in, user: u}",
                "messages: {broker: 'tcp://x', password-file: p}",
                "messages: {prefix: 'a/#'}",
                "messages: {port: 70000}",
                "sowing: []",
                "mats: {id: m}",
                "mats: [{id: m, room: propagation, thermostat: mine}]",
                "mats: [{id: m, room: propagation, relay: {topic: a/+, rest: r}}]",
                "trays: [{id: a/b, room: propagation, cells: {rows: 1, columns: 1}}]",
                "trays: [{id: a, room: propagation, cells: 8x16}]",
                "trays: [{id: a, room: propagation, cells: {rows: 0, columns: 1}}]",
                "trays: [{id: a, room: propagation, cells: {rows: 1, columns: 1.5}}]",
                "trays: [{id: a, room: propagation, cells: {rows: 1, columns: 1}, stage: old}]",
                "trays: [{id: a, room: propagation, cells: {rows: 1, columns: 1}, sowings: [{rows: all, crop: kale}]}]",
                "trays: [{id: a, room: propagation, cells: {rows: 1, columns: 1}, sowings: [{crop: kale, since: now}]}]",
                "probes: [{id: p, measures: humidity, at: {room: propagation}, message: {topic: a, format: json}}]",
                "probes: [{id: p, measures: humidity, at: {}, message: {topic: a, format: text}}]",
                "probes: [{id: p, measures: humidity, at: {room: propagation}, message: {topic: a/#, format: text}}]",
                "probes: [{id: p, measures: humidity, at: {room: propagation}, message: {topic: a, format: text, value: /a}}]",
                "probes: [{id: p, measures: humidity, at: {room: propagation}, message: {topic: a, format: json, value: a}}]",
                "probes: [{id: p, measures: humidity, at: {room: propagation}, message: {topic: a, format: text}, every: 60s}]",
                "probes: [{id: p, measures: humidity, at: {room: propagation}, message: {topic: a, format: text, lit: a}}]",
                "probes: [{id: p, measures: mat-surface, at: {room: propagation}, message: {topic: a, format: text}}]",
                "probes: [{id: p, measures: humidity, at: {room: propagation}, message: {topic: a, format: text}, calibration: {dry: 1, wet: 2}}]",
                "probes: [{id: p, measures: humidity, at: {room: propagation}, message: {topic: a, format: text}, calibration: {ntc: 5}}]",
                "probes: [{id: p, measures: humidity, at: {room: propagation}, message: {topic: a, format: text}, calibration: {points: [[1, 2]]}}]",
                "probes: [{id: p, measures: humidity, at: {room: propagation}, message: {topic: a, format: text}, calibration: []}]"
            })
    void wrongSite_isRefusedByBoth(String line) {
        String document = Folders.LEAST + line;

        assertThat(Folders.errors(folder, document)).isNotEmpty();
        assertThat(Schemas.verdict(SITE, Schemas.load(document))).isNotEmpty();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "location: {latitude: 53, longitude: -6.26}",
                "last-frost: 02-29",
                "store: {keep: P400DT12H, influxdb: {url: 'https://a.lan', database: 7, token-file: t}}",
                "messages: {listen: 0.0.0.0, port: 0, prefix: alder}",
                "messages: {broker: 'SSL://x.lan', user: u, password-file: p}",
                "trays: [{id: 7, room: propagation, cells: {rows: 1, columns: 1}, sowings: [{rows: 1, crop: kale, sown: 2026-03-02}]}]",
                "probes: [{id: p, measures: battery, at: {room: propagation}, message: {topic: a b/ü, format: json, value: ''}}]",
                "probes: [{id: p, measures: light, at: [{room: propagation}, {room: propagation, since: 2026-03-02}], message: {topic: a, format: json, value: /l, lit: true, dark: false}, calibration: [none, {offset: 1, since: 2026-03-02T10:00:00+01:00}]}]"
            })
    void rightSite_isAcceptedByBoth(String line) {
        String document = Folders.LEAST + line;

        assertThat(Folders.errors(folder, document)).isEmpty();
        assertThat(Schemas.verdict(SITE, Schemas.load(document))).isEmpty();
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
                    {crop: tomato}                                                    | right
                    {stages: {seedling: {dry-line: 0.5, root-target: [18, 24]}}}      | right
                    {stages: {seedling: {damp-air: {humidity: 90, hours: 5}}}, sources: {seedling: {damp-air: own trial}}} | right
                    {like: pepper, emergence: {base: 8, degree-days: 100}}            | right
                    {stages: {seedling: {dry-line: 1.2}}}                             | wrong
                    {stages: {seedling: {dry-line: "0.5"}}}                           | wrong
                    {stages: {seedling: {dryline: 0.5}}}                              | wrong
                    {stages: {planted-out: {dry-line: 0.5}}}                          | wrong
                    {stages: {seedling: {root-target: [18]}}}                         | wrong
                    {stages: {seedling: {root-target: [18, 24, 25]}}}                 | wrong
                    {stages: {seedling: {damp-air: 90}}}                              | wrong
                    {emergence: {base: 8}}                                            | wrong
                    {potted-up: sometimes}                                            | wrong
                    {sources: {seedling: {dry: x}}}                                   | wrong
                    """)
    void crop_isJudgedAlikeByBoth(String document, String verdict) {
        Folders.write(folder, "crops/tomato.yaml", document);

        assertThat(Folders.errors(folder, Folders.LEAST).isEmpty()).isEqualTo(verdict.equals("right"));
        assertThat(Schemas.verdict(CROP, Schemas.load(document)).isEmpty()).isEqualTo(verdict.equals("right"));
    }

    @Test
    void builtInCrops_followTheSchema() throws IOException {
        for (String name : CropLibrary.NAMES) {
            assertThat(Schemas.verdict(CROP, Schemas.load(SiteReaderTest.resource("library/" + name + ".yaml"))))
                    .as(name)
                    .isEmpty();
        }
    }

    /** A document spoilt at one place: whatever the reader accepts, the schema accepts too. */
    @Property(tries = 300, seed = "20260314")
    void spoiltSite_isNeverRefusedByTheSchemaAlone(
            @ForAll int place, @ForAll("values") Object value, @ForAll("kinds") String kind) throws IOException {
        Object document = Schemas.load(SiteReaderTest.resource("alder-lane.yaml"));
        spoil(document, new int[] {Math.floorMod(place, 140)}, kind, value);
        String yaml =
                new Dump(DumpSettings.builder().setSchema(new CoreSchema()).build()).dumpToString(document);

        Path site = Files.createTempDirectory("spoilt");
        List<String> errors = Folders.errors(site, yaml);
        Files.delete(site.resolve("site.yaml"));
        Files.delete(site);

        Statistics.label("accepted by the reader")
                .collect(errors.isEmpty())
                .coverage(share -> share.check(true).percentage(percent -> percent > 5));
        if (errors.isEmpty()) {
            assertThat(Schemas.verdict(SITE, Schemas.load(yaml))).as(yaml).isEmpty();
        }
    }

    @Provide
    Arbitrary<Object> values() {
        return Arbitraries.of(
                "x",
                "",
                " ",
                "1-4",
                "07:00",
                "2026-03-02",
                "none",
                "own",
                "tomato",
                "a/b",
                "a/+",
                "/a",
                "/a~2",
                "P1D",
                "PT1M",
                "C",
                "06:00-22:00",
                "tcp://a:1",
                "http://a",
                "é",
                0,
                1,
                7,
                -3,
                0.5,
                1e7,
                true,
                false,
                List.of(),
                Map.of(),
                List.of("a"),
                Map.of("a", 1),
                Map.of("offset", 2),
                List.of(Map.of("room", "propagation")));
    }

    @Provide
    Arbitrary<String> kinds() {
        return Arbitraries.of("replace", "replace", "replace", "drop", "rename", "add");
    }

    /** Walks the document in order and spoils the value at the counted place. */
    @SuppressWarnings("unchecked")
    private static boolean spoil(Object node, int[] left, String kind, Object value) {
        if (node instanceof Map<?, ?> map) {
            var typed = (Map<Object, Object>) map;
            for (Object key : List.copyOf(typed.keySet())) {
                if (left[0]-- == 0) {
                    spoilKey(typed, key, kind, value);
                    return true;
                }
                if (spoil(typed.get(key), left, kind, value)) {
                    return true;
                }
            }
        }
        if (node instanceof List<?> list) {
            for (Object item : list) {
                if (spoil(item, left, kind, value)) {
                    return true;
                }
            }
        }
        return false;
    }

    private static void spoilKey(Map<Object, Object> map, Object key, String kind, Object value) {
        switch (kind) {
            case "drop" -> map.remove(key);
            case "rename" -> map.put(key + "s", map.remove(key));
            case "add" -> map.put("since", value);
            default -> map.put(key, value);
        }
    }
}
