package traytender.testing;

import java.io.File;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;
import java.util.stream.Stream;

/** Programs of this machine that tests start. */
public final class Programs {
    private static final long LONGEST_START_NANOS = TimeUnit.SECONDS.toNanos(60);
    private static final long LOOK_NANOS = TimeUnit.MILLISECONDS.toNanos(20);

    private Programs() {}

    /** Where a program is. Debian keeps servers in folders that are not in every user's path. */
    public static Optional<Path> find(String name) {
        var folders = System.getenv().getOrDefault("PATH", "") + File.pathSeparator + "/usr/sbin" + File.pathSeparator
                + "/usr/local/sbin";
        return Stream.of(folders.split(File.pathSeparator))
                .filter(folder -> !folder.isBlank())
                .map(folder -> Path.of(folder, name))
                .filter(Files::isExecutable)
                .findFirst();
    }

    /** A program's full name, for starting it. */
    static String path(String name) {
        return find(name).map(Path::toString).orElse(name);
    }

    /** A loopback port nobody listens at just now. */
    public static int freePort() {
        try (var socket = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            return socket.getLocalPort();
        } catch (IOException e) {
            throw new IllegalStateException(e);
        }
    }

    /** Returns once the program takes connections at the port. */
    static void awaitPort(Process process, int port) {
        long start = System.nanoTime();
        while (!answers(port)) {
            if (!process.isAlive() || System.nanoTime() - start > LONGEST_START_NANOS) {
                throw new IllegalStateException("nothing listens at port " + port + "; " + process.info());
            }
            LockSupport.parkNanos(LOOK_NANOS);
        }
    }

    private static boolean answers(int port) {
        try (var socket = new Socket()) {
            socket.connect(new InetSocketAddress(InetAddress.getLoopbackAddress(), port), 1_000);
            return true;
        } catch (IOException e) {
            return false;
        }
    }

    /** Ends a program and waits until it is gone. */
    static void end(Process process, boolean isKilled) {
        if (isKilled) {
            process.destroyForcibly();
        } else {
            process.destroy();
        }
        try {
            if (!process.waitFor(20, TimeUnit.SECONDS)) {
                process.destroyForcibly().waitFor();
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            process.destroyForcibly();
        }
    }
}
