package traytender.rules.scenario;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import traytender.config.alert.Alert;

/** Every sample scenario beside the checkout runs through; a scenario named quiet raises nothing. */
class SampleScenariosTest {
    private static final Path BESIDE = Path.of("..", "..", "shared", "scenarios");

    @Test
    void sampleScenarios_runThrough_andQuietOnesAreQuiet() throws IOException {
        assumeTrue(Files.isDirectory(BESIDE), "left out: there is no shared/scenarios folder beside the checkout");

        for (Path path : Scenario.below(BESIDE)) {
            var alerts = Scenario.read(path).replay();

            assertThat(alerts).allSatisfy(alert -> assertThat(alert.says()).isNotBlank());
            if (path.getFileName().toString().startsWith("quiet")) {
                assertThat(alerts).as(path.toString()).extracting(Alert::kind).isEmpty();
            }
        }
    }
}
