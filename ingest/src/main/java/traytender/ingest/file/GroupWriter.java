package traytender.ingest.file;

import java.util.ArrayList;
import java.util.List;
import traytender.ingest.store.ImportPositions;
import traytender.ingest.store.RawReading;
import traytender.ingest.store.ReadingStore;

/** Collects an import's readings into groups, stores them, remembers how far the file is in, and counts. */
final class GroupWriter {
    /** Readings stored in one transaction: with 5,000 the disk's own wait for a commit hardly counts (measured: 250-320 k/s). */
    private static final int GROUP = 5_000;

    /** Groups between two notes of the position, each a commit of its own. Our choice. */
    private static final int GROUPS_A_NOTE = 10;

    private final ReadingStore store;
    private final ImportPositions positions;
    private final ImportListener listener;
    private final String identity;
    private final long totalBytes;
    private final List<RawReading> group = new ArrayList<>(GROUP);
    private int groupsSinceNote;
    private long stored;
    private long repeated;
    private long rejected;

    GroupWriter(
            ReadingStore store, ImportPositions positions, ImportListener listener, String identity, long totalBytes) {
        this.store = store;
        this.positions = positions;
        this.listener = listener;
        this.identity = identity;
        this.totalBytes = totalBytes;
    }

    void add(RawReading reading) {
        group.add(reading);
    }

    void reject(long line, String reason) {
        rejected++;
        listener.rejected(line, reason);
    }

    /**
     * Stores the group when it is full.
     *
     * @param position where the file would be read on
     * @param doneBytes for the listener
     */
    void storeWhenFull(long position, long doneBytes) {
        if (group.size() < GROUP) {
            return;
        }
        store();
        groupsSinceNote++;
        if (groupsSinceNote == GROUPS_A_NOTE) {
            groupsSinceNote = 0;
            positions.remember(identity, position);
        }
        listener.progress(doneBytes, totalBytes);
    }

    /** Stores what is left; the file is in. */
    ImportResult finish(long resumedAt) {
        store();
        positions.forget(identity);
        listener.progress(totalBytes, totalBytes);
        return new ImportResult(stored, repeated, rejected, resumedAt);
    }

    private void store() {
        var result = store.append(group);
        stored += result.stored();
        repeated += result.repeated();
        group.clear();
    }
}
