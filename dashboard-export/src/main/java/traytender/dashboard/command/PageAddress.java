package traytender.dashboard.command;

import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.TypeConversionException;

/**
 * Where the page is to be served.
 *
 * @param host name or IP address, without brackets
 * @param port 0 to 65535; 0 for any free one
 */
record PageAddress(String host, int port) {
    private static final int HIGHEST_PORT = 65_535;

    /** Reads {@code ADDRESS:PORT}; an IPv6 address stands in brackets. */
    static final class Converter implements ITypeConverter<PageAddress> {
        @Override
        public PageAddress convert(String text) {
            int colon = text.lastIndexOf(':');
            String host = colon < 0 ? "" : text.substring(0, colon);
            try {
                int port = Integer.parseInt(text.substring(colon + 1));
                if (!host.isEmpty() && port >= 0 && port <= HIGHEST_PORT) {
                    return new PageAddress(host.replaceAll("^\\[(.*)]$", "$1"), port);
                }
            } catch (NumberFormatException e) {
                throw wrong(text);
            }
            throw wrong(text);
        }

        private static TypeConversionException wrong(String text) {
            return new TypeConversionException(
                    "'" + text + "' is not ADDRESS:PORT; right would be, for example, 127.0.0.1:8420");
        }
    }
}
