package traytender.dashboard.page;

import java.nio.file.Path;

/**
 * Where the page is served.
 *
 * @param address host name or IP address to bind to
 * @param port 0 for any free one
 * @param passwordFile holds the page's password, in clear as the grower wrote it or hashed; read only when the address is
 *     not this machine's own loopback
 */
public record PageSettings(String address, int port, Path passwordFile) {
    /** The port when nothing else is said. */
    public static final int PORT = 8420;
}
