package traytender.ingest.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import traytender.config.alert.Alert;
import traytender.config.alert.AlertKind;
import traytender.config.alert.ShutOffReason;
import traytender.config.alert.Urgency;
import traytender.config.journal.EntryKind;
import traytender.config.journal.JournalEntry;
import traytender.config.site.Zone;

class JournalStoreTest {
    private static final Instant MORNING = Instant.parse("2026-03-14T05:41:00.123456789Z");
    private static final JournalEntry WATERED =
            new JournalEntry(MORNING, "T01", EntryKind.WATERED, Map.of("zones", "centre", "litres", "1.5"), "");

    @TempDir
    Path data;

    private JournalStore journal;

    @BeforeEach
    void open() {
        journal = JournalStore.open(data);
    }

    @AfterEach
    void close() {
        journal.close();
    }

    @Test
    void entry_comesBackWhole_alsoAfterReopening() {
        var odd = new JournalEntry(
                MORNING, "T 0;1,\"", EntryKind.NOTE, Map.of("näme", "a=b;c\n\"'"), "Läuse? 🌱\r\nnull\u0001 'quoted'");
        assertThat(journal.add(WATERED)).isTrue();
        assertThat(journal.add(odd)).isTrue();
        journal.close();
        journal = JournalStore.open(data);

        assertThat(journal.entries()).containsExactly(WATERED, odd);
    }

    @Test
    void identicalEntry_changesNothing() {
        journal.add(WATERED);

        assertThat(journal.add(WATERED)).isFalse();
        assertThat(journal.addAll(List.of(WATERED, withNote("second can")))).isEqualTo(1);
        assertThat(journal.entries()).hasSize(2);
    }

    @Test
    void entries_areInOrderOfTime_thenAsWritten() {
        var later = new JournalEntry(MORNING.plusSeconds(60), "T01", EntryKind.TURNED, Map.of(), "");
        var same = new JournalEntry(MORNING, "A00", EntryKind.TURNED, Map.of(), "");
        journal.addAll(List.of(later, WATERED, same));

        assertThat(journal.entries()).containsExactly(WATERED, same, later);
    }

    @Test
    void correction_keepsThePast_andTheWrongEntryDoesNotComeBackByImport() {
        var right = new JournalEntry(MORNING, "T02", EntryKind.WATERED, Map.of(), "");
        journal.add(WATERED);

        assertThat(journal.correct(WATERED, right)).isTrue();

        assertThat(journal.entries()).containsExactly(right);
        assertThat(journal.pastEntries()).containsExactly(WATERED);
        assertThat(journal.add(WATERED)).isFalse();
        assertThat(journal.entries()).containsExactly(right);
    }

    @Test
    void correctionOfAnEntryThatIsNotThere_addsNothing() {
        assertThat(journal.correct(WATERED, withNote("x"))).isFalse();
        assertThat(journal.entries()).isEmpty();
    }

    @Test
    void correctionBackToTheFirstWording_countsTheFirstAgain() {
        var right = withNote("two cans");
        journal.add(WATERED);
        journal.correct(WATERED, right);

        assertThat(journal.correct(right, WATERED)).isTrue();

        assertThat(journal.entries()).containsExactly(WATERED);
        assertThat(journal.pastEntries()).containsExactly(right);
    }

    @Test
    void withdrawnEntry_countsNoMore_butStaysOnRecord() {
        journal.add(WATERED);

        assertThat(journal.withdraw(WATERED)).isTrue();

        assertThat(journal.entries()).isEmpty();
        assertThat(journal.pastEntries()).containsExactly(WATERED);
    }

    @Test
    void entries_farFromToday_comeBack_inOrder() {
        var times = List.of(
                Instant.MAX,
                Instant.parse("9999-01-01T00:00:00Z"),
                Instant.EPOCH.plusNanos(1),
                Instant.EPOCH,
                Instant.MIN);
        for (var time : times) {
            journal.add(new JournalEntry(time, "T01", EntryKind.NOTE, Map.of(), ""));
        }

        assertThat(journal.entries())
                .extracting(JournalEntry::time)
                .containsExactlyElementsOf(times.stream().sorted().toList());
    }

    @Test
    void alerts_comeBackWhole_inOrderOfOpening() {
        var forecast =
                new Alert.Forecast(MORNING.plusSeconds(3600), MORNING.plusSeconds(1800), MORNING.plusSeconds(7200));
        var drying = alert("b", AlertKind.DRYING_SOON, "T01", null, Zone.CENTRE, null, 0.41, forecast);
        var mat = alert("a", AlertKind.MAT_SHUT_OFF, "T01", null, Zone.TRAY, ShutOffReason.TOO_HOT, Double.NaN, null);
        var night = alert("c", AlertKind.NIGHT_COLD, null, "propagation", null, null, 11.5, null);
        journal.saveAlert(night);
        journal.saveAlerts(List.of(drying, mat));

        assertThat(journal.alerts()).containsExactly(mat, drying, night);
    }

    @Test
    void savingAgain_replaces_andClosedAlertsAreNotOpen() {
        var dry = alert("a", AlertKind.DRY, "T01", null, Zone.CENTRE, null, 0.41, null);
        journal.saveAlert(dry);
        journal.saveAlert(dry.withClosed(MORNING.plusSeconds(60)));

        assertThat(journal.alerts()).containsExactly(dry.withClosed(MORNING.plusSeconds(60)));
        assertThat(journal.openAlerts()).isEmpty();
    }

    @Test
    void withdrawnAlert_staysOnRecord_andComesBackWhenSavedAnew() {
        var dry = alert("a", AlertKind.DRY, "T01", null, Zone.CENTRE, null, 0.41, null);
        journal.saveAlert(dry);
        journal.withdrawAlert("a");

        assertThat(journal.alerts()).isEmpty();
        assertThat(journal.withdrawnAlerts()).containsExactly(dry);
        journal.saveAlert(dry);
        assertThat(journal.openAlerts()).containsExactly(dry);
    }

    @Test
    void seenAlert_staysSeen_whenItIsSavedAgain() {
        var dry = alert("a", AlertKind.DRY, "T01", null, Zone.CENTRE, null, 0.41, null);
        journal.saveAlert(dry);
        journal.markSeen("a", MORNING);
        journal.markSeen("unknown", MORNING);
        journal.saveAlert(dry.withClosed(MORNING));

        assertThat(journal.seenAlerts()).containsExactly("a");
    }

    private static JournalEntry withNote(String note) {
        return new JournalEntry(MORNING, WATERED.tray(), WATERED.kind(), WATERED.detail(), note);
    }

    private static Alert alert(
            String id,
            AlertKind kind,
            String tray,
            String room,
            Zone zone,
            ShutOffReason reason,
            double value,
            Alert.Forecast forecast) {
        return new Alert(
                id,
                kind,
                tray,
                room,
                zone,
                Urgency.NOW,
                MORNING,
                null,
                reason,
                value,
                0.45,
                "1",
                List.of("T01-centre-moisture", "odd \"probe\""),
                reason == null ? "Copper Lantern" : null,
                "Centre of T01 is at 41 %.",
                "Water the centre now.",
                forecast);
    }

    @Test
    void entryWithdrawnByNumber_staysOnRecord_andCountsAgainWhenBroughtBack() {
        var kept = journal.write(List.of(WATERED, withNote("second can")));

        assertThat(journal.setWithdrawn(List.of(kept.get(0).number()), true)).isEqualTo(1);

        assertThat(journal.entries()).containsExactly(withNote("second can"));
        assertThat(journal.kept()).extracting(KeptEntry::counts).containsExactly(false, true);
        assertThat(journal.setWithdrawn(List.of(kept.get(0).number()), true)).isZero();
        assertThat(journal.setWithdrawn(List.of(kept.get(0).number()), false)).isEqualTo(1);
        assertThat(journal.entries()).containsExactly(WATERED, withNote("second can"));
    }

    @Test
    void withdrawnEntryWrittenAgain_countsUnderItsOldNumber() {
        var first = journal.write(List.of(WATERED)).get(0);
        journal.setWithdrawn(List.of(first.number()), true);

        assertThat(journal.write(List.of(WATERED))).containsExactly(first);
        assertThat(journal.entries()).containsExactly(WATERED);
    }

    @Test
    void correctedEntry_namesWhatTookItsPlace() {
        var wrong = journal.write(List.of(WATERED)).get(0);
        journal.correct(WATERED, withNote("right"));

        var right =
                journal.kept().stream().filter(KeptEntry::counts).findFirst().orElseThrow();
        assertThat(journal.find(wrong.number()).orElseThrow().replacedBy()).isEqualTo(right.number());
        assertThat(journal.setWithdrawn(List.of(wrong.number()), false)).isZero();
    }

    @Test
    void act_undone_takesItsEntriesWithIt_andStaysOnRecord() {
        var until = MORNING.plusSeconds(7200);
        var act = journal.acts().write(Act.Mark.DONE, MORNING, until, List.of("a1", "a2"), List.of(WATERED));

        assertThat(journal.acts().acts()).containsExactly(act);
        assertThat(act.holds(MORNING)).isTrue();
        assertThat(act.holds(until)).isFalse();
        assertThat(journal.acts().undo(act.number())).contains(act);
        assertThat(journal.acts().undo(act.number())).isEmpty();
        assertThat(journal.entries()).isEmpty();
        assertThat(journal.acts().acts()).singleElement().satisfies(kept -> {
            assertThat(kept.undone()).isTrue();
            assertThat(kept.holds(MORNING)).isFalse();
        });
    }

    @Test
    void cropFileVersions_areKeptInOrder_alsoWhereThereWasNone() {
        var none = new CropFileVersion(1, "tomato.yaml", null, MORNING, "grower", "as found", "");
        var next = new CropFileVersion(2, "tomato.yaml", "crop: tomato\n", MORNING, "grower", "dry line", "droops");

        journal.cropFiles().add(List.of(none, next));

        assertThat(journal.cropFiles().all()).containsExactly(none, next);
    }
}
