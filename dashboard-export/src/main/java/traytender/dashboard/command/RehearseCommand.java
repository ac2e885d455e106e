package traytender.dashboard.command;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.time.Clock;
import java.time.Duration;
import java.time.ZoneOffset;
import java.util.Objects;
import java.util.concurrent.locks.LockSupport;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.ParentCommand;
import traytender.config.folder.NewSite;
import traytender.config.folder.SiteReader;
import traytender.dashboard.page.PageSettings;
import traytender.dashboard.program.Program;
import traytender.dashboard.program.ProgramException;
import traytender.ingest.mqtt.Sender;

/**
 * Runs the whole program once in a folder that is removed at the end: an hour of a sensor through broker, store, rules and page. What it
 * loads is what a start loads; {@code class-archive} keeps it for faster starts.
 */
@Command(name = "rehearse", hidden = true, description = "Starts every part once, in a folder of its own, and stops.")
final class RehearseCommand implements Runnable {
    private static final int MINUTES = 60;
    private static final Duration PATIENCE = Duration.ofMinutes(3);
    private static final Duration PAUSE = Duration.ofMillis(100);
    private static final String PORT = "port: 1883";

    @ParentCommand
    private @Nullable Traytender parent;

    @Override
    public void run() {
        Clock clock = Objects.requireNonNull(parent).clock();
        try (DemoFolder folder = DemoFolder.temporary()) {
            NewSite.write(folder.path(), ZoneOffset.UTC);
            var file = folder.path().resolve("site.yaml");
            Files.writeString(file, Files.readString(file).replace(PORT, "port: 0"));
            var page = new PageSettings("127.0.0.1", 0, folder.path().resolve("page.password"));
            try (var program = Program.start(SiteReader.read(folder.path()), page, clock)) {
                sendAnHour(program.brokerPort());
                look(program);
            }
        } catch (IOException e) {
            throw new ProgramException("the rehearsal failed: " + e.getMessage(), e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private static void sendAnHour(int port) throws InterruptedException {
        try (var sensor = Sender.connect("tcp://127.0.0.1:" + port, "rehearsal")) {
            for (int minute = 0; minute < MINUTES; minute++) {
                String payload = "{\"soil\": %d, \"temp\": 21.5}".formatted(2000 + minute);
                sensor.send("nursery/T01/centre", payload.getBytes(StandardCharsets.UTF_8));
            }
            sensor.flush();
        }
    }

    /** Asks for the page until it shows what was sent. */
    private static void look(Program program) throws IOException {
        long start = System.nanoTime();
        while (!program.isWell() || !body(program, "api/v1/trays").contains("\"moisture\":0.")) {
            if (System.nanoTime() - start > PATIENCE.toNanos()) {
                throw new ProgramException("the rehearsal's readings never came to the page", null);
            }
            LockSupport.parkNanos(PAUSE.toNanos());
        }
        body(program, "");
    }

    private static String body(Program program, String path) throws IOException {
        try (InputStream in = program.page().resolve(path).toURL().openStream()) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        }
    }
}
