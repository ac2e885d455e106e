package traytender.ingest.store;

import java.io.ByteArrayOutputStream;
import java.nio.ByteBuffer;
import java.util.Arrays;
import java.util.zip.DataFormatException;
import java.util.zip.Deflater;
import java.util.zip.Inflater;

/**
 * Whole numbers as a sealed run has them: each zigzagged (0, -1, 1, -2, ... become 0, 1, 2, 3, ...) and written seven bits a byte, the
 * lowest first, the eighth bit set where more follow; all of it as one zlib stream (RFC 1950), whose checksum tells of damage.
 * <b>Not for several threads.</b>
 */
final class SealedNumbers {
    private static final int SEVEN_BITS = 0x7f;
    private static final int MORE = 0x80;
    /** Bytes that a number of 64 bits takes at most. */
    private static final int LONGEST = 10;

    private SealedNumbers() {}

    /** Takes numbers down. */
    static final class Writer {
        private byte[] bytes;
        private int length;

        /** @param numbers how many are expected */
        Writer(int numbers) {
            bytes = new byte[Math.max(LONGEST, 3 * numbers)];
        }

        void put(long number) {
            if (length + LONGEST > bytes.length) {
                bytes = Arrays.copyOf(bytes, 2 * bytes.length);
            }
            long rest = (number << 1) ^ (number >> 63);
            while ((rest & ~SEVEN_BITS) != 0) {
                bytes[length++] = (byte) (rest | MORE);
                rest >>>= 7;
            }
            bytes[length++] = (byte) rest;
        }

        /** All that were put, packed. */
        byte[] packed() {
            var deflater = new Deflater(Deflater.BEST_COMPRESSION);
            try {
                deflater.setInput(bytes, 0, length);
                deflater.finish();
                var out = new ByteArrayOutputStream(length);
                var part = new byte[4_096];
                while (!deflater.finished()) {
                    out.write(part, 0, deflater.deflate(part));
                }
                return out.toByteArray();
            } finally {
                deflater.end();
            }
        }
    }

    /** Gives numbers in the order in which they were put. */
    static final class Reader {
        private final ByteBuffer bytes;

        /**
         * @param most numbers that there can be
         * @throws DataFormatException when this is no whole stream of so few
         */
        Reader(byte[] packed, int most) throws DataFormatException {
            var inflater = new Inflater();
            try {
                inflater.setInput(packed);
                var unpacked = new byte[LONGEST * most];
                int length = inflater.inflate(unpacked);
                if (!inflater.finished()) {
                    throw new DataFormatException("cut off, or longer than " + most + " numbers");
                }
                bytes = ByteBuffer.wrap(unpacked, 0, length);
            } finally {
                inflater.end();
            }
        }

        /** The next one. */
        long next() throws DataFormatException {
            long number = 0;
            for (int shift = 0; shift < Long.SIZE; shift += 7) {
                if (!bytes.hasRemaining()) {
                    throw new DataFormatException("too few numbers");
                }
                byte part = bytes.get();
                number |= (long) (part & SEVEN_BITS) << shift;
                if (part >= 0) {
                    return (number >>> 1) ^ -(number & 1);
                }
            }
            throw new DataFormatException("a number longer than 64 bits");
        }
    }
}
