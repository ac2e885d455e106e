package traytender.dashboard.notice;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import javax.net.ssl.SSLContext;
import javax.net.ssl.SSLSocket;

/**
 * In front of a mail server that knows no STARTTLS: says the greeting, does the TLS handshake (RFC 3207), and passes everything after it on
 * to the server behind, both ways.
 */
final class StarttlsFront implements AutoCloseable {
    /** Every command that came in the clear. */
    final List<String> inTheClear = new CopyOnWriteArrayList<>();

    private final ServerSocket listening = new ServerSocket(0, 10, InetAddress.getLoopbackAddress());
    private final ExecutorService threads = Executors.newCachedThreadPool();
    private final SSLContext tls;
    private final int behind;

    StarttlsFront(SSLContext tls, int behind) throws IOException {
        this.tls = tls;
        this.behind = behind;
        threads.execute(this::accept);
    }

    int port() {
        return listening.getLocalPort();
    }

    private void accept() {
        try {
            while (true) {
                Socket socket = listening.accept();
                threads.execute(() -> serve(socket));
            }
        } catch (IOException e) {
            // Closed.
        }
    }

    private void serve(Socket socket) {
        try (socket) {
            say(socket, "220 bench.example ESMTP");
            while (true) {
                String command = line(socket.getInputStream());
                inTheClear.add(command);
                if (command.startsWith("EHLO")) {
                    say(socket, "250-bench.example\r\n250 STARTTLS");
                } else if (command.equals("STARTTLS")) {
                    say(socket, "220 go ahead");
                    passOn(socket);
                    return;
                } else {
                    say(socket, "530 Must issue a STARTTLS command first");
                }
            }
        } catch (IOException e) {
            // The other side has gone, or did not like the certificate.
        }
    }

    private void passOn(Socket socket) throws IOException {
        try (var secure = (SSLSocket) tls.getSocketFactory().createSocket(socket, null, socket.getPort(), true)) {
            secure.setUseClientMode(false);
            secure.startHandshake();
            try (var server = new Socket(InetAddress.getLoopbackAddress(), behind)) {
                // The greeting was said already.
                line(server.getInputStream());
                threads.execute(() -> copy(server, secure));
                secure.getInputStream().transferTo(server.getOutputStream());
            }
        }
    }

    private static void copy(Socket from, Socket to) {
        try {
            from.getInputStream().transferTo(to.getOutputStream());
        } catch (IOException e) {
            // One of them has gone.
        }
    }

    private static void say(Socket socket, String text) throws IOException {
        OutputStream out = socket.getOutputStream();
        out.write((text + "\r\n").getBytes(StandardCharsets.US_ASCII));
        out.flush();
    }

    private static String line(InputStream in) throws IOException {
        var text = new StringBuilder();
        for (int next = in.read(); next != '\n'; next = in.read()) {
            if (next < 0) {
                throw new IOException("gone");
            }
            text.append((char) next);
        }
        return text.toString().strip();
    }

    @Override
    public void close() throws IOException {
        listening.close();
        threads.shutdownNow();
    }
}
