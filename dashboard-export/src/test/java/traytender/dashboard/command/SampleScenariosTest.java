package traytender.dashboard.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;

/** Sample scenarios that may lie beside the checkout: import and replay run through. How good the alerts are is not asked here. */
class SampleScenariosTest {
    private static final Path SCENARIOS = Path.of("..", "..", "shared", "scenarios");

    @TempDir
    Path folder;

    @TestFactory
    Stream<DynamicTest> scenario_runsThrough() throws IOException {
        Assumptions.assumeTrue(
                Files.isDirectory(SCENARIOS), "left out: there is no folder ../shared/scenarios beside the checkout");
        return Files.list(SCENARIOS)
                .filter(Files::isDirectory)
                .sorted()
                .map(scenario ->
                        DynamicTest.dynamicTest(String.valueOf(scenario.getFileName()), () -> runsThrough(scenario)));
    }

    private void runsThrough(Path scenario) throws IOException {
        Path site = Files.createDirectories(folder.resolve(String.valueOf(scenario.getFileName())));
        Files.copy(scenario.resolve("site.yaml"), site.resolve("site.yaml"));
        Files.createDirectories(site.resolve("crops"));
        try (Stream<Path> crops = Files.list(scenario.resolve("crops"))) {
            for (Path crop : crops.toList()) {
                Files.copy(crop, site.resolve("crops").resolve(crop.getFileName()));
            }
        }

        var imported = CommandLineRun.of(
                "import",
                "--site",
                site,
                scenario.resolve("readings.csv"),
                "--journal",
                scenario.resolve("journal.csv"));
        var replayed = CommandLineRun.of("replay", "--site", site);

        assertThat(imported.err()).isEmpty();
        assertThat(imported.status()).isZero();
        assertThat(replayed.err()).isEmpty();
        assertThat(replayed.status()).isZero();
    }
}
