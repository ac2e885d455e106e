package traytender.ingest.store;

import java.time.Instant;
import java.util.List;
import java.util.Optional;

/**
 * Every reading of a site, kept raw. A reading is known by its probe and time: the first one stays, a repeated one changes
 * nothing.
 *
 * <p><b>Any thread may call.</b> Appends from several threads come one after the other. Every method throws
 * {@link StoreException} when the disk or the database fails; an append that throws has stored nothing.
 */
public interface ReadingStore extends ReadingHistory, AutoCloseable {
    /** Stores the readings as one group; all of them are on disk when it returns. */
    AppendResult append(List<RawReading> readings);

    /** The newest time of all readings of all probes, those no longer in the site file included. */
    Optional<Instant> newestTime();

    /** How many readings there are. Counts them one by one. */
    long count();

    /**
     * Removes what is older, a little at a time, so that appends are never held up for long.
     *
     * @return how many readings went
     */
    long removeBefore(Instant time);

    @Override
    void close();
}
