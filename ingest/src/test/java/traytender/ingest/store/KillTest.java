package traytender.ingest.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.BufferedReader;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A program killed at any moment has lost nothing that it said was on disk, and leaves no half group, no lock and no litter. */
class KillTest {
    @TempDir
    Path folder;

    @Test
    void killedAgainAndAgain_losesNothingItSaidWasOnDisk() throws Exception {
        for (int kill = 0; kill < 3; kill++) {
            var last = saidBeforeKill(200 + 100 * kill);

            try (var site = SiteStore.open(data(), Bench.DOUBLED, Clock.systemUTC())) {
                var store = site.readings();
                var air = store.readings(Bench.probe("air"), Instant.MIN, Instant.MAX);
                assertThat(air.get(air.size() - 1).timeMs()).isGreaterThanOrEqualTo(last);
                assertThat(store.readings(Bench.probe("medium"), Instant.MIN, Instant.MAX))
                        .hasSameSizeAs(air);
            }
        }
        assertNoLitter();
    }

    /** Lets it run until it has said so many numbers, kills it, and answers the last number it said. */
    private long saidBeforeKill(int numbers) throws IOException, InterruptedException {
        var process = new ProcessBuilder(
                        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                        "-cp",
                        System.getProperty("java.class.path"),
                        "-Djava.io.tmpdir=" + Files.createDirectories(temporary()),
                        KilledWriter.class.getName(),
                        data().toString())
                .redirectError(ProcessBuilder.Redirect.DISCARD)
                .start();
        try (var said = process.inputReader()) {
            var last = read(said, numbers);
            assertThatThrownBy(() -> SiteStore.open(data(), Bench.DOUBLED, Clock.systemUTC()))
                    .isInstanceOf(SiteInUseException.class)
                    .hasMessageContaining("process " + process.pid());
            process.toHandle().destroyForcibly();
            // What it had said before the kill may still stand in the pipe.
            for (var line = said.readLine(); line != null; line = said.readLine()) {
                last = line;
            }
            process.waitFor();
            return Long.parseLong(last);
        }
    }

    private static String read(BufferedReader said, int numbers) throws IOException {
        var last = "";
        for (int i = 0; i < numbers; i++) {
            last = said.readLine();
            assertThat(last).as("the writer ended by itself").isNotNull();
        }
        return last;
    }

    /** SQLite's driver would leave a copy of its native library in the temporary folder at every kill. */
    private void assertNoLitter() throws IOException {
        try (var files = Files.list(temporary())) {
            assertThat(files.map(file -> file.getFileName().toString()).filter(name -> name.contains("sqlite")))
                    .isEmpty();
        }
        try (var files = Files.list(data().resolve("native"))) {
            assertThat(files).hasSize(1);
        }
    }

    private Path temporary() {
        return folder.resolve("tmp");
    }

    private Path data() {
        return folder.resolve("data");
    }
}
