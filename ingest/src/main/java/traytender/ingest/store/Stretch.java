package traytender.ingest.store;

import java.util.List;
import java.util.Optional;

/**
 * One stretch of history: raw readings by probe and time, wherever they are kept. What lies in several places is read as one by
 * {@link JoinedStretch}.
 *
 * <p><b>Any thread may call.</b> Every method throws {@link StoreException} when what keeps the readings fails.
 */
interface Stretch {
    /**
     * A probe's next readings, in order of time, each time once.
     *
     * @param fromMs inclusive
     * @param toMs exclusive
     * @param wanted at least 1; fewer come only when there are no more before {@code toMs}, more where they are kept together
     */
    List<RawReading> next(String probe, long fromMs, long toMs, int wanted);

    /** The probe's newest reading by its own time. */
    Optional<RawReading> last(String probe);

    /** First and last time of every probe that has readings here, in order of probe id. */
    List<Extent> extents();
}
