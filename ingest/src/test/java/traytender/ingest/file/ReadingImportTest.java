package traytender.ingest.file;

import static java.nio.charset.StandardCharsets.ISO_8859_1;
import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.Charset;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import traytender.config.reading.Marks;
import traytender.config.reading.Reading;
import traytender.config.site.Binding;
import traytender.config.site.Quantity;
import traytender.config.site.Site;
import traytender.ingest.store.Bench;
import traytender.ingest.store.RawReading;
import traytender.ingest.store.SqliteReadingStore;

class ReadingImportTest {
    private static final Clock CLOCK = Clock.fixed(Instant.parse("2026-03-14T12:00:00Z"), ZoneOffset.UTC);
    private static final Map<String, Double> HEAT = Map.of("heat", 1.0, "rest", 0.0);
    private static final Site SITE = Bench.site(
            Bench.probe("centre"),
            Bench.probe("edge, front"),
            Bench.probe("mat", Quantity.MAT_POWER, new Binding.Text("alder/mat", HEAT)),
            Bench.probe(
                    "lamp", Quantity.LIGHT, new Binding.Json("alder/l", "/l", null, Map.of("lit", 1.0, "dark", 0.0))),
            Bench.probe("air", Quantity.AIR_TEMPERATURE, new Binding.SenMl("alder/air", "alder:air:temp")),
            Bench.probe("twin-1", Quantity.BATTERY, new Binding.SenMl("alder/1", "twin")),
            Bench.probe("twin-2", Quantity.BATTERY, new Binding.SenMl("alder/2", "twin")));

    @TempDir
    Path folder;

    private SqliteReadingStore store;
    private final ImportLog log = new ImportLog();

    @BeforeEach
    void open() {
        store = SqliteReadingStore.open(folder.resolve("data"), Bench.DOUBLED);
    }

    @AfterEach
    void close() {
        store.close();
    }

    @Test
    void csv_bringsReadingsIn() {
        var result = read("""
                time,probe,value
                2026-03-14T05:41:00Z,centre,1663
                2026-03-14T06:41:00.250+01:00,centre,-1.5e3
                """);

        assertThat(result).isEqualTo(new ImportResult(2, 0, 0, 0));
        assertThat(log.rejected).isEmpty();
        assertThat(raws())
                .containsExactly(
                        raw("centre", "2026-03-14T05:41:00Z", 1663), raw("centre", "2026-03-14T05:41:00.250Z", -1500));
    }

    @Test
    void csv_takesWordsOfTheProbe_andNumbersForThem() {
        read("""
                time,probe,value
                2026-03-14T05:41:00Z,mat,heat
                2026-03-14T05:42:00Z,mat,rest
                2026-03-14T05:43:00Z,mat,1
                2026-03-14T05:44:00Z,mat,lit
                2026-03-14T05:45:00Z,lamp,dark
                """);

        assertThat(raws())
                .containsExactly(
                        raw("mat", "2026-03-14T05:41:00Z", 1),
                        raw("mat", "2026-03-14T05:42:00Z", 0),
                        raw("mat", "2026-03-14T05:43:00Z", 1),
                        raw("lamp", "2026-03-14T05:45:00Z", 0));
        assertThat(log.rejected).containsExactly("5: the value is not a number: 'lit'");
    }

    @Test
    void csv_withByteOrderMark_crlf_quotes_spacesAndOtherColumns_isRead() {
        var result = read("\uFEFFnote,Probe, TIME ,value\r\n"
                + "\"say \"\"hi\"\", you\",\"edge, front\",2026-03-14T05:41:00Z,1\r\n"
                + "\r\n"
                + "x, centre , 2026-03-14 05:42:00z , 2 \r\n"
                + "x,centre,2026-03-14T05:43:00Z,3");

        assertThat(log.rejected).isEmpty();
        assertThat(result.stored()).isEqualTo(3);
    }

    @Test
    void csv_exportedByThisProgram_comesBackByRaw_withTheClocksMark() {
        read("""
                time,probe,value,raw,marks
                2026-03-14T05:41:00Z,centre,0.41,2243,clamped clock
                2026-03-14T05:42:00Z,centre,0.42,2240,
                """);

        assertThat(raws())
                .containsExactly(
                        new RawReading("centre", ms("2026-03-14T05:41:00Z"), 2243, Marks.CLOCK),
                        raw("centre", "2026-03-14T05:42:00Z", 2240));
    }

    @Test
    void csv_rejectsEachBadLineWithItsNumberAndReason_andTakesTheOthers() {
        var result = read("""
                time,probe,value
                2026-03-14T05:41:00Z,centre,1
                2026-03-14T05:41:00Z,nobody,1
                yesterday,centre,1
                2026-03-14T05:41:00,centre,1
                2026-02-30T05:41:00Z,centre,1
                2026-03-14T12:05:00Z,centre,1
                2026-03-14T12:05:00.001Z,centre,1
                2099-01-01T00:00:00Z,centre,1
                2026-03-14T05:41:01Z,centre,NaN
                2026-03-14T05:41:01Z,centre,Infinity
                2026-03-14T05:41:01Z,centre,1e999
                2026-03-14T05:41:01Z,centre,0x1p3
                2026-03-14T05:41:01Z,centre,1d
                2026-03-14T05:41:01Z,centre,
                2026-03-14T05:41:01Z,centre
                2026-03-14T05:41:01Z,"centre,1
                2026-03-14T05:41:02Z,centre,2
                """);

        assertThat(result).isEqualTo(new ImportResult(3, 0, 14, 0));
        assertThat(log.rejected)
                .containsExactly(
                        "3: no probe is called 'nobody'",
                        "4: the time is not of the form 2026-03-14T05:41:00Z: 'yesterday'",
                        "5: the time is not of the form 2026-03-14T05:41:00Z: '2026-03-14T05:41:00'",
                        "6: the time is not of the form 2026-03-14T05:41:00Z: '2026-02-30T05:41:00Z'",
                        "8: the time lies in the future: 2026-03-14T12:05:00.001Z",
                        "9: the time lies in the future: 2099-01-01T00:00:00Z",
                        "10: the value is not a number: 'NaN'",
                        "11: the value is not a number: 'Infinity'",
                        "12: the value is beyond every number",
                        "13: the value is not a number: '0x1p3'",
                        "14: the value is not a number: '1d'",
                        "15: the value is not a number: ''",
                        "16: it has 2 fields, 3 are needed",
                        "17: its quotes do not match: '2026-03-14T05:41:01Z,\"centre,1'");
    }

    @Test
    void csv_withInvalidUtf8_andControlCharacters_rejectsThoseLinesOnly() throws IOException {
        var result = read(
                "time,probe,value\n2026-03-14T05:41:00Z,c\u00e4ntre,1\n2026-03-14T05:41:00Z,\u0007\u0000,1\n"
                        + "2026-03-14T05:41:00Z,centre,1\n",
                ISO_8859_1);

        assertThat(result).isEqualTo(new ImportResult(1, 0, 2, 0));
        assertThat(log.rejected).containsExactly("2: no probe is called 'c\uFFFDntre'", "3: no probe is called '??'");
    }

    @Test
    void csv_withAnEndlessLine_rejectsIt_andGoesOn() {
        var result = read("time,probe,value\n" + "x".repeat(3_000_000) + "\n2026-03-14T05:41:00Z,centre,1\n");

        assertThat(result).isEqualTo(new ImportResult(1, 0, 1, 0));
        assertThat(log.rejected).containsExactly("2: the line is longer than 65536 bytes");
    }

    @Test
    void csv_withoutTheColumns_isRefusedWhole() {
        assertThatThrownBy(() -> read("2026-03-14T05:41:00Z,centre,1\n"))
                .isInstanceOf(ImportException.class)
                .hasMessageContaining("time,probe,value")
                .hasMessageContaining("in.csv");
        assertThatThrownBy(() -> read("")).isInstanceOf(ImportException.class);
        assertThatThrownBy(() -> new ReadingImport(SITE, store, store.importPositions(), CLOCK)
                        .read(folder.resolve("none.csv"), log))
                .isInstanceOf(ImportException.class)
                .hasMessageContaining("none.csv");
    }

    @Test
    void futureTimes_areTaken_whenTheClockStandsBeforeTheNewestReading() {
        store.append(List.of(raw("centre", "2026-04-01T00:00:00Z", 1)));

        assertThat(read("time,probe,value\n2026-03-20T05:41:00Z,centre,1\n").stored())
                .isEqualTo(1);
    }

    @Test
    void importingTwice_changesNothing() {
        var csv = "time,probe,value\n2026-03-14T05:41:00Z,centre,1\n2026-03-14T05:42:00Z,centre,1\n";
        read(csv);

        assertThat(read(csv)).isEqualTo(new ImportResult(0, 2, 0, 0));
    }

    @Test
    void interruptedCsvImport_goesOnWhereItStopped_withTheSameLineNumbers() throws IOException {
        var csv = manyLines(120_000) + "2026-03-14T05:41:01Z,nobody,2\n";
        var file = write(csv, UTF_8);
        var broken = new FailingStore(store, 70_000);
        assertThatThrownBy(() -> new ReadingImport(SITE, broken, store.importPositions(), CLOCK).read(file, log))
                .isInstanceOf(IllegalStateException.class);

        var result = new ReadingImport(SITE, store, store.importPositions(), CLOCK).read(file, log);

        assertThat(result).isEqualTo(new ImportResult(50_000, 20_000, 1, 50_000));
        assertThat(log.rejected).containsExactly("120002: no probe is called 'nobody'");
        assertThat(store.count()).isEqualTo(120_000);
        assertThat(new ReadingImport(SITE, store, store.importPositions(), CLOCK)
                        .read(file, log)
                        .resumedAt())
                .isZero();
    }

    @Test
    void editedFile_isReadFromTheBeginning() throws IOException {
        var file = write(manyLines(60_000), UTF_8);
        var broken = new FailingStore(store, 55_000);
        assertThatThrownBy(() -> new ReadingImport(SITE, broken, store.importPositions(), CLOCK).read(file, log))
                .isInstanceOf(IllegalStateException.class);
        Files.setLastModifiedTime(file, FileTime.from(CLOCK.instant()));

        assertThat(new ReadingImport(SITE, store, store.importPositions(), CLOCK)
                        .read(file, log)
                        .resumedAt())
                .isZero();
    }

    @Test
    void progress_growsToTheWholeFile() {
        read(manyLines(12_000));

        assertThat(log.progress).isSorted().hasSizeGreaterThan(2).endsWith(100L);
    }

    /** Names, base fields and times as in RFC 8428, sections 4 and 5.1. */
    @Test
    void senMl_resolvesBaseFields_andFindsProbesByBindingOrId() {
        var result = read("""
                [{"bn":"alder:","bt":1773466860,"bu":"Cel","n":"air:temp","v":18.5},
                 {"n":"air:temp","t":60.25,"v":18.6},
                 {"bn":"","n":"centre","u":"/","v":1663},
                 {"n":"mat","vb":true},{"n":"mat","t":1,"vb":false},{"n":"mat","t":2,"vs":"heat"},
                 {"bn":"centre","bv":1000,"bt":1773466900},
                 {"v":5, "unheard":{"of":[1]}}]
                """);

        assertThat(log.rejected).isEmpty();
        assertThat(result.stored()).isEqualTo(7);
        assertThat(raws())
                .containsExactly(
                        raw("air", "2026-03-14T05:41:00Z", 18.5),
                        raw("centre", "2026-03-14T05:41:00Z", 1663),
                        raw("mat", "2026-03-14T05:41:00Z", 1),
                        raw("mat", "2026-03-14T05:41:01Z", 0),
                        raw("mat", "2026-03-14T05:41:02Z", 1),
                        raw("centre", "2026-03-14T05:41:40Z", 1005),
                        raw("air", "2026-03-14T05:42:00.250Z", 18.6));
    }

    @Test
    void senMl_rejectsEachBadRecord_andTakesTheOthers() {
        var result = read("""
                [{"n":"centre","v":1},
                 {"n":"centre","t":-60,"v":1},
                 {"bt":1773466860,"n":"nobody","v":1},
                 {"n":"twin","v":1},
                 {"n":"centre","vs":"warm"},
                 {"n":"centre"},
                 {"n":"centre","v":1,"must_":2},
                 {"n":"centre","t":86400,"v":1},
                 {"n":"centre","v":1e999},
                 {"n":"centre","v":7}]
                """);

        assertThat(result.stored()).isEqualTo(1);
        assertThat(log.rejected)
                .containsExactly(
                        "1: its time is relative to now, which means nothing in a file",
                        "2: its time is relative to now, which means nothing in a file",
                        "3: no probe is called 'nobody'",
                        "4: 2 probes have the name 'twin' in their messages",
                        "5: the value is not a number: 'warm'",
                        "6: it has no number in v",
                        "7: the field 'must_' would have to be understood",
                        "8: the time lies in the future: 2026-03-15T05:41:00Z",
                        "9: the value is beyond every number");
    }

    @Test
    void senMl_ofANewerVersion_isRefusedWhole() {
        assertThatThrownBy(() -> read("[{\"bver\":11,\"bt\":1773466860,\"n\":\"centre\",\"v\":1}]"))
                .isInstanceOf(ImportException.class)
                .hasMessageContaining("version 11");
        assertThat(store.count()).isZero();
    }

    @Test
    void senMl_thatBreaksOff_keepsWhatCameBefore() {
        var result = read("[{\"bt\":1773466860,\"n\":\"centre\",\"v\":1},\n{\"n\":\"centre\",\"t\":1,");

        assertThat(result).isEqualTo(new ImportResult(1, 0, 1, 0));
        assertThat(log.rejected).singleElement().asString().startsWith("2: the file is not JSON from here on");
    }

    @Test
    void senMl_withSomethingElseBetweenRecords_saysWhereItStopped() {
        var result = read("[{\"bt\":1773466860,\"n\":\"centre\",\"v\":1}, 7, {\"n\":\"centre\",\"t\":1,\"v\":1}]");

        assertThat(result).isEqualTo(new ImportResult(1, 0, 1, 0));
        assertThat(log.rejected).containsExactly("2: not a SenML record; the rest of the file was not read");
    }

    @Test
    void interruptedSenMlImport_goesOnWhereItStopped() throws IOException {
        var pack = new StringBuilder("[{\"bn\":\"centre\",\"bt\":1700000000}");
        for (int i = 0; i < 60_000; i++) {
            pack.append(",\n{\"t\":").append(i).append(",\"v\":").append(i).append('}');
        }
        var file = write(pack + "]", UTF_8);
        var broken = new FailingStore(store, 55_000);
        assertThatThrownBy(() -> new ReadingImport(SITE, broken, store.importPositions(), CLOCK).read(file, log))
                .isInstanceOf(IllegalStateException.class);

        var result = new ReadingImport(SITE, store, store.importPositions(), CLOCK).read(file, log);

        assertThat(result).isEqualTo(new ImportResult(5_000, 5_000, 0, 50_001));
        assertThat(store.count()).isEqualTo(60_000);
    }

    private static String manyLines(int count) {
        var csv = new StringBuilder("time,probe,value\n");
        var start = Instant.parse("2026-01-01T00:00:00Z");
        for (int i = 0; i < count; i++) {
            csv.append(start.plusSeconds(i)).append(",centre,").append(i).append('\n');
        }
        return csv.toString();
    }

    private ImportResult read(String content) {
        try {
            return read(content, UTF_8);
        } catch (IOException e) {
            throw new AssertionError(e);
        }
    }

    private ImportResult read(String content, Charset charset) throws IOException {
        return new ReadingImport(SITE, store, store.importPositions(), CLOCK).read(write(content, charset), log);
    }

    private Path write(String content, Charset charset) throws IOException {
        return Files.write(folder.resolve("in.csv"), content.getBytes(charset));
    }

    private List<RawReading> raws() {
        var raws = new ArrayList<RawReading>();
        store.source(SITE).scan(Long.MIN_VALUE, Long.MAX_VALUE, reading -> raws.add(raw(reading)));
        return raws;
    }

    private static RawReading raw(Reading reading) {
        return new RawReading(reading.probe(), reading.timeMs(), reading.raw(), reading.marks());
    }

    private static RawReading raw(String probe, String time, double raw) {
        return new RawReading(probe, ms(time), raw, Marks.NONE);
    }

    private static long ms(String time) {
        return Instant.parse(time).toEpochMilli();
    }
}
