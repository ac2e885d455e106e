package traytender.ingest.store;

import java.sql.PreparedStatement;
import java.sql.SQLException;
import traytender.config.site.Probe;

/** Where a scan stands in one probe's readings: a small piece read ahead, and the place to read on from. */
final class ProbeCursor implements Comparable<ProbeCursor> {
    /** Readings read ahead of one probe; 20 bytes each, so 2,000 probes take 20 MB. Our choice. */
    static final int PIECE = 512;

    private final Probe probe;
    private final int number;
    private final long[] times = new long[PIECE];
    private final double[] raws = new double[PIECE];
    private final int[] marks = new int[PIECE];
    private long nextFromMs;
    private int size;
    private int at;
    private boolean exhausted;

    ProbeCursor(Probe probe, int number, long fromMs) {
        this.probe = probe;
        this.number = number;
        this.nextFromMs = fromMs;
    }

    /**
     * Reads the next piece when this one is used up.
     *
     * @param select asks for probe, from (inclusive), to (exclusive), in order of time, at most {@link #PIECE} rows
     * @return whether there is a reading at this cursor
     */
    boolean fill(PreparedStatement select, long toMs) throws SQLException {
        if (at < size) {
            return true;
        }
        if (exhausted) {
            return false;
        }
        select.setInt(1, number);
        select.setLong(2, nextFromMs);
        select.setLong(3, toMs);
        at = 0;
        size = 0;
        try (var rows = select.executeQuery()) {
            while (rows.next()) {
                times[size] = rows.getLong(1);
                raws[size] = rows.getDouble(2);
                marks[size] = rows.getInt(3);
                size++;
            }
        }
        exhausted = size < PIECE;
        if (size > 0) {
            nextFromMs = times[size - 1] + 1;
        }
        return size > 0;
    }

    Probe probe() {
        return probe;
    }

    RawReading take() {
        var reading = new RawReading(probe.id(), times[at], raws[at], marks[at]);
        at++;
        return reading;
    }

    @Override
    public int compareTo(ProbeCursor other) {
        var byTime = Long.compare(times[at], other.times[other.at]);
        return byTime != 0 ? byTime : probe.id().compareTo(other.probe.id());
    }
}
