package traytender.ingest.file;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.api.io.TempDir;
import traytender.config.folder.SiteReader;
import traytender.ingest.store.Bench;
import traytender.ingest.store.SiteStore;

/** Every sample scenario beside the checkout comes in whole. */
class ScenarioImportTest {
    private static final List<Path> PLACES =
            List.of(Path.of("../../shared/scenarios"), Path.of("../../../shared/scenarios"));

    @TempDir
    Path folder;

    @TestFactory
    Stream<DynamicTest> scenario_comesInWithoutARejectedLine() throws IOException {
        var place = PLACES.stream().filter(Files::isDirectory).findFirst();
        assumeTrue(place.isPresent(), "there are no sample scenarios beside this checkout");
        return Files.list(place.orElseThrow())
                .filter(scenario -> Files.exists(scenario.resolve("readings.csv")))
                .sorted()
                .map(scenario -> DynamicTest.dynamicTest(scenario.getFileName().toString(), () -> comesIn(scenario)));
    }

    private void comesIn(Path scenario) throws IOException {
        var site = SiteReader.read(scenario).site();
        var log = new ImportLog();
        try (var store = SiteStore.open(folder.resolve(scenario.getFileName()), Bench.DOUBLED, Clock.systemUTC())) {
            var readings = new ReadingImport(site, store.readings(), store.importPositions(), Clock.systemUTC())
                    .read(scenario.resolve("readings.csv"), log);
            var journal = new JournalImport(site, store.journal()).read(scenario.resolve("journal.csv"), log);

            assertThat(log.rejected).isEmpty();
            assertThat(readings.read()).isEqualTo(linesAfterTheHeader(scenario.resolve("readings.csv")));
            assertThat(readings.stored()).isEqualTo(store.readings().count()).isPositive();
            assertThat(journal.read()).isEqualTo(linesAfterTheHeader(scenario.resolve("journal.csv")));
        }
    }

    private static long linesAfterTheHeader(Path file) throws IOException {
        try (var lines = Files.lines(file)) {
            return lines.filter(line -> !line.isBlank()).count() - 1;
        }
    }
}
