package traytender.bench;

import java.io.IOException;
import java.io.InputStream;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import traytender.testing.Programs;

/** The packaged program, run as a grower's computer runs it. */
final class Running implements AutoCloseable {
    private static final Duration PATIENCE = Duration.ofMinutes(10);
    private static final Pattern STORED = Pattern.compile("\"stored\":(\\d+)");
    private static final HttpClient HTTP = HttpClient.newHttpClient();

    private final Process process;
    private final int port;

    private Running(Process process, int port) {
        this.process = process;
        this.port = port;
    }

    /**
     * Starts it.
     *
     * @param archive of classes, as the package makes one at its installation; empty for none
     */
    static Running start(Path program, Path site, String archive) throws IOException {
        return start(program, site, archive, "");
    }

    /** Starts it under the flight recorder, without an archive of classes. */
    static Running recorded(Path program, Path site, Path recording) throws IOException {
        return start(program, site, "", Child.recorder(recording));
    }

    private static Running start(Path program, Path site, String archive, String flags) throws IOException {
        int port = Programs.freePort();
        List<String> words =
                new ArrayList<>(List.of(program.resolve("bin/traytender").toString(), "run"));
        words.addAll(List.of("--site", site.toString(), "--page", "127.0.0.1:" + port, "--log-level", "warn"));
        var builder =
                new ProcessBuilder(words).redirectErrorStream(true).redirectOutput(ProcessBuilder.Redirect.DISCARD);
        builder.environment().put("TRAYTENDER_CLASSES", archive);
        builder.environment().put("TRAYTENDER_JAVA_OPTS", flags);
        return new Running(builder.start(), port);
    }

    Running awaitWell() throws InterruptedException {
        await(() -> answer("/health").statusCode() == 200);
        return this;
    }

    /** Something that may not be so yet, or not be askable yet. */
    interface Asked {
        boolean isSo() throws IOException, InterruptedException;
    }

    /** Asks every few milliseconds. */
    void await(Asked asked) throws InterruptedException {
        long start = System.nanoTime();
        while (!isSo(asked)) {
            if (!process.isAlive() || System.nanoTime() - start > PATIENCE.toNanos()) {
                throw new IllegalStateException("the program did not come so far");
            }
            LockSupport.parkNanos(TimeUnit.MILLISECONDS.toNanos(5));
        }
    }

    private static boolean isSo(Asked asked) throws InterruptedException {
        try {
            return asked.isSo();
        } catch (IOException notYet) {
            return false;
        }
    }

    HttpResponse<String> answer(String path) throws IOException, InterruptedException {
        return HTTP.send(HttpRequest.newBuilder(uri(path)).build(), HttpResponse.BodyHandlers.ofString());
    }

    /** The answer as it goes over the wire to a browser. */
    byte[] compressed(String path) throws IOException, InterruptedException {
        var request = HttpRequest.newBuilder(uri(path))
                .header("Accept-Encoding", "gzip")
                .build();
        return HTTP.send(request, HttpResponse.BodyHandlers.ofByteArray()).body();
    }

    /** A page that is open: it hears every change. Close it. */
    InputStream openPage() throws IOException, InterruptedException {
        var request = HttpRequest.newBuilder(uri("/api/v1/changes"))
                .header("Accept", "text/event-stream")
                .build();
        return HTTP.send(request, HttpResponse.BodyHandlers.ofInputStream()).body();
    }

    long stored() throws IOException, InterruptedException {
        Matcher matcher = STORED.matcher(answer("/api/v1/counts").body());
        return matcher.find() ? Long.parseLong(matcher.group(1)) : 0;
    }

    private URI uri(String path) {
        return URI.create("http://127.0.0.1:" + port + path);
    }

    double cpuSeconds() {
        return process.toHandle()
                        .info()
                        .totalCpuDuration()
                        .orElse(Duration.ZERO)
                        .toMillis()
                / 1e3;
    }

    long pid() {
        return process.pid();
    }

    @Override
    public void close() {
        process.destroy();
        process.onExit().join();
    }
}
