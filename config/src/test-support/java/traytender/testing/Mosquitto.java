package traytender.testing;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.jspecify.annotations.Nullable;

/**
 * A real mosquitto broker on a free loopback port, that keeps every acknowledged message on disk and can be stopped, killed and
 * started again at the same port. {@link #publish} sends with {@code mosquitto_pub}, as a sensor would.
 */
public final class Mosquitto implements AutoCloseable {
    /** The status with which mosquitto_sub ends when its time (option -W) is over. */
    private static final int TIMED_OUT = 27;

    private final Path folder;
    private final int port;
    private final @Nullable String user;
    private final @Nullable String password;
    private @Nullable Process process;

    private Mosquitto(Path folder, int port, @Nullable String user, @Nullable String password) {
        this.folder = folder;
        this.port = port;
        this.user = user;
        this.password = password;
    }

    /** Starts one that lets everybody in; its files are in the folder. */
    public static Mosquitto start(Path folder) {
        return start(folder, null, null, null);
    }

    /**
     * Starts one that lets everybody in and keeps nothing on disk, for tests that do not end it: with a large backlog, writing all of
     * it anew at each change is slower than any sensor.
     */
    public static Mosquitto startInMemory(Path folder) {
        try {
            var broker = new Mosquitto(Files.createDirectories(folder), Programs.freePort(), null, null);
            broker.configure(null);
            Files.writeString(folder.resolve("mosquitto.conf"), "persistence false\n", StandardOpenOption.APPEND);
            broker.startAgain();
            return broker;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Starts one that lets everybody in who comes by TLS; {@link #publish} and {@link #hear} do not. */
    public static Mosquitto startWithTls(Path folder, OwnCertificate certificate) {
        try {
            Files.createDirectories(folder.resolve("kept"));
            var broker = new Mosquitto(folder, Programs.freePort(), null, null);
            broker.configure(null);
            Files.writeString(
                    folder.resolve("mosquitto.conf"),
                    "certfile " + certificate.certificate() + "\nkeyfile " + certificate.key() + "\n",
                    StandardOpenOption.APPEND);
            broker.startAgain();
            return broker;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /**
     * Starts one that asks for a password.
     *
     * @param rules lines of an access list; null when the user may do everything
     */
    public static Mosquitto start(
            Path folder, @Nullable String user, @Nullable String password, @Nullable String rules) {
        try {
            Files.createDirectories(folder.resolve("kept"));
            var broker = new Mosquitto(folder, Programs.freePort(), user, password);
            broker.configure(rules);
            broker.startAgain();
            return broker;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private void configure(@Nullable String rules) throws IOException {
        var lines = new ArrayList<>(List.of(
                "listener " + port + " 127.0.0.1",
                "persistence true",
                "persistence_location " + folder.resolve("kept") + "/",
                "autosave_interval 1",
                "autosave_on_changes true",
                "max_queued_messages 0",
                "allow_anonymous " + (user == null),
                // Otherwise a broker started by root gives up its rights, and with them the temporary folder.
                "user " + System.getProperty("user.name")));
        if (user != null && password != null) {
            var passwords = folder.resolve("users");
            Files.writeString(passwords, "");
            run(List.of(Programs.path("mosquitto_passwd"), "-b", passwords.toString(), user, password), new byte[0]);
            lines.add("password_file " + passwords);
        }
        if (rules != null) {
            lines.add("acl_file " + Files.writeString(folder.resolve("rules"), rules));
        }
        Files.write(folder.resolve("mosquitto.conf"), lines);
    }

    /** Starts it again, with what it kept. */
    public void startAgain() {
        try {
            var started = new ProcessBuilder(
                            Programs.path("mosquitto"),
                            "-c",
                            folder.resolve("mosquitto.conf").toString())
                    .redirectErrorStream(true)
                    .redirectOutput(ProcessBuilder.Redirect.appendTo(
                            folder.resolve("mosquitto.log").toFile()))
                    .start();
            process = started;
            Programs.awaitPort(started, port);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Its address, for {@code messages.broker}. */
    public String uri() {
        return "tcp://127.0.0.1:" + port;
    }

    /** Its port. */
    public int port() {
        return port;
    }

    /** Sends text and returns when the broker has acknowledged it. */
    public void publish(String topic, String payload) {
        publish(topic, payload.getBytes(StandardCharsets.UTF_8));
    }

    /** Sends bytes and returns when the broker has acknowledged them. */
    public void publish(String topic, byte[] payload, String... options) {
        send(port, user, password, topic, payload, options);
    }

    /** Sends bytes to any broker at a loopback port; {@code mosquitto_pub}'s own options may be added, such as {@code -r}, or {@code -l} for a message a line. */
    public static void send(
            int port,
            @Nullable String user,
            @Nullable String password,
            String topic,
            byte[] payload,
            String... options) {
        var command = new ArrayList<>(List.of(
                Programs.path("mosquitto_pub"), "-V", "mqttv311", "-p", String.valueOf(port), "-q", "1", "-t", topic));
        var isOneALine = List.of(options).contains("-l");
        if (!isOneALine) {
            command.add(payload.length == 0 ? "-n" : "-s");
        }
        if (user != null && password != null) {
            command.addAll(List.of("-u", user, "-P", password));
        }
        command.addAll(List.of(options));
        run(command, payload);
    }

    /** What a subscriber with those options hears, one line a message. */
    public List<String> hear(String topic, String... options) {
        var command = new ArrayList<>(List.of(
                Programs.path("mosquitto_sub"), "-p", String.valueOf(port), "-t", topic, "-F", "%t %p"));
        if (user != null && password != null) {
            command.addAll(List.of("-u", user, "-P", password));
        }
        command.addAll(List.of(options));
        return run(command, new byte[0])
                .lines()
                .filter(line -> !line.equals("Timed out"))
                .toList();
    }

    private static String run(List<String> command, byte[] input) {
        try {
            var running = new ProcessBuilder(command).redirectErrorStream(true).start();
            try (var in = running.getOutputStream()) {
                in.write(input);
            }
            var said = new String(running.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
            if (!running.waitFor(60, TimeUnit.SECONDS) || (running.exitValue() != 0 && running.exitValue() != TIMED_OUT)) {
                throw new IllegalStateException(command + " said " + said);
            }
            return said;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException(e);
        }
    }

    /** Gives it another access list while it runs. */
    public void changeRules(String rules) {
        try {
            Files.writeString(folder.resolve("rules"), rules);
            var running = process;
            if (running != null) {
                run(List.of("/bin/kill", "-HUP", String.valueOf(running.pid())), new byte[0]);
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Stops it in good order. */
    public void stop() {
        if (process != null) {
            Programs.end(process, false);
        }
    }

    /** Kills it, as a power cut would. */
    public void kill() {
        if (process != null) {
            Programs.end(process, true);
        }
    }

    @Override
    public void close() {
        stop();
    }
}
