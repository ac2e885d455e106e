package traytender.ingest.store;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import traytender.config.reading.Reading;
import traytender.config.reading.ReadingSource;
import traytender.config.site.Probe;
import traytender.config.site.Site;

/**
 * Every reading of a site, kept raw. A reading is known by its probe and time: the first one stays, a repeated one changes
 * nothing.
 *
 * <p><b>Any thread may call.</b> Appends from several threads come one after the other. Every method throws
 * {@link StoreException} when the disk or the database fails; an append that throws has stored nothing.
 */
public interface ReadingStore extends AutoCloseable {
    /** Stores the readings as one group; all of them are on disk when it returns. */
    AppendResult append(List<RawReading> readings);

    /** The readings of the site's probes, as {@link #source(List)} gives them. */
    default ReadingSource source(Site site) {
        return source(site.probes());
    }

    /**
     * The readings of some probes, in the order of evaluation. Each scan reads the store anew in small pieces; its memory does not
     * grow with the number of readings.
     */
    ReadingSource source(List<Probe> probes);

    /** One probe's readings in order of time, {@code from} inclusive, {@code to} exclusive. */
    List<Reading> readings(Probe probe, Instant from, Instant to);

    /** The probe's newest reading by its own time. */
    Optional<Reading> latest(Probe probe);

    /** The newest time of all readings of all probes, those no longer in the site file included. */
    Optional<Instant> newestTime();

    /** How many readings there are. Counts them one by one. */
    long count();

    /** First and last time of every probe that has readings, in order of probe id. */
    List<Extent> extents();

    /**
     * Removes what is older, a little at a time, so that appends are never held up for long.
     *
     * @return how many readings went
     */
    long removeBefore(Instant time);

    @Override
    void close();
}
