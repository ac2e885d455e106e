package traytender.ingest.broker;

import java.util.concurrent.TimeUnit;
import java.util.function.LongSupplier;

/**
 * How fast one connection may send: what it has not used for a while it may send at once, up to a burst; then as much a second as
 * is its share. What came beyond that is owed, and waited for. <b>Used by one thread.</b>
 */
final class Pace {
    private final Share share;
    private final LongSupplier nanos;
    private double left;
    private long lastNanos;

    /**
     * What a connection may send.
     *
     * @param burst how many pieces at once, after a quiet time
     * @param perSecond how many pieces a second for as long as it likes
     */
    record Share(int burst, int perSecond) {
        /** For a device on the network; our choice: a day of a probe's readings, kept while it had no connection, come at once. */
        static final Share DEVICE = new Share(2_000, 500);
        /** For programs on this machine, such as one that passes on the messages of many radio sensors; our choice. */
        static final Share THIS_MACHINE = new Share(2_000, 5_000);
        /** What everybody may send while many messages wait already; our choice, as much as the probes of ten trays send. */
        static final Share MODEST = new Share(60, 10);
    }

    /** Of a connection that has just come. */
    Pace(Share share, LongSupplier nanos) {
        this.share = share;
        this.nanos = nanos;
        this.left = share.burst();
        this.lastNanos = nanos.getAsLong();
    }

    /**
     * So much came.
     *
     * @return how long nothing more may come, in ns; 0 when more may come at once
     */
    long spend(int pieces) {
        long now = nanos.getAsLong();
        double earned = (now - lastNanos) / 1e9 * share.perSecond();
        lastNanos = now;
        left = Math.min(share.burst(), left + earned) - pieces;
        return left >= 0 ? 0 : (long) Math.ceil(-left / share.perSecond() * TimeUnit.SECONDS.toNanos(1));
    }
}
