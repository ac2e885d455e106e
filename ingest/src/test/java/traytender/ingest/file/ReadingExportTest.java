package traytender.ingest.file;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.StringWriter;
import java.io.Writer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import traytender.config.reading.Marks;
import traytender.config.site.Binding;
import traytender.config.site.Calibration;
import traytender.config.site.Dated;
import traytender.config.site.Place;
import traytender.config.site.Probe;
import traytender.config.site.Quantity;
import traytender.config.site.Site;
import traytender.ingest.store.Bench;
import traytender.ingest.store.RawReading;
import traytender.ingest.store.SqliteReadingStore;

class ReadingExportTest {
    private static final Instant START = Instant.parse("2026-03-14T05:41:00Z");
    private static final Probe MOISTURE =
            Bench.probe("b-moisture", Quantity.MOISTURE, new Binding.Json("alder/b", "/m", null, Map.of()));
    private static final Probe ODD =
            Bench.probe("a,\"odd\"", Quantity.HUMIDITY, new Binding.SenMl("alder/a", "b-moisture"));
    private static final Site SITE = Bench.site(MOISTURE, ODD);

    @TempDir
    Path folder;

    @Test
    void csv_isInOrderOfProbeAndTime_withMillisecondsOnlyWhereNotZero() throws IOException {
        assertThat(export(ReadingExport::csv, START, START.plusSeconds(60))).isEqualTo("""
                        time,probe,value,raw,marks
                        2026-03-14T05:41:00.250Z,"a,""odd""\",100,50,clock
                        2026-03-14T05:41:00Z,b-moisture,0.42,0.21,
                        2026-03-14T05:41:59.999Z,b-moisture,3326,1663,
                        """);
    }

    /** Form and units by RFC 8428, sections 4, 5.1 and 12.1. */
    @Test
    void senMl_hasBaseNameTimeAndUnit_andCarriesRaw() throws IOException {
        assertThat(export(ReadingExport::senMl, START, START.plusSeconds(61))).isEqualTo("""
                        [{"bn":"a,\\"odd\\"","bt":1773466860.25,"bu":"%RH","v":100,"raw":50,"marks":"clock"}
                        ,{"bn":"b-moisture","bt":1773466860,"bu":"/","v":0.42,"raw":0.21}
                        ,{"t":59.999,"v":3326,"raw":1663}
                        ,{"t":60,"v":2,"raw":1}
                        ]
                        """);
    }

    @Test
    void nothing_isAHeaderOrAnEmptyPack() throws IOException {
        assertThat(export(ReadingExport::csv, Instant.MIN, START)).isEqualTo("time,probe,value,raw,marks\n");
        assertThat(export(ReadingExport::senMl, Instant.MIN, START)).isEqualTo("[]\n");
    }

    @Test
    void senMlUnits_areThoseOfTheRfc() {
        var relay = new Binding.Text("alder/m", Map.of("heat", 1.0, "rest", 0.0));
        var plain = new Binding.Text("alder/m", Map.of());

        assertThat(SenMlUnit.of(Bench.probe("p", Quantity.AIR_TEMPERATURE, plain), 0))
                .isEqualTo(new SenMlUnit("Cel", 1));
        assertThat(SenMlUnit.of(Bench.probe("p", Quantity.MAT_POWER, plain), 0)).isEqualTo(new SenMlUnit("W", 1));
        assertThat(SenMlUnit.of(Bench.probe("p", Quantity.MAT_POWER, relay), 0)).isEqualTo(new SenMlUnit("/", 1));
        assertThat(SenMlUnit.of(Bench.probe("p", Quantity.LIGHT, plain), 0)).isEqualTo(new SenMlUnit("lx", 1));
        assertThat(SenMlUnit.of(Bench.probe("p", Quantity.BATTERY, plain), 0)).isEqualTo(new SenMlUnit("%EL", 1));
        assertThat(SenMlUnit.of(Bench.probe("p", Quantity.WEIGHT, plain), 0)).isEqualTo(new SenMlUnit("kg", 1000));
    }

    @Test
    void senMlUnit_ofAWeightThatBecameMoisture_changesInThePack() throws IOException {
        var scale = new Probe(
                "scale",
                Quantity.WEIGHT,
                Dated.always(new Place.AtTray("T01")),
                new Binding.Text("alder/scale", Map.of()),
                new Dated<>(List.of(
                        new Dated.From<Calibration>(Instant.MIN, new Calibration.None()),
                        new Dated.From<Calibration>(START, new Calibration.Weight(900, 3400)))),
                null);
        try (var store = SqliteReadingStore.open(folder.resolve("data"), Bench.DOUBLED)) {
            store.append(List.of(
                    new RawReading("scale", START.toEpochMilli() - 1000, 1250, 0),
                    new RawReading("scale", START.toEpochMilli(), 1250, 0)));
            var out = new StringWriter();
            new ReadingExport(Bench.site(scale), store).senMl(Instant.MIN, Instant.MAX, out);

            assertThat(out.toString())
                    .contains("\"bu\":\"kg\",\"v\":2.5,\"raw\":1250")
                    .contains("{\"bu\":\"/\",\"t\":1,\"v\":2500,\"raw\":1250");
        }
    }

    @Property(tries = 30, seed = "20260314")
    void csv_importedAgain_isTheSame(@ForAll("readings") List<RawReading> readings) throws IOException {
        assertThat(exportedAndImported(readings, ReadingExport::csv)).isEqualTo(firstOfEach(readings));
    }

    @Property(tries = 30, seed = "20260314")
    void senMl_importedAgain_isTheSame(@ForAll("readings") List<RawReading> readings) throws IOException {
        assertThat(exportedAndImported(readings, ReadingExport::senMl)).isEqualTo(firstOfEach(readings));
    }

    /** Times from 1980 on: SenML takes earlier ones for relative ones. */
    @Provide
    Arbitrary<List<RawReading>> readings() {
        var values = Arbitraries.oneOf(
                Arbitraries.doubles().filter(Double::isFinite),
                Arbitraries.integers().between(0, 4095).map(Integer::doubleValue));
        return Combinators.combine(
                        Arbitraries.of(MOISTURE.id(), ODD.id()),
                        Arbitraries.longs().between(315_532_800_000L, START.toEpochMilli()),
                        values.filter(value -> Double.isFinite(2 * value)),
                        Arbitraries.of(Marks.NONE, Marks.CLOCK))
                .as(RawReading::new)
                .list()
                .ofMaxSize(40);
    }

    private interface Format {
        long write(ReadingExport export, Instant from, Instant to, Writer out) throws IOException;
    }

    private static List<RawReading> exportedAndImported(List<RawReading> readings, Format format) throws IOException {
        var folder = Files.createTempDirectory("traytender-export");
        try (var from = SqliteReadingStore.open(folder.resolve("from"), Bench.DOUBLED);
                var to = SqliteReadingStore.open(folder.resolve("to"), Bench.DOUBLED)) {
            from.append(readings);
            var file = folder.resolve("out");
            AtomicFile.write(file, out -> format.write(new ReadingExport(SITE, from), Instant.MIN, Instant.MAX, out));
            var log = new ImportLog();
            new ReadingImport(SITE, to, to.importPositions(), Clock.systemUTC()).read(file, log);
            assertThat(log.rejected).isEmpty();
            var back = new ArrayList<RawReading>();
            to.source(SITE)
                    .scan(
                            Long.MIN_VALUE,
                            Long.MAX_VALUE,
                            r -> back.add(new RawReading(r.probe(), r.timeMs(), r.raw(), r.marks())));
            return back;
        } finally {
            deleteAll(folder);
        }
    }

    private static List<RawReading> firstOfEach(List<RawReading> readings) {
        var first = new HashMap<String, RawReading>();
        readings.forEach(reading -> first.putIfAbsent(reading.probe() + reading.timeMs(), reading));
        return first.values().stream()
                .sorted(Comparator.comparingLong(RawReading::timeMs).thenComparing(RawReading::probe))
                .toList();
    }

    private static void deleteAll(Path folder) throws IOException {
        try (var files = Files.walk(folder)) {
            for (var file : files.sorted(Comparator.reverseOrder()).toList()) {
                Files.delete(file);
            }
        }
    }

    @Test
    void failedWrite_leavesTheFileThatWasThere() throws IOException {
        var file = Files.writeString(folder.resolve("out.csv"), "old");

        assertThatThrownBy(() -> AtomicFile.write(file, out -> {
                    out.write("half");
                    throw new IOException("no more");
                }))
                .isInstanceOf(IOException.class);

        assertThat(file).hasContent("old");
        try (var files = Files.list(folder)) {
            assertThat(files).containsExactly(file);
        }
    }

    private String export(Format format, Instant from, Instant to) throws IOException {
        try (var store = SqliteReadingStore.open(folder.resolve("data"), Bench.DOUBLED)) {
            var ms = START.toEpochMilli();
            store.append(List.of(
                    new RawReading(MOISTURE.id(), ms + 60_000, 1, 0),
                    new RawReading(MOISTURE.id(), ms + 59_999, 1663, 0),
                    new RawReading(MOISTURE.id(), ms, 0.21, 0),
                    new RawReading(ODD.id(), ms + 250, 50, Marks.CLOCK),
                    new RawReading("gone", ms, 50, 0)));
            var out = new StringWriter();
            format.write(new ReadingExport(SITE, store), from, to, out);
            return out.toString();
        }
    }
}
