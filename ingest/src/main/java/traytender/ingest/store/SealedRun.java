package traytender.ingest.store;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.zip.DataFormatException;

/**
 * One probe's readings of a day, or a part of it, in columns, exact to the bit. The {@link SealedNumbers} of its content are:
 *
 * <pre>
 * step, divisor                                what most times differ by, in ms; see below
 * first time, then each time's difference from the one before, less the step
 * first value, then each value's difference from the one before
 * each reading's marks
 * </pre>
 *
 * A raw value is its whole number divided by the divisor, as IEEE 754 divides: the smallest divisor of a few that gives every value
 * back to the bit. Where none does, the divisor is 0 and the whole number is the value's own 64 bits. Differences wrap around.
 */
final class SealedRun {
    /** What sensors' values are multiples of: counts, sixteenths of a degree, tenths, hundredths. */
    private static final int[] DIVISORS = {1, 2, 4, 8, 10, 16, 32, 64, 100, 128, 256, 1_000, 10_000, 100_000, 1_000_000
    };
    /** Beyond this not every whole number is a double. */
    private static final double LARGEST = 1L << 53;

    /** Readings in a run at most: as many as are read ahead of one probe in one piece, or twice that. */
    static final int MOST = 4_096;

    /** Numbers before the columns. */
    private static final int HEAD = 2;

    private SealedRun() {}

    /** @param readings of one probe, in order of time, each time once; 1 to {@link #MOST} */
    static byte[] content(List<RawReading> readings) {
        var numbers = new SealedNumbers.Writer(HEAD + 3 * readings.size());
        long step = step(readings);
        int divisor = divisor(readings);
        numbers.put(step);
        numbers.put(divisor);
        long before = readings.get(0).timeMs();
        numbers.put(before);
        for (var reading : readings.subList(1, readings.size())) {
            numbers.put(reading.timeMs() - before - step);
            before = reading.timeMs();
        }
        before = 0;
        for (var reading : readings) {
            long whole = whole(reading.raw(), divisor);
            numbers.put(whole - before);
            before = whole;
        }
        readings.forEach(reading -> numbers.put(reading.marks()));
        return numbers.packed();
    }

    private static long step(List<RawReading> readings) {
        if (readings.size() == 1) {
            return 0;
        }
        var steps = new long[readings.size() - 1];
        Arrays.setAll(steps, i -> readings.get(i + 1).timeMs() - readings.get(i).timeMs());
        Arrays.sort(steps);
        return steps[steps.length / 2];
    }

    private static int divisor(List<RawReading> readings) {
        return Arrays.stream(DIVISORS)
                .filter(divisor -> readings.stream().allMatch(reading -> isExact(reading.raw(), divisor)))
                .findFirst()
                .orElse(0);
    }

    private static boolean isExact(double raw, int divisor) {
        double whole = Math.rint(raw * divisor);
        return Math.abs(whole) < LARGEST && whole / divisor == raw;
    }

    private static long whole(double raw, int divisor) {
        return divisor == 0 ? Double.doubleToRawLongBits(raw) : (long) Math.rint(raw * divisor);
    }

    /**
     * The readings again.
     *
     * @param count how many there are
     * @throws DataFormatException when the content is damaged
     */
    static List<RawReading> readings(String probe, int count, byte[] content) throws DataFormatException {
        if (count < 1 || count > MOST) {
            throw new DataFormatException(count + " readings in a run");
        }
        var numbers = new SealedNumbers.Reader(content, HEAD + 3 * count);
        long step = numbers.next();
        long divisor = numbers.next();
        var times = new long[count];
        times[0] = numbers.next();
        for (int i = 1; i < count; i++) {
            times[i] = times[i - 1] + step + numbers.next();
        }
        var raws = new double[count];
        long whole = 0;
        for (int i = 0; i < count; i++) {
            whole += numbers.next();
            raws[i] = divisor == 0 ? Double.longBitsToDouble(whole) : whole / (double) divisor;
        }
        var readings = new ArrayList<RawReading>(count);
        for (int i = 0; i < count; i++) {
            readings.add(new RawReading(probe, times[i], raws[i], (int) numbers.next()));
        }
        return readings;
    }
}
