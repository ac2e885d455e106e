package traytender.config.journal;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.StringReader;
import java.io.StringWriter;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Set;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import traytender.config.journal.JournalCsv.Rejected;

class JournalCsvTest {
    private static JournalCsv read(String text) {
        return JournalCsv.read(new StringReader(text), Set.of("T01", "T02")::contains);
    }

    @Test
    void lines_becomeEntriesInTheirOrder() {
        JournalCsv csv = read("""
                time,tray,entry,detail
                2026-03-02T09:00:00Z,T01,sown,rows=1-4;crop=tomato;variety=Copper Lantern
                2026-03-09T09:15:00+01:00,T02,watered,
                2026-03-09T09:15:00Z,T01,turned
                """);

        assertThat(csv.rejected()).isEmpty();
        assertThat(csv.entries())
                .containsExactly(
                        new JournalEntry(
                                Instant.parse("2026-03-02T09:00:00Z"),
                                "T01",
                                EntryKind.SOWN,
                                Map.of("rows", "1-4", "crop", "tomato", "variety", "Copper Lantern"),
                                ""),
                        new JournalEntry(Instant.parse("2026-03-09T08:15:00Z"), "T02", EntryKind.WATERED, Map.of(), ""),
                        new JournalEntry(Instant.parse("2026-03-09T09:15:00Z"), "T01", EntryKind.TURNED, Map.of(), ""));
    }

    @Test
    void unusableLines_areRejectedWithNumberAndReason() {
        JournalCsv csv = read("""
                time,tray,entry,detail
                2026-03-02 09:00,T01,sown,
                2026-03-02T09:00:00Z,T09,sown,

                2026-03-02T09:00:00Z,T01,sowed,
                2026-03-02T09:00:00Z,T01
                2026-03-02T09:00:00Z,T01,note,"two
                lines"
                ,T01,fed,
                2026-03-03T09:00:00Z,T01,fed,""");

        assertThat(csv.entries()).hasSize(2);
        assertThat(csv.rejected()).extracting(Rejected::line).containsExactly(2L, 3L, 5L, 6L, 9L);
        assertThat(csv.rejected())
                .extracting(Rejected::reason)
                .satisfiesExactly(
                        reason -> assertThat(reason).contains("2026-03-02 09:00", "RFC 3339"),
                        reason -> assertThat(reason).contains("no tray named \"T09\""),
                        reason -> assertThat(reason).contains("no entry named \"sowed\"", "potted-up"),
                        reason -> assertThat(reason).contains("2 columns"),
                        reason -> assertThat(reason).contains("\"\" is no time"));
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
                    percent=90                     | {percent=90}          | ''
                    looks well                     | {}                    | looks well
                    rows=1-4; a bit dry;percent=80 | {percent=80, rows=1-4} | a bit dry
                    pH 5.8 = fine                  | {}                    | pH 5.8 = fine
                    rows=1;rows=2                  | {rows=1}              | rows=2
                    =;;                            | {}                    | =
                    to=T05;to-rows=1-2             | {to=T05, to-rows=1-2} | ''
                    """)
    void detail_thatIsNotInTheFormIsKeptAsNote(String detail, String pairs, String note) {
        JournalEntry entry =
                read("2026-03-02T09:00:00Z,T01,note," + detail).entries().get(0);

        assertThat(new java.util.TreeMap<>(entry.detail())).hasToString(pairs);
        assertThat(entry.note()).isEqualTo(note);
    }

    @Test
    void unquotedCommas_belongToTheDetail() {
        JournalEntry entry = read("2026-03-02T09:00:00Z,T01,watered,zones=centre,edge-front;litres=2.5")
                .entries()
                .get(0);

        assertThat(Details.of(entry).zones()).extracting(zone -> zone.word()).containsExactly("centre", "edge-front");
        assertThat(Details.of(entry).litres()).hasValue(2.5);
    }

    @Test
    void byteOrderMarkAndMissingHeader_doNotMatter() {
        assertThat(read("\uFEFFtime,tray,entry,detail\n2026-03-02T09:00:00Z,T01,fed,\n")
                        .entries())
                .hasSize(1);
        assertThat(read("2026-03-02T09:00:00Z,T01,fed,\n").entries()).hasSize(1);
        assertThat(read("").entries()).isEmpty();
    }

    @Property(seed = "20260314")
    void writtenEntries_areReadBack(@ForAll("entries") List<JournalEntry> entries) {
        var out = new StringWriter();

        JournalCsv.write(entries, out);

        assertThat(JournalCsv.read(new StringReader(out.toString()))).isEqualTo(new JournalCsv(entries, List.of()));
    }

    @Provide
    Arbitrary<List<JournalEntry>> entries() {
        // What the form itself cannot carry is left out: ; parts pairs, blanks at the ends are no part of a value.
        Arbitrary<String> value = Arbitraries.strings()
                .withChars("abcXYZ0189 ,\"'-äß€%=\n")
                .ofMaxLength(12)
                .map(String::strip);
        Arbitrary<String> note =
                Arbitraries.strings().withChars("abc XYZ,\"'-ä").ofMaxLength(12).map(String::strip);
        Arbitrary<String> key = Arbitraries.of("rows", "percent", "to", "to-rows", "count", "of", "litres");
        return Combinators.combine(
                        Arbitraries.longs().between(0, 4_000_000_000L).map(Instant::ofEpochSecond),
                        Arbitraries.of("T01", "Tray 7", "ÄÖ"),
                        Arbitraries.of(EntryKind.values()),
                        Arbitraries.maps(key, value).ofMaxSize(3),
                        note)
                .as(JournalEntry::new)
                .list()
                .ofMaxSize(5);
    }
}
