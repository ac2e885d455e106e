package traytender.ingest.intake;

import java.io.BufferedOutputStream;
import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.EOFException;
import java.io.IOException;
import java.io.InputStream;
import java.net.InetAddress;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;
import org.jspecify.annotations.Nullable;

/**
 * A device that sends rubbish without end, half of it to a probe's topic and half of it to topics of which each is new. It speaks MQTT
 * 3.1.1 by itself, sections 3.1 to 3.4, so that it costs as little as a real one: connect, publish with quality of service 1, hear the
 * acknowledgements. On a process of its own it sends 5,000 a second for as long as the broker takes them.
 */
final class MadDevice implements AutoCloseable {
    private static final int A_SECOND = 5_000;
    /** Packet identifiers go from 1 to here. */
    private static final int IDS = 65_535;

    private final Socket socket;
    private final boolean isPaced;
    private final Thread sending = new Thread(this::send, "mad-device");
    private final @Nullable Process process;
    private volatile boolean stopping;
    private volatile long sent;

    private MadDevice(Socket socket, boolean isPaced, @Nullable Process process) {
        this.socket = socket;
        this.isPaced = isPaced;
        this.process = process;
    }

    /**
     * Begins to send.
     *
     * @param isOnItsOwn whether from a process of its own, 5,000 a second; else as fast as it can
     */
    static MadDevice start(int port, boolean isOnItsOwn) throws IOException {
        if (!isOnItsOwn) {
            var device = new MadDevice(new Socket(InetAddress.getLoopbackAddress(), port), false, null);
            device.sending.start();
            return device;
        }
        String java = Path.of(System.getProperty("java.home"), "bin", "java").toString();
        return new MadDevice(
                new Socket(),
                true,
                new ProcessBuilder(
                                java,
                                "-cp",
                                System.getProperty("java.class.path"),
                                MadDevice.class.getName(),
                                Integer.toString(port))
                        .redirectError(ProcessBuilder.Redirect.INHERIT)
                        .start());
    }

    /** The process: sends until its input ends, then says how many the broker took. */
    public static void main(String[] arguments) throws Exception {
        var device =
                new MadDevice(new Socket(InetAddress.getLoopbackAddress(), Integer.parseInt(arguments[0])), true, null);
        device.sending.start();
        while (System.in.read() >= 0) {
            // Nothing is said to it.
        }
        System.out.println(device.stop());
    }

    /** Stops it; gives how many it sent, all of which the broker took. */
    long stop() throws InterruptedException, IOException {
        if (process != null) {
            process.getOutputStream().close();
            return Long.parseLong(new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8).strip());
        }
        stopping = true;
        sending.join(TimeUnit.MINUTES.toMillis(1));
        return sent;
    }

    private void send() {
        try (var out = new DataOutputStream(new BufferedOutputStream(socket.getOutputStream()))) {
            connect(out);
            var hearing = new Acknowledgements(socket.getInputStream());
            hearing.start();
            long begun = System.nanoTime();
            for (long number = 0; !stopping; number++) {
                if (isPaced) {
                    LockSupport.parkNanos(begun + number * 1_000_000_000L / A_SECOND - System.nanoTime());
                }
                publish(out, number);
                sent = number + 1;
                // So far ahead of the acknowledgements that an identifier would come again before it is free.
                while (number - hearing.count > IDS / 2) {
                    LockSupport.parkNanos(1_000_000);
                }
            }
            hearing.await(sent);
        } catch (IOException | InterruptedException e) {
            if (!stopping) {
                throw new IllegalStateException("the broker does not take rubbish", e);
            }
        }
    }

    private static void connect(DataOutputStream out) throws IOException {
        byte[] id = "mad-device".getBytes(StandardCharsets.UTF_8);
        out.write(0x10);
        out.write(10 + 2 + id.length);
        out.writeUTF("MQTT");
        out.write(4);
        out.write(2);
        out.writeShort(0);
        out.writeShort(id.length);
        out.write(id);
        out.flush();
    }

    private static void publish(DataOutputStream out, long number) throws IOException {
        byte[] topic =
                (number % 2 == 0 ? "alder/T01/edge" : "alder/made-up/" + number).getBytes(StandardCharsets.UTF_8);
        byte[] payload = ("rubbish " + number).getBytes(StandardCharsets.UTF_8);
        out.write(0x32);
        out.write(2 + topic.length + 2 + payload.length);
        out.writeShort(topic.length);
        out.write(topic);
        out.writeShort((int) (number % IDS) + 1);
        out.write(payload);
        out.flush();
    }

    @Override
    public void close() throws IOException {
        stopping = true;
        socket.close();
        if (process != null) {
            process.destroyForcibly();
        }
    }

    /** Counts what the broker acknowledges. */
    private static final class Acknowledgements extends Thread {
        private final DataInputStream in;
        private volatile long count;

        Acknowledgements(InputStream in) {
            super("mad-device-hears");
            this.in = new DataInputStream(in);
            setDaemon(true);
        }

        @Override
        @SuppressWarnings("NonAtomicVolatileUpdate") // Written by this thread alone.
        public void run() {
            try {
                in.skipNBytes(4);
                while (true) {
                    in.skipNBytes(4);
                    count++;
                }
            } catch (EOFException over) {
                // The connection has ended.
            } catch (IOException closed) {
                // So has this one.
            }
        }

        void await(long sent) throws InterruptedException {
            while (count < sent && isAlive()) {
                LockSupport.parkNanos(1_000_000);
            }
        }
    }
}
