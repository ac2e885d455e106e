package traytender.dashboard.program;

import java.time.Clock;
import traytender.config.folder.SiteFolder;
import traytender.ingest.calibrate.Calibrator;
import traytender.ingest.store.Meaning;
import traytender.ingest.store.SiteStore;

/** A site's store, with the calibrations that give raw values their meaning. */
public final class Stores {
    /** What a raw value means. */
    public static final Meaning MEANING = Calibrator::read;

    private Stores() {}

    /**
     * Opens it to read and write; nobody else may while it is open.
     *
     * @throws traytender.ingest.store.SiteInUseException when another program writes to it
     */
    public static SiteStore toWrite(SiteFolder folder, Clock clock) {
        return SiteStore.open(folder, MEANING, clock);
    }

    /** Opens it to read, also while another program writes to it. */
    public static SiteStore toRead(SiteFolder folder) {
        return SiteStore.openToRead(folder, MEANING);
    }
}
