package traytender.dashboard.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The packaged program takes and judges a stretch of time at speed: four probes, a reading a minute, some hundred a second over its own broker. What it
 * holds of memory, files and threads is looked at again and again. {@code -Dsoak.days=7} is the long form; it prints what was seen.
 */
class SoakIT {
    private static final double DAYS = Double.parseDouble(System.getProperty("soak.days", "0.1"));
    private static final int POINTS = 7;
    private static final int STEP_SECONDS = 60;
    private static final Duration PATIENCE = Duration.ofMinutes(10);
    private static final List<String> PROBES =
            List.of("T01-centre", "T01-between", "T01-edge-front", "T01-corner-front-left");
    /** As {@code How the tables look} in ingest's README says, before a day is sealed: 19 to 24 bytes a reading. */
    private static final int BYTES_A_READING = 24;
    /** Pages that are not full, the schema, and what SQLite keeps free; our choice. */
    private static final int BESIDES = 512 * 1024;

    @TempDir
    Path folder;

    /** What the process holds at one moment. */
    private record Point(long readings, long residentKb, int files, Set<String> threads, long storeBytes) {
        @Override
        public String toString() {
            return "%,d readings: %d MB resident, %d files open, %d kinds of threads, readings.db and its log %d kB"
                    .formatted(readings, residentKb / 1024, files, threads.size(), storeBytes / 1024);
        }
    }

    @Test
    void stretchOfTime_leavesMemoryFilesAndThreadsAsTheyWere() throws Exception {
        int port = PackagedProgram.freePort();
        Path site = MoistureSite.of(folder.resolve("site"), PROBES, "built-in\n  port: " + port);
        int each = (int) (DAYS * 86_400 / STEP_SECONDS);
        Instant first = Clock.systemUTC()
                .instant()
                .truncatedTo(ChronoUnit.SECONDS)
                .minus(Duration.ofSeconds((long) STEP_SECONDS * each).plusHours(12));
        var sensors = new ArrayList<PatientSensor>();
        var points = new ArrayList<Point>();
        try (var program = PackagedProgram.start(folder, "run", "--site", site).awaitWell()) {
            PROBES.forEach(
                    probe -> sensors.add(PatientSensor.start(port, probe, "alder/" + probe, first, STEP_SECONDS)));
            for (int point = 1; point <= POINTS; point++) {
                long due = (long) each * PROBES.size() * point / POINTS;
                Awaitility.await()
                        .atMost(PATIENCE)
                        .until(() -> program.metric("traytender_readings_stored_total") >= due);
                points.add(point(program, site));
                System.out.println(
                        "soak, day " + "%.2f".formatted(DAYS * point / POINTS) + ": " + points.get(point - 1));
            }
            for (PatientSensor sensor : sensors) {
                sensor.finish();
            }
            long sent = sensors.stream()
                    .mapToLong(sensor -> sensor.acknowledged().size())
                    .sum();
            Awaitility.await().atMost(PATIENCE).until(() -> program.metric("traytender_readings_stored_total") == sent);
            program.awaitBalanced();
            program.awaitWell();
            assertHeld(points);
            assertThat(program.stop()).isZero();
            // Closed, so that all of it lies in the one file.
            assertThat(Files.size(readings(site))).isLessThanOrEqualTo(sent * BYTES_A_READING + BESIDES);
        } finally {
            sensors.forEach(PatientSensor::close);
        }
    }

    private static void assertHeld(List<Point> points) {
        Point early = points.get(1);
        Point last = points.get(points.size() - 1);
        assertThat(last.threads()).containsAll(early.threads());
        assertThat(last.files()).isLessThanOrEqualTo(early.files() + 10);
        if (DAYS >= 1) {
            assertThat(last.residentKb()).isLessThanOrEqualTo(early.residentKb() * 5 / 4);
        }
    }

    private static Point point(PackagedProgram program, Path site) throws IOException, InterruptedException {
        Path process = Path.of("/proc", Long.toString(program.pid()));
        long resident = Files.readAllLines(process.resolve("status")).stream()
                .filter(line -> line.startsWith("VmRSS:"))
                .mapToLong(line -> Long.parseLong(line.replaceAll("\\D", "")))
                .sum();
        try (var files = Files.list(process.resolve("fd"));
                var threads = Files.list(process.resolve("task"))) {
            return new Point(
                    program.metric("traytender_readings_stored_total"),
                    resident,
                    (int) files.count(),
                    threads.map(SoakIT::name)
                            .filter(name -> name.matches("mqtt-link|ingest-writer|watcher|housekeeper|mender"))
                            .collect(Collectors.toCollection(TreeSet::new)),
                    Files.size(readings(site)) + Files.size(readings(site).resolveSibling("readings.db-wal")));
        }
    }

    private static Path readings(Path site) {
        return site.resolve("data").resolve("readings.db");
    }

    /** A thread's role; none when it has just ended. */
    private static String name(Path thread) {
        try {
            return Files.readString(thread.resolve("comm")).strip();
        } catch (IOException ended) {
            return "";
        }
    }
}
