package traytender.dashboard.command;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.awaitility.Awaitility;
import org.awaitility.core.ConditionTimeoutException;

/** The packaged program as a process of its own, as a grower or a service manager runs it. */
final class PackagedProgram implements AutoCloseable {
    static final Path BIN = Path.of("target", "traytender", "bin", "traytender").toAbsolutePath();
    private static final Duration PATIENCE = Duration.ofSeconds(120);
    private static final HttpClient HTTP = HttpClient.newHttpClient();

    private final Process process;
    private final int port;
    private final Path log;

    private PackagedProgram(Process process, int port, Path log) {
        this.process = process;
        this.port = port;
        this.log = log;
    }

    /** Starts a command that serves the page at a free port. */
    static PackagedProgram start(Path logs, Object... arguments) throws IOException {
        return start(List.of(), logs, arguments);
    }

    /**
     * Starts it as {@link #start(Path, Object...)} does, through another program.
     *
     * @param through that program and its arguments, such as {@code nice}
     */
    static PackagedProgram start(List<String> through, Path logs, Object... arguments) throws IOException {
        List<String> command = new ArrayList<>(List.of(BIN.toString()));
        for (Object argument : arguments) {
            command.add(argument.toString());
        }
        return startInstalled(through, logs, command);
    }

    /** Starts a command line of its own, which serves the page at a free port. */
    static PackagedProgram startInstalled(List<String> through, Path logs, List<String> command) throws IOException {
        int port = freePort();
        List<String> words = new ArrayList<>(through);
        words.addAll(command);
        words.addAll(List.of("--page", "127.0.0.1:" + port));
        Path log = logs.resolve("program-" + port + ".log");
        var builder = new ProcessBuilder(words).directory(logs.toFile()).redirectErrorStream(true);
        return new PackagedProgram(builder.redirectOutput(log.toFile()).start(), port, log);
    }

    static int freePort() throws IOException {
        try (var socket = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            return socket.getLocalPort();
        }
    }

    /** Waits until history is evaluated and messages come. */
    PackagedProgram awaitWell() throws IOException {
        try {
            Awaitility.await().atMost(PATIENCE).ignoreExceptions().until(() -> health() == 200);
            return this;
        } catch (ConditionTimeoutException e) {
            throw new AssertionError("not well within " + PATIENCE + ": " + lastWords(), e);
        }
    }

    private String lastWords() throws IOException {
        return lastHealth() + "\n" + log();
    }

    private String lastHealth() {
        try {
            return body("/health");
        } catch (IOException e) {
            return e.toString();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return e.toString();
        }
    }

    int health() throws IOException, InterruptedException {
        return answer("/health").statusCode();
    }

    HttpResponse<String> answer(String path) throws IOException, InterruptedException {
        var request = HttpRequest.newBuilder(URI.create("http://127.0.0.1:" + port + path))
                .build();
        return HTTP.send(request, HttpResponse.BodyHandlers.ofString());
    }

    String body(String path) throws IOException, InterruptedException {
        return answer(path).body();
    }

    /**
     * A sum of what {@code /metrics} tells.
     *
     * @param counter its name; where it is told by label, all of them together
     */
    long metric(String counter) throws IOException, InterruptedException {
        return body("/metrics")
                .lines()
                .filter(line -> line.startsWith(counter + " ") || line.startsWith(counter + "{"))
                .mapToLong(line -> (long) Double.parseDouble(line.substring(line.lastIndexOf(' ') + 1)))
                .sum();
    }

    /** Waits until what came in is what was stored, refused and known already, as it is at any quiet moment. */
    void awaitBalanced() {
        Awaitility.await()
                .atMost(PATIENCE)
                .until(() -> metric("traytender_readings_received_total")
                        == metric("traytender_readings_stored_total")
                                + metric("traytender_readings_refused_total")
                                + metric("traytender_readings_repeated_total"));
    }

    long pid() {
        return process.pid();
    }

    int pagePort() {
        return port;
    }

    String log() throws IOException {
        return Files.readString(log);
    }

    /** Sends SIGTERM and gives the status the process ends with. */
    int stop() throws InterruptedException {
        process.destroy();
        return status();
    }

    int status() throws InterruptedException {
        if (!process.waitFor(PATIENCE.toSeconds(), TimeUnit.SECONDS)) {
            throw new AssertionError("still running after " + PATIENCE);
        }
        return process.exitValue();
    }

    /** Ends the process as a power cut would. */
    void kill() {
        process.destroyForcibly().onExit().join();
    }

    @Override
    public void close() {
        kill();
    }
}
