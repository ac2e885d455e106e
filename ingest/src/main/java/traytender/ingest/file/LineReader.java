package traytender.ingest.file;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.IOException;
import java.io.InputStream;
import java.util.Arrays;
import org.jspecify.annotations.Nullable;

/**
 * A file's lines with their places in bytes, so that reading can go on at a place later. Lines end with LF, CRLF or CR; bytes
 * that are not UTF-8 become U+FFFD; of a line longer than {@link #LONGEST} only the beginning is kept.
 *
 * <p><b>Not for use by several threads.</b>
 */
final class LineReader {
    /** In bytes; no reading needs a hundredth of it. Our choice, as large as a message may be. */
    static final int LONGEST = 64 * 1024;

    private final InputStream in;
    private final byte[] buffer = new byte[64 * 1024];
    private final byte[] line = new byte[LONGEST];
    private int at;
    private int end;
    private long consumed;
    private long number;
    private boolean tooLong;

    /**
     * Reads on from a place.
     *
     * @param in stands at that place
     * @param offset the place in bytes, the beginning of a line
     * @param number how many lines are before it
     */
    LineReader(InputStream in, long offset, long number) {
        this.in = in;
        this.consumed = offset;
        this.number = number;
    }

    /** The next line without its end, or null after the last one. */
    @Nullable
    String next() throws IOException {
        int length = 0;
        tooLong = false;
        for (int b = read(); b >= 0; b = read()) {
            if (b == '\n' || b == '\r') {
                skipLineFeedAfter(b);
                return finished(length);
            }
            if (length < LONGEST) {
                line[length++] = (byte) b;
            } else {
                tooLong = true;
            }
        }
        return length == 0 ? null : finished(length);
    }

    private void skipLineFeedAfter(int lineEnd) throws IOException {
        if (lineEnd == '\r' && peek() == '\n') {
            read();
        }
    }

    private String finished(int length) {
        number++;
        return new String(Arrays.copyOf(line, length), UTF_8);
    }

    private int read() throws IOException {
        var b = peek();
        if (b >= 0) {
            at++;
            consumed++;
        }
        return b;
    }

    private int peek() throws IOException {
        if (at == end) {
            at = 0;
            end = Math.max(0, in.read(buffer));
        }
        return at == end ? -1 : buffer[at] & 0xff;
    }

    /** Number of the line last read, from 1. */
    long number() {
        return number;
    }

    /** Where the next line begins, in bytes. */
    long offset() {
        return consumed;
    }

    /** Whether the line last read was longer than {@link #LONGEST}. */
    boolean isTooLong() {
        return tooLong;
    }
}
