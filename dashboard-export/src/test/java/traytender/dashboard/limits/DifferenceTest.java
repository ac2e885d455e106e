package traytender.dashboard.limits;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import traytender.config.alert.Alert;
import traytender.config.alert.AlertKind;
import traytender.config.alert.Urgency;
import traytender.config.site.Zone;
import traytender.dashboard.limits.Difference.What;

class DifferenceTest {
    private static final Instant START = Instant.parse("2026-03-10T00:00:00Z");
    private static final Instant END = START.plus(Duration.ofDays(7));

    private static Alert dry(String tray, double opened, @Nullable Double closed) {
        return new Alert(
                tray + opened,
                AlertKind.DRY,
                tray,
                null,
                Zone.CENTRE,
                Urgency.NOW,
                at(opened),
                closed == null ? null : at(closed),
                null,
                0.4,
                0.45,
                "1",
                List.of(),
                null,
                "Dry.",
                "Water.",
                null);
    }

    private static Instant at(double hours) {
        return START.plusSeconds(Math.round(hours * 3600));
    }

    private static List<What> between(List<Alert> before, List<Alert> after) {
        return Difference.between(before, after, START, END).stream()
                .map(Difference::what)
                .toList();
    }

    @Test
    void alertsOfOnePlace_arePairedWhereTheyMeet() {
        List<Alert> before = List.of(dry("T01", 10, 20.0), dry("T01", 40, 44.0), dry("T02", 12, 13.0));
        List<Alert> after = List.of(dry("T01", 7, 20.0), dry("T01", 40, 44.0), dry("T01", 90, 91.0));

        assertThat(between(before, after)).containsExactly(What.EARLIER, What.LOST, What.SAME, What.GAINED);
    }

    @Test
    void alertThatNoLongerOverlaps_isTheSameOneOnlyWhenNear() {
        assertThat(between(List.of(dry("T01", 10, 11.0)), List.of(dry("T01", 13, 14.0))))
                .containsExactly(What.LATER);
        assertThat(between(List.of(dry("T01", 10, 11.0)), List.of(dry("T01", 20, 21.0))))
                .containsExactly(What.LOST, What.GAINED);
    }

    @Test
    void longAlertThatIsSplit_isOneAndAGain() {
        assertThat(between(List.of(dry("T01", 10, null)), List.of(dry("T01", 9, 12.0), dry("T01", 30, null))))
                .containsExactly(What.EARLIER, What.GAINED);
    }

    @Test
    void onlyWhatOpenedInTheTime_isCompared() {
        List<Alert> before = List.of(dry("T01", -30, -20.0), dry("T01", 24 * 7, 200.0));

        assertThat(between(before, List.of())).isEmpty();
        assertThat(between(List.of(dry("T01", 1, 2.0)), List.of(dry("T01", -1, 2.0))))
                .isEmpty();
    }
}
