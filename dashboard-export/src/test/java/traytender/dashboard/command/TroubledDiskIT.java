package traytender.dashboard.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Instant;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The packaged program on a disk that fills up, or cannot be written. */
class TroubledDiskIT {
    /** Root may write everywhere, unless this right is taken away; others get by without it. */
    private static final List<String> BOUND_BY_PERMISSIONS =
            List.of("setpriv", "--bounding-set=-dac_override", "--inh-caps=-dac_override");

    @TempDir
    Path folder;

    @Test
    void dataFolderThatCannotBeWritten_isToldAndStatus1() throws Exception {
        Path site = SmallSite.in(folder.resolve("site"));
        Path data = Files.createDirectories(site.resolve("data"));
        Files.setPosixFilePermissions(data, PosixFilePermissions.fromString("r-xr-xr-x"));
        List<String> through = System.getProperty("user.name").equals("root") ? BOUND_BY_PERMISSIONS : List.of();

        try (var program = PackagedProgram.start(through, folder, "run", "--site", site)) {
            assertThat(program.status()).isEqualTo(1);
            assertThat(program.log())
                    .contains("site/data: the files cannot be written", "Maybe the folder belongs to another user")
                    .doesNotContain("Exception in thread", "\tat ");
            assertThat(data).isEmptyDirectory();
        } finally {
            Files.setPosixFilePermissions(data, PosixFilePermissions.fromString("rwxr-xr-x"));
        }
    }

    @Test
    void fullDisk_isToldByImport() throws Exception {
        try (SmallDisk disk = SmallDisk.mount(folder.resolve("disk"), "600k")) {
            Path site = SmallSite.in(disk.folder().resolve("site"));
            Path big = Files.writeString(folder.resolve("big.csv"), manyReadings());

            var run = CommandLineRun.of("import", "--site", site, big);

            assertThat(run.status()).isEqualTo(1);
            assertThat(run.err()).contains("disk is full");
        }
    }

    private static String manyReadings() {
        var csv = new StringBuilder("time,probe,value\n");
        Instant first = Instant.parse("2026-02-01T00:00:00Z");
        for (int second = 0; second < 60_000; second++) {
            csv.append(first.plusSeconds(second))
                    .append(",T01-centre-moisture,")
                    .append(2000 + second % 100)
                    .append('\n');
        }
        return csv.toString();
    }
}
