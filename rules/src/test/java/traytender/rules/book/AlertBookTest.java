package traytender.rules.book;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import traytender.config.alert.Alert;
import traytender.config.alert.AlertKind;
import traytender.config.alert.Urgency;
import traytender.config.site.Zone;
import traytender.rules.judge.Finding;

/** What time does to findings; minutes count from an arbitrary fixed day. */
class AlertBookTest {
    private static final long START_MS = Instant.parse("2026-03-14T05:00:00Z").toEpochMilli();

    private final AlertBook book = new AlertBook("T01", false);

    private static Finding dry(Zone zone, double lastingMinutes) {
        return new Finding(AlertKind.DRY, zone, null, Urgency.NOW, 0.4, 0.45, "1", lastingMinutes, "fact", null);
    }

    private static long ms(int minute) {
        return START_MS + minute * 60_000L;
    }

    private void look(int minute, Finding... findings) {
        book.judge(ms(minute), List.of(findings), (kind, zone) -> false, AlertBookTest::words);
    }

    private static AlertBook.Text words(Finding finding) {
        return new AlertBook.Text("is so", "do this", List.of("probe"), null, null);
    }

    private @Nullable Alert only() {
        return book.alerts().size() == 1 ? book.alerts().get(0) : null;
    }

    @Test
    void finding_opensWhenLastingMinutesAreFulfilled() {
        for (int minute = 0; minute <= 9; minute++) {
            look(minute, dry(Zone.CENTRE, 10));
        }
        assertThat(book.alerts()).isEmpty();

        look(10, dry(Zone.CENTRE, 10));

        assertThat(only()).isNotNull();
        assertThat(only().opened()).isEqualTo(Instant.ofEpochMilli(ms(10)));
    }

    @Test
    void interruption_startsTheCountAnew() {
        for (int minute = 0; minute <= 9; minute++) {
            look(minute, dry(Zone.CENTRE, 10));
        }
        look(10);
        for (int minute = 11; minute <= 20; minute++) {
            look(minute, dry(Zone.CENTRE, 10));
        }
        assertThat(book.alerts()).isEmpty();

        look(21, dry(Zone.CENTRE, 10));

        assertThat(book.alerts()).hasSize(1);
    }

    @Test
    void gapInTime_startsTheCountAnew() {
        look(0, dry(Zone.CENTRE, 10));
        look(600, dry(Zone.CENTRE, 10));

        assertThat(book.alerts()).isEmpty();
    }

    @Test
    void sameCondition_opensOnce_otherZonesBesideIt() {
        for (int minute = 0; minute <= 60; minute++) {
            look(minute, dry(Zone.CENTRE, 0), dry(Zone.CENTRE, 0), dry(Zone.EDGE_FRONT, 0));
        }

        assertThat(book.alerts()).extracting(Alert::zone).containsExactly(Zone.CENTRE, Zone.EDGE_FRONT);
    }

    @Test
    void alert_closesOnceItsFindingIsGone_andStaysClosedForHalfAnHour() {
        look(0, dry(Zone.CENTRE, 0));
        for (int minute = 1; minute <= 10; minute++) {
            look(minute);
        }
        assertThat(only().closed()).isEqualTo(Instant.ofEpochMilli(ms(5)));

        for (int minute = 11; minute <= 34; minute++) {
            look(minute, dry(Zone.CENTRE, 0));
        }
        assertThat(book.alerts()).hasSize(1);

        for (int minute = 35; minute <= 40; minute++) {
            look(minute, dry(Zone.CENTRE, 0));
        }
        assertThat(book.alerts()).hasSize(2);
        assertThat(book.alerts().get(1).opened()).isEqualTo(Instant.ofEpochMilli(ms(36)));
    }

    @Test
    void untoldZone_keepsItsAlertOpen() {
        look(0, dry(Zone.CENTRE, 0));
        for (int minute = 1; minute <= 30; minute++) {
            book.judge(ms(minute), List.of(), (kind, zone) -> zone == Zone.CENTRE, AlertBookTest::words);
        }
        assertThat(only().isOpen()).isTrue();
    }

    @Test
    void overheating_isOneAlert_thoughTheHottestZoneMoves() {
        for (int minute = 0; minute <= 30; minute++) {
            Zone zone = minute % 2 == 0 ? Zone.CENTRE : Zone.EDGE_LEFT;
            look(
                    minute,
                    new Finding(
                            AlertKind.CENTRE_OVERHEATING, zone, null, Urgency.NOW, 33, 32, "Cel", 10, "fact", null));
        }

        assertThat(book.alerts()).hasSize(1);
    }

    private static Finding frost(Urgency urgency) {
        return new Finding(AlertKind.FROST_RISK, null, null, urgency, 0.4, 0, "Cel", 10, "fact", null);
    }

    @Test
    void graverFinding_raisesTheOpenAlert_onceItLasts_andItNeverFallsBack() {
        for (int minute = 0; minute <= 20; minute++) {
            look(minute, frost(Urgency.TODAY));
        }
        Alert before = only();
        for (int minute = 21; minute <= 30; minute++) {
            look(minute, frost(minute == 25 ? Urgency.TODAY : Urgency.NOW));
        }
        assertThat(only()).isEqualTo(before);

        for (int minute = 31; minute <= 36; minute++) {
            look(minute, frost(Urgency.NOW));
        }
        assertThat(only()).isEqualTo(before.withUrgency(Urgency.NOW));

        for (int minute = 37; minute <= 80; minute++) {
            look(minute, frost(Urgency.NOTE));
        }
        assertThat(only()).isEqualTo(before.withUrgency(Urgency.NOW));
    }

    @Test
    void id_isTheSameForTheSameOpening_andNoOther() {
        look(0, dry(Zone.CENTRE, 0), dry(Zone.EDGE_FRONT, 0));
        var other = new AlertBook("T01", false);
        other.judge(ms(0), List.of(dry(Zone.CENTRE, 0)), (kind, zone) -> false, AlertBookTest::words);

        assertThat(other.alerts().get(0).id()).isEqualTo(book.alerts().get(0).id());
        assertThat(book.alerts().get(1).id()).isNotEqualTo(book.alerts().get(0).id());
    }

    @Test
    void copy_goesOnByItself() {
        look(0, dry(Zone.CENTRE, 0));
        AlertBook copy = book.copy();
        for (int minute = 1; minute <= 10; minute++) {
            look(minute);
        }

        assertThat(book.alerts().get(0).isOpen()).isFalse();
        assertThat(copy.alerts().get(0).isOpen()).isTrue();
        assertThat(copy.isOpen(AlertKind.DRY, Zone.CENTRE, null)).isTrue();
    }
}
