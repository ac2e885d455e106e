package traytender.rules;

import static java.time.temporal.ChronoUnit.HOURS;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static traytender.rules.TestBench.at;

import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import traytender.config.crop.Stage;
import traytender.config.journal.EntryKind;
import traytender.config.site.Quantity;
import traytender.rules.view.EmergenceView;
import traytender.rules.view.TrayView;

/** When sowings are due to come up. The bench's crop takes 90 degree days above 8 C: at 23 C six days. */
class EmergenceViewTest {
    private static @Nullable EmergenceView after(double hours, TestBench bench) {
        try (var watch = new Watch(bench.folder(), List.of(), change -> {})) {
            bench.journal().forEach(watch::journal);
            watch.accept(bench.readings(hours));
            watch.tick(at(hours).plusSeconds(30));
            TrayView tray = watch.trays().get(0);
            return tray.sowings().get(0).emergence();
        }
    }

    private static TestBench sown() {
        return new TestBench().journal(1, "T01", EntryKind.SOWN).all("T01", Quantity.TEMPERATURE, hour -> 23);
    }

    @Test
    void window_isToldFromTheWarmthSoFar() {
        EmergenceView view = Objects.requireNonNull(after(49, sown()));

        assertThat(view.progress()).isCloseTo(2.0 / 6, within(0.01));
        assertThat(view.expected()).isCloseTo(at(1 + 6 * 24), within(2, HOURS));
        assertThat(view.from()).isCloseTo(at(1 + 0.8 * 6 * 24), within(2, HOURS));
        assertThat(view.to()).isCloseTo(at(1 + 1.3 * 6 * 24), within(3, HOURS));
        assertThat(view.look()).isFalse();
    }

    @Test
    void whenTheWindowOpens_itIsTimeToLook() {
        EmergenceView view = Objects.requireNonNull(after(1 + 5 * 24, sown()));

        assertThat(view.look()).isTrue();
        assertThat(view.overdue()).isFalse();
    }

    @Test
    void afterTheWindow_itIsOverdue() {
        EmergenceView view = Objects.requireNonNull(after(1 + 8.5 * 24, sown()));

        assertThat(view.overdue()).isTrue();
    }

    @Test
    void tooCold_itNeverComes() {
        EmergenceView view = Objects.requireNonNull(after(30, sown().all("T01", Quantity.TEMPERATURE, hour -> 7)));

        assertThat(view.expected()).isNull();
        assertThat(view.look()).isFalse();
    }

    @Test
    void emergedSowings_andThoseOfWhichNobodyKnowsWhenTheyWereSown_haveNone() {
        assertThat(after(60, sown().journal(50, "T01", EntryKind.EMERGED))).isNull();
        assertThat(after(60, new TestBench())).isNull();
        assertThat(after(60, new TestBench().stage(Stage.SEEDLING))).isNull();
    }
}
