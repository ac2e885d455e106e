package traytender.dashboard.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.InetAddress;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.awaitility.Awaitility;
import org.awaitility.core.ConditionFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import traytender.config.folder.SiteReader;
import traytender.dashboard.program.Stores;

/** The packaged program on a disk that fills up, or cannot be written. */
class TroubledDiskIT {
    /** Root may write everywhere, unless this right is taken away; others get by without it. */
    private static final List<String> BOUND_BY_PERMISSIONS =
            List.of("setpriv", "--bounding-set=-dac_override", "--inh-caps=-dac_override");

    /** Enough for a start on a machine with many cores. */
    private static final int FILE_HANDLES = 500;

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

    @Test
    void diskThatFillsUp_losesNothingAcknowledged_isTold_andIsUsedAgainWhenThereIsRoom() throws Exception {
        try (SmallDisk disk = SmallDisk.mount(folder.resolve("disk"), "90m")) {
            int port = PackagedProgram.freePort();
            Path site = SmallSite.in(disk.folder().resolve("site"), port);
            Instant first =
                    Clock.systemUTC().instant().truncatedTo(ChronoUnit.SECONDS).minus(Duration.ofHours(40));
            try (var program =
                            PackagedProgram.start(folder, "run", "--site", site).awaitWell();
                    var sensor = PatientSensor.start(port, "T01-centre-moisture", "alder/T01/centre", first, 1)) {
                await().until(() -> sensor.acknowledged().size() > 20);

                Path filler = fill(disk.folder());
                await().until(() -> program.body("/health").contains("readings cannot be stored")
                        && program.body("/health").contains("the disk is full"));
                Files.delete(filler);

                program.awaitWell();
                sensor.finish();
                await().until(() -> stored(site) == sensor.acknowledged().size());
                assertThat(program.stop()).isZero();
            }
        }
    }

    @Test
    void fileHandlesUsedUp_holdUpNoSensorThatIsConnected_andAreThereAgainAfterwards() throws Exception {
        int port = PackagedProgram.freePort();
        Path site = SmallSite.in(folder.resolve("site"), port);
        Instant first =
                Clock.systemUTC().instant().truncatedTo(ChronoUnit.SECONDS).minus(Duration.ofHours(40));
        List<String> few = List.of("prlimit", "--nofile=" + FILE_HANDLES + ":" + FILE_HANDLES);
        List<Socket> connections = new ArrayList<>();
        try (var program = PackagedProgram.start(few, folder, "run", "--site", site)
                        .awaitWell();
                var sensor = PatientSensor.start(port, "T01-centre-moisture", "alder/T01/centre", first, 1)) {
            await().until(() -> sensor.acknowledged().size() > 20);

            // How many it takes hangs on the machine; what it takes no more waits with the system.
            while (!program.log().contains("Too many open files") && connections.size() < FILE_HANDLES) {
                connections.add(new Socket(InetAddress.getLoopbackAddress(), port));
            }
            int before = sensor.acknowledged().size();
            await().until(() -> sensor.acknowledged().size() > before + 20);
            for (Socket connection : connections) {
                connection.close();
            }

            program.awaitWell();
            sensor.finish();
            await().until(() -> stored(site) == sensor.acknowledged().size());
            assertThat(program.log()).contains("Too many open files");
            assertThat(program.stop()).isZero();
        }
    }

    @Test
    void databaseDamagedDeepInside_isSetAsideWhole_told_andTheProgramRunsOnWithANewOne() throws Exception {
        int port = PackagedProgram.freePort();
        Path site = SmallSite.in(folder.resolve("site"), port);
        Path big = Files.writeString(folder.resolve("big.csv"), manyReadings());
        assertThat(CommandLineRun.of("import", "--site", site, big).status()).isZero();
        Path file = site.resolve("data").resolve("readings.db");
        byte[] bytes = Files.readAllBytes(file);
        // Away from both ends of the one probe's readings, where a look at the start would not meet it.
        Arrays.fill(bytes, bytes.length / 2, bytes.length / 2 + 8 * 4096, (byte) 0xA5);
        Files.write(file, bytes);

        try (var program = PackagedProgram.start(folder, "run", "--site", site)) {
            await().until(() -> program.health() == 200
                    && program.body("/health")
                            .contains("found damaged and set aside whole as data/readings.db.damaged-"));
            PackagedIT.sendDryHour(port);
            await().until(() -> stored(site) == 61);
            assertThat(program.log()).contains("A damaged database was set aside as");
            assertThat(program.stop()).isZero();
        }
        try (var files = Files.list(site.resolve("data"))) {
            assertThat(files.filter(name -> name.getFileName().toString().matches("readings.db.damaged-.*Z")))
                    .singleElement()
                    .satisfies(aside -> assertThat(aside).hasBinaryContent(bytes));
        }
    }

    private static ConditionFactory await() {
        return Awaitility.await().atMost(Duration.ofSeconds(90)).ignoreExceptions();
    }

    private static long stored(Path site) {
        try (var store = Stores.toRead(SiteReader.read(site))) {
            return store.readings().count();
        }
    }

    /** Writes until the disk takes no more. */
    private static Path fill(Path disk) {
        Path filler = disk.resolve("filler");
        try (var out = Files.newOutputStream(filler)) {
            while (true) {
                out.write(new byte[1 << 16]);
            }
        } catch (IOException full) {
            return filler;
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
