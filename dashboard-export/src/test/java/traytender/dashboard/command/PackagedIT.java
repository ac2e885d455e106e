package traytender.dashboard.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.concurrent.TimeUnit;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import traytender.ingest.mqtt.Sender;

/** The packaged program from outside: signals, statuses, ports, kills. */
class PackagedIT {
    private static final Duration PATIENCE = Duration.ofSeconds(90);

    @TempDir
    Path folder;

    @Test
    void program_isFoundThroughALinkAndFromAnyFolder() throws Exception {
        Path link = Files.createSymbolicLink(folder.resolve("tt"), PackagedProgram.BIN);

        Process process = new ProcessBuilder(link.toString(), "--version")
                .directory(folder.toFile())
                .start();

        assertThat(process.waitFor(60, TimeUnit.SECONDS)).isTrue();
        assertThat(process.exitValue()).isZero();
        assertThat(new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8))
                .startsWith("traytender ");
    }

    @Test
    void dryReadings_overTheBuiltInBrokerOpenAnAlertThatReplayFindsToo() throws Exception {
        int port = PackagedProgram.freePort();
        Path site = SmallSite.in(folder.resolve("site"), port);

        try (var program = PackagedProgram.start(folder, "run", "--site", site).awaitWell()) {
            sendDryHour(port);

            String alerts = Awaitility.await()
                    .atMost(PATIENCE)
                    .until(() -> program.body("/api/v1/alerts?open=true"), body -> body.contains("\"dry\""));
            assertThat(program.body("/api/v1/counts")).contains("\"stored\":61", "\"refused\":0");
            assertThat(program.stop()).isZero();
            assertThat(program.log()).contains("Stopped");

            String id = alerts.replaceAll("(?s).*\"id\":\"([^\"]+)\",\"kind\":\"dry\".*", "$1");
            assertThat(CommandLineRun.of("replay", "--site", site).out()).contains(id);
        }
    }

    @Test
    void readingsTaken_areThereAfterAKill() throws Exception {
        int port = PackagedProgram.freePort();
        Path site = SmallSite.in(folder.resolve("site"), port);
        try (var program = PackagedProgram.start(folder, "run", "--site", site).awaitWell()) {
            sendDryHour(port);
            program.kill();
        }

        try (var program = PackagedProgram.start(folder, "run", "--site", site).awaitWell()) {
            // What the broker had taken and the store had not comes again from the broker.
            Awaitility.await()
                    .atMost(PATIENCE)
                    .until(() -> program.body(
                                            "/api/v1/readings?probe=T01-centre-moisture&from=2020-01-01T00:00:00Z&to=2100-01-01T00:00:00Z")
                                    .split("0.125", -1)
                                    .length
                            == 62);
            assertThat(program.stop()).isZero();
        }
    }

    @Test
    void secondProgramOnTheSameSite_isRefused() throws Exception {
        Path site = SmallSite.in(folder.resolve("site"));
        try (var first = PackagedProgram.start(folder, "run", "--site", site).awaitWell();
                var second = PackagedProgram.start(folder, "run", "--site", site)) {
            assertThat(second.status()).isEqualTo(1);
            assertThat(second.log()).contains("is in use by process");
            assertThat(CommandLineRun.of("backup", "--site", site, folder.resolve("b.zip"))
                            .status())
                    .isZero();
            assertThat(first.stop()).isZero();
        }
    }

    @Test
    void portsInUse_areToldAndStatus1() throws Exception {
        int taken = PackagedProgram.freePort();
        Path site = SmallSite.in(folder.resolve("one"), taken);
        try (var first = PackagedProgram.start(folder, "run", "--site", site).awaitWell();
                var sameBroker =
                        PackagedProgram.start(folder, "run", "--site", SmallSite.in(folder.resolve("two"), taken))) {
            assertThat(sameBroker.status()).isEqualTo(1);
            assertThat(sameBroker.log()).contains("cannot listen at 127.0.0.1:" + taken);

            var samePage = CommandLineRun.of(
                    "run", "--site", SmallSite.in(folder.resolve("three")), "--page", "127.0.0.1:" + first.pagePort());
            assertThat(samePage.status()).isEqualTo(1);
            assertThat(samePage.err()).contains("cannot be served on 127.0.0.1:" + first.pagePort());
            assertThat(first.stop()).isZero();
        }
    }

    @Test
    void brokerThatRefuses_isTriedAgainAndHealthSaysSo() throws Exception {
        Path site = SmallSite.in(folder.resolve("site"));
        Path file = site.resolve("site.yaml");
        int nobody = PackagedProgram.freePort();
        Files.writeString(
                file,
                Files.readString(file)
                        .replace("broker: built-in\n  port: 0", "broker: \"tcp://127.0.0.1:" + nobody + "\""));

        try (var program = PackagedProgram.start(folder, "run", "--site", site)) {
            Awaitility.await()
                    .atMost(PATIENCE)
                    .ignoreExceptions()
                    .until(() ->
                            program.health() == 503 && program.body("/health").contains("no connection to the broker"));
            assertThat(program.stop()).isZero();
        }
    }

    @Test
    void fiveHundredTrays_areWatched() throws Exception {
        Path site = SmallSite.in(folder.resolve("site"));
        Path file = site.resolve("site.yaml");
        var trays = new StringBuilder("trays:\n");
        for (int tray = 1; tray <= 500; tray++) {
            trays.append(
                    "  - {id: T%02d, room: propagation, cells: {rows: 8, columns: 16}, medium: peat-perlite, stage: seedling,"
                            .formatted(tray));
            trays.append(" sowings: [{rows: 1-8, crop: tomato, variety: Copper Lantern}]}\n");
        }
        Files.writeString(file, Files.readString(file).replaceAll("(?s)trays:\n.*?(?=probes:)", trays.toString()));

        try (var program = PackagedProgram.start(folder, "run", "--site", site).awaitWell()) {
            assertThat(program.body("/api/v1/trays")).contains("\"T01\"", "\"T500\"");
            assertThat(program.stop()).isZero();
        }
    }

    /** An hour of readings far below the dry line, a minute apart, ended now. */
    static void sendDryHour(int port) throws InterruptedException {
        sendHour(port, "\"soil\": 2700");
    }

    /**
     * An hour of the same from the centre of the small site's tray, a minute apart, ended now.
     *
     * @param value the message's field with its value
     */
    static void sendHour(int port, String value) throws InterruptedException {
        Instant now = Clock.systemUTC().instant().truncatedTo(ChronoUnit.SECONDS);
        try (Sender sensor = Sender.connect("tcp://127.0.0.1:" + port, "centre-sensor")) {
            for (int minute = 60; minute >= 0; minute--) {
                String payload = "{%s, \"at\": \"%s\"}".formatted(value, now.minus(minute, ChronoUnit.MINUTES));
                sensor.send("alder/T01/centre", payload.getBytes(StandardCharsets.UTF_8));
            }
            sensor.flush();
        }
    }
}
