package traytender.config.folder;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;

/** Reads the sample scenarios beside the checkout, where there are any. */
class ScenarioSitesTest {
    private static final List<Path> PLACES =
            List.of(Path.of("../../shared/scenarios"), Path.of("../../../shared/scenarios"));

    @Test
    void everyScenario_isRead() throws IOException {
        Path scenarios = PLACES.stream().filter(Files::isDirectory).findFirst().orElse(null);
        Assumptions.assumeTrue(scenarios != null, "no scenarios beside the checkout");

        try (var folders = Files.list(scenarios)) {
            for (Path folder : folders.filter(Files::isDirectory).toList()) {
                assertThat(SiteReader.read(folder).site().probes())
                        .as(folder.toString())
                        .isNotEmpty();
            }
        }
    }
}
