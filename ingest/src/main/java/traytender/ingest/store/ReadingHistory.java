package traytender.ingest.store;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import traytender.config.reading.Reading;
import traytender.config.reading.ReadingSource;
import traytender.config.site.Probe;
import traytender.config.site.Site;

/**
 * Readings as they can be asked for, wherever they are kept; what a raw value means is worked out on every read. <b>Any thread may
 * call.</b> Every method throws {@link StoreException} when what keeps them fails.
 */
public interface ReadingHistory {
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

    /** First and last time of every probe that has readings, in order of probe id. */
    List<Extent> extents();
}
