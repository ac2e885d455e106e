package traytender.rules;

import java.util.Arrays;
import traytender.config.reading.Reading;

/** One probe's newest readings in order of time, so that a tray can be taken back and run again. <b>Not thread-safe.</b> */
final class ProbeMemory {
    private final String probe;
    private long[] timesMs = new long[64];
    private double[] values = new double[64];
    private double[] raws = new double[64];
    private int[] marks = new int[64];
    private int size;

    ProbeMemory(String probe) {
        this.probe = probe;
    }

    /** Puts a reading in its place; false when one of that time is there already. */
    boolean add(Reading reading) {
        int at = firstNotBefore(reading.timeMs());
        if (at < size && timesMs[at] == reading.timeMs()) {
            return false;
        }
        if (size == timesMs.length) {
            grow();
        }
        int moved = size - at;
        System.arraycopy(timesMs, at, timesMs, at + 1, moved);
        System.arraycopy(values, at, values, at + 1, moved);
        System.arraycopy(raws, at, raws, at + 1, moved);
        System.arraycopy(marks, at, marks, at + 1, moved);
        timesMs[at] = reading.timeMs();
        values[at] = reading.value();
        raws[at] = reading.raw();
        marks[at] = reading.marks();
        size++;
        return true;
    }

    private void grow() {
        int room = 2 * size;
        timesMs = Arrays.copyOf(timesMs, room);
        values = Arrays.copyOf(values, room);
        raws = Arrays.copyOf(raws, room);
        marks = Arrays.copyOf(marks, room);
    }

    /** Index of the first reading not before a time. */
    int firstNotBefore(long timeMs) {
        if (size > 0 && timeMs > timesMs[size - 1]) {
            return size;
        }
        int found = Arrays.binarySearch(timesMs, 0, size, timeMs);
        return found >= 0 ? found : -found - 1;
    }

    int size() {
        return size;
    }

    long timeMs(int index) {
        return timesMs[index];
    }

    Reading get(int index) {
        return new Reading(probe, timesMs[index], values[index], raws[index], marks[index]);
    }

    String probe() {
        return probe;
    }

    /** Forgets everything before a time. */
    void forgetBefore(long timeMs) {
        int gone = firstNotBefore(timeMs);
        if (gone < size / 4 + 16) {
            return;
        }
        int kept = size - gone;
        System.arraycopy(timesMs, gone, timesMs, 0, kept);
        System.arraycopy(values, gone, values, 0, kept);
        System.arraycopy(raws, gone, raws, 0, kept);
        System.arraycopy(marks, gone, marks, 0, kept);
        size = kept;
    }
}
