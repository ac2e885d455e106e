package traytender.dashboard.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.Size;
import traytender.config.reading.Reading;

class ThinningTest {
    @Property(seed = "-2529306250317932554")
    void thinned_keepsEndsAndPeaksInOrderAndIsFew(
            @ForAll @Size(min = 1, max = 400) List<@DoubleRange(min = -20, max = 60) Double> values,
            @ForAll @IntRange(min = 4, max = 80) int points,
            @ForAll @IntRange(min = 1, max = 100_000) int stepMs) {
        List<Reading> readings = new ArrayList<>();
        for (int i = 0; i < values.size(); i++) {
            // Unequal steps: a probe that was silent for a while.
            readings.add(new Reading(
                    "p", 1_700_000_000_000L + (long) i * stepMs + (i > 50 ? 7_000_000L : 0), values.get(i), 1, 0));
        }

        List<Reading> thinned = Thinning.thin(readings, points);

        assertThat(thinned).hasSizeLessThanOrEqualTo(points).isSubsetOf(readings);
        assertThat(thinned)
                .isSortedAccordingTo(Comparator.comparingLong(Reading::timeMs))
                .doesNotHaveDuplicates();
        assertThat(thinned.get(0)).isEqualTo(readings.get(0));
        assertThat(thinned.get(thinned.size() - 1)).isEqualTo(readings.get(readings.size() - 1));
        assertThat(highest(thinned)).isEqualTo(highest(readings));
        assertThat(-lowest(thinned)).isEqualTo(-lowest(readings));
    }

    private static double highest(List<Reading> readings) {
        return readings.stream().mapToDouble(Reading::value).max().orElseThrow();
    }

    private static double lowest(List<Reading> readings) {
        return readings.stream().mapToDouble(Reading::value).min().orElseThrow();
    }
}
