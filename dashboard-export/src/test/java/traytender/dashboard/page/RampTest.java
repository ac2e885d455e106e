package traytender.dashboard.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/**
 * The colours of cells, read from the page's own file. Relative luminance and contrast ratio as WCAG 2.2 defines them
 * (https://www.w3.org/TR/WCAG22/#dfn-relative-luminance and #dfn-contrast-ratio); 4.5 is its level AA for text.
 */
class RampTest {
    private static final double ENOUGH = 4.5;

    private final TreeMap<Double, int[]> stops = new TreeMap<>();
    private double labelSwitch;

    @BeforeEach
    void read() throws IOException {
        String text;
        try (InputStream in = RampTest.class.getResourceAsStream("web/ramp.js")) {
            text = new String(in.readAllBytes(), StandardCharsets.UTF_8);
        }
        Matcher stop = Pattern.compile("\\[([\\d.]+), \"#(\\p{XDigit}{6})\"]").matcher(text);
        while (stop.find()) {
            int rgb = Integer.parseInt(stop.group(2), 16);
            stops.put(Double.parseDouble(stop.group(1)), new int[] {rgb >> 16, (rgb >> 8) & 255, rgb & 255});
        }
        Matcher at = Pattern.compile("LABEL_SWITCH = ([\\d.]+)").matcher(text);
        assertThat(at.find()).isTrue();
        labelSwitch = Double.parseDouble(at.group(1));
    }

    @Test
    void everyLabel_hasEnoughContrastOnItsMoisture() {
        for (int percent = 0; percent <= 100; percent++) {
            double ground = luminance(colour(percent / 100.0));
            double label = ground > labelSwitch ? 0 : 1;

            assertThat(contrast(ground, label)).as("label at %d %%", percent).isGreaterThanOrEqualTo(ENOUGH);
        }
    }

    @Test
    void lightness_fallsAllTheWayFromDryToWet() {
        for (int percent = 1; percent <= 100; percent++) {
            assertThat(luminance(colour(percent / 100.0)))
                    .as("luminance at %d %%", percent)
                    .isLessThan(luminance(colour((percent - 1) / 100.0)));
        }
        assertThat(contrast(luminance(colour(0)), luminance(colour(1)))).isGreaterThan(10);
    }

    @Test
    void contrast_isAsPublished() {
        // #777 on white is the well-known near miss of 4.48; black on white is 21.
        assertThat(contrast(luminance(new int[] {0x77, 0x77, 0x77}), 1)).isBetween(4.47, 4.49);
        assertThat(contrast(0, 1)).isEqualTo(21);
    }

    private int[] colour(double moisture) {
        Map.Entry<Double, int[]> low = stops.floorEntry(moisture);
        Map.Entry<Double, int[]> high = stops.ceilingEntry(moisture);
        if (low.getKey().equals(high.getKey())) {
            return low.getValue();
        }
        double share = (moisture - low.getKey()) / (high.getKey() - low.getKey());
        var mixed = new int[3];
        for (int i = 0; i < 3; i++) {
            mixed[i] = (int) Math.round(low.getValue()[i] + share * (high.getValue()[i] - low.getValue()[i]));
        }
        return mixed;
    }

    private static double luminance(int[] rgb) {
        return 0.2126 * linear(rgb[0]) + 0.7152 * linear(rgb[1]) + 0.0722 * linear(rgb[2]);
    }

    private static double linear(int channel) {
        double share = channel / 255.0;
        return share <= 0.04045 ? share / 12.92 : Math.pow((share + 0.055) / 1.055, 2.4);
    }

    private static double contrast(double one, double other) {
        return (Math.max(one, other) + 0.05) / (Math.min(one, other) + 0.05);
    }
}
