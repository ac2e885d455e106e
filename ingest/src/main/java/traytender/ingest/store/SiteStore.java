package traytender.ingest.store;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import traytender.config.folder.SiteFolder;
import traytender.ingest.store.StoreException.Trouble;

/**
 * All that a site keeps in its {@code data} folder: readings, journal and alerts. Opened to write it holds the folder's lock, so
 * that one program at a time writes; opened to read it looks in from the side, also while another program writes.
 *
 * <p><b>Any thread may call.</b>
 */
public final class SiteStore implements AutoCloseable {
    private static final List<String> DATABASES = List.of("readings.db", "journal.db");

    /** How long a day is over before it is sealed: as long as late readings are still judged. Sealing earlier would lose nothing. */
    static final Duration LATENESS = Duration.ofDays(2);

    private final Path data;
    private final SqliteReadingStore readings;
    private final ReadingHistory history;
    private final JournalStore journal;
    private final boolean wasLeftOpen;
    private final List<Path> setAside;
    private final List<String> standingAside;
    private final @Nullable SiteLock lock;

    private SiteStore(
            Path data,
            SqliteReadingStore readings,
            ReadingHistory history,
            JournalStore journal,
            boolean wasLeftOpen,
            List<Path> setAside,
            List<String> standingAside,
            @Nullable SiteLock lock) {
        this.data = data;
        this.readings = readings;
        this.history = history;
        this.journal = journal;
        this.wasLeftOpen = wasLeftOpen;
        this.setAside = List.copyOf(setAside);
        this.standingAside = List.copyOf(standingAside);
        this.lock = lock;
    }

    /**
     * Opens the folder to read and write; it is made if missing. A damaged database is set aside whole and a new one begun:
     * {@link #setAside} tells.
     *
     * @param clock gives the date in the name of what is set aside
     * @throws SiteInUseException when another program writes to it
     * @throws StoreException when it cannot be opened
     */
    public static SiteStore open(Path data, Meaning meaning, Clock clock) {
        return open(data, meaning, clock, null);
    }

    private static SiteStore open(Path data, Meaning meaning, Clock clock, @Nullable InfluxReadingStore longTerm) {
        var lock = SiteLock.take(data);
        try {
            var setAside = new ArrayList<Path>();
            var leftOpen = DATABASES.stream()
                    .filter(name -> Damage.wasLeftOpen(data.resolve(name)))
                    .toList();
            // A power cut may have torn them.
            leftOpen.forEach(name -> Damage.suspect(data.resolve(name)));
            var readings = openOrBegin(data, "readings.db", clock, setAside, d -> SqliteReadingStore.open(d, meaning));
            try {
                if (!setAside.isEmpty()) {
                    // What the damaged one had, the long-term database may still have.
                    readings.noteRemovedBefore(clock.millis());
                }
                var journal = openOrBegin(data, "journal.db", clock, setAside, JournalStore::open);
                var history = history(readings, longTerm, meaning);
                return new SiteStore(
                        data,
                        readings,
                        history,
                        journal,
                        !leftOpen.isEmpty(),
                        setAside,
                        Damage.standingAside(data),
                        lock);
            } catch (RuntimeException e) {
                readings.close();
                throw e;
            }
        } catch (RuntimeException e) {
            lock.close();
            throw e;
        }
    }

    /**
     * Opens a site's {@code data} folder to read and write, as {@link #open(Path, Meaning, Clock)} does. From then on every reading
     * stored also goes into the outbox, when the site names a long-term database; {@link #influxOutbox} sends them.
     */
    public static SiteStore open(SiteFolder folder, Meaning meaning, Clock clock) {
        var store = open(folder.data(), meaning, clock, longTerm(folder, meaning));
        try {
            var influx = folder.site().store().influx();
            if (influx == null) {
                store.readings.outbox().shut();
            } else {
                store.readings.outbox().openFor(influx.url() + " " + influx.database());
            }
            return store;
        } catch (RuntimeException e) {
            store.close();
            throw e;
        }
    }

    private static @Nullable InfluxReadingStore longTerm(SiteFolder folder, Meaning meaning) {
        var influx = folder.site().store().influx();
        return influx == null ? null : InfluxReadingStore.at(influx, folder.path(), folder.site(), meaning);
    }

    /**
     * What sends readings to the site's long-term database; empty when it names none. Not started yet; whoever starts it closes it
     * before this store.
     *
     * @throws StoreException when the password or token file cannot be read
     */
    public Optional<InfluxOutbox> influxOutbox(SiteFolder folder, Meaning meaning) {
        return Optional.ofNullable(folder.site().store().influx())
                .map(influx -> InfluxOutbox.of(readings.outbox(), influx, folder.path(), folder.site(), meaning));
    }

    private static <T> T openOrBegin(Path data, String name, Clock clock, List<Path> setAside, Function<Path, T> open) {
        try {
            return open.apply(data);
        } catch (StoreException e) {
            if (e.trouble() != Trouble.DAMAGED) {
                throw e;
            }
            setAside.add(Damage.setAside(data.resolve(name), "damaged", clock.instant()));
            return open.apply(data);
        }
    }

    /**
     * Opens the folder to read, without its lock. A folder that has no databases yet, or older ones, is brought up first, which
     * takes the lock for a moment.
     *
     * @throws StoreException when it cannot be opened, also when it is damaged
     */
    public static SiteStore openToRead(Path data, Meaning meaning) {
        return openToRead(data, meaning, null);
    }

    /** Opens a site's {@code data} folder to read, as {@link #openToRead(Path, Meaning)} does, and its long-term database. */
    public static SiteStore openToRead(SiteFolder folder, Meaning meaning) {
        return openToRead(folder.data(), meaning, longTerm(folder, meaning));
    }

    private static SiteStore openToRead(Path data, Meaning meaning, @Nullable InfluxReadingStore longTerm) {
        if (isBehind(data.resolve("readings.db"), Schema.READINGS)
                || isBehind(data.resolve("journal.db"), Schema.JOURNAL)) {
            var lock = SiteLock.take(data);
            try {
                return openBoth(data, meaning, longTerm);
            } finally {
                lock.close();
            }
        }
        return openBoth(data, meaning, longTerm);
    }

    private static boolean isBehind(Path file, Schema schema) {
        return !Files.exists(file) || Database.versionOf(file, schema) < schema.version();
    }

    private static SiteStore openBoth(Path data, Meaning meaning, @Nullable InfluxReadingStore longTerm) {
        var readings = SqliteReadingStore.open(data, meaning);
        try {
            var history = history(readings, longTerm, meaning);
            return new SiteStore(data, readings, history, JournalStore.open(data), false, List.of(), List.of(), null);
        } catch (RuntimeException e) {
            readings.close();
            throw e;
        }
    }

    private static ReadingHistory history(
            SqliteReadingStore readings, @Nullable InfluxReadingStore longTerm, Meaning meaning) {
        return longTerm == null
                ? readings
                : new StretchHistory(
                        new JoinedStretch(longTerm.stretch(), readings.stretch(), readings::removedBeforeMs), meaning);
    }

    /** The readings on this disk. */
    public ReadingStore readings() {
        return readings;
    }

    /**
     * The readings on this disk and, from before them, those that only the long-term database still has. It is asked for nothing
     * newer.
     */
    public ReadingHistory history() {
        return history;
    }

    /** The journal and the alerts. */
    public JournalStore journal() {
        return journal;
    }

    /** How far unfinished imports have come. */
    public ImportPositions importPositions() {
        return readings.importPositions();
    }

    /** Databases that were found damaged at this opening and now stand aside under these names; the grower must be told. */
    public List<Path> setAside() {
        return setAside;
    }

    /** Whether the program before this one ended without closing it, by a power cut or a kill. */
    public boolean wasLeftOpen() {
        return wasLeftOpen;
    }

    /** Whether damage was met in a database since the opening. Opening anew then sets it aside, if it is so. */
    public boolean hasMetDamage() {
        return DATABASES.stream().anyMatch(name -> Damage.isSuspect(data.resolve(name)));
    }

    /** Names of all files in the folder that were set aside as damaged, now or at an earlier opening, and are still there. */
    public List<String> standingAside() {
        return standingAside;
    }

    /**
     * Removes readings older than the site keeps them, counted back from now, or from the newest reading where the program's
     * clock runs ahead of it: a clock that is wrong by years must not empty the store. What still waits to be sent to the long-term
     * database stays until it is there.
     *
     * @return how many readings went
     */
    public long removeOlderThan(Duration keep, Instant now) {
        return readings.newestTime()
                .map(newest -> (newest.isBefore(now) ? newest : now).minus(keep))
                .map(before -> {
                    var waits = Instant.ofEpochMilli(readings.outbox().oldestWaitingMs());
                    return readings.removeBefore(waits.isBefore(before) ? waits : before);
                })
                .orElse(0L);
    }

    /**
     * Seals the days that have been over for {@link #LATENESS}, counted back from now, or from the newest reading where the program's
     * clock runs ahead of it. What comes later for a sealed day is taken as ever.
     *
     * @param zone the site's
     * @return how many readings were sealed
     */
    public long sealDays(ZoneId zone, Instant now) {
        return readings.newestTime()
                .map(newest -> readings.sealBefore((newest.isBefore(now) ? newest : now).minus(LATENESS), zone))
                .orElse(0L);
    }

    @Override
    public void close() {
        // The lock goes last: until then nobody else may open the folder.
        var failures = new ArrayList<RuntimeException>();
        closeOne(journal::close, failures);
        closeOne(readings::close, failures);
        if (lock != null) {
            closeOne(lock::close, failures);
        }
        if (!failures.isEmpty()) {
            var first = failures.get(0);
            failures.subList(1, failures.size()).forEach(first::addSuppressed);
            throw first;
        }
    }

    private static void closeOne(Runnable close, List<RuntimeException> failures) {
        try {
            close.run();
        } catch (RuntimeException e) {
            failures.add(e);
        }
    }
}
