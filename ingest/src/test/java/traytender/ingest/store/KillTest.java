package traytender.ingest.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.BufferedReader;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import traytender.config.reading.Reading;

/**
 * A program killed at any moment, also while it seals days, has lost nothing that it said was on disk, and leaves no half group, no
 * lock and no litter. {@code -Dkills=100} is the long form.
 */
class KillTest {
    private static final int KILLS = Integer.getInteger("kills", 3);

    @TempDir
    Path folder;

    @Test
    void killedAgainAndAgain_losesNothingItSaidWasOnDisk() throws Exception {
        for (int kill = 0; kill < KILLS; kill++) {
            var last = saidBeforeKill(200 + 100 * (kill % 3));

            try (var site = SiteStore.open(data(), Bench.DOUBLED, Clock.systemUTC())) {
                var store = site.readings();
                var air = store.readings(Bench.probe("air"), Instant.MIN, Instant.MAX);
                assertThat(air).hasSizeGreaterThan((int) last);
                assertThat(air)
                        .isEqualTo(IntStream.range(0, air.size())
                                .mapToObj(i -> new Reading("air", i * KilledWriter.HOUR_MS, 2.0 * i, i, 0))
                                .toList());
                assertThat(store.readings(Bench.probe("medium"), Instant.MIN, Instant.MAX))
                        .hasSameSizeAs(air);
                // Nothing is in both places: counted apart they make up the whole.
                assertThat(store.count()).isEqualTo(2L * air.size());
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
