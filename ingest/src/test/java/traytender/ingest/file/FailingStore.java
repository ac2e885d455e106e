package traytender.ingest.file;

import java.util.List;
import traytender.ingest.store.AppendResult;
import traytender.ingest.store.ForwardingStore;
import traytender.ingest.store.RawReading;
import traytender.ingest.store.ReadingStore;

/** A real store that breaks down after so many readings, as a program does that is killed. */
final class FailingStore extends ForwardingStore {
    private long left;

    FailingStore(ReadingStore store, long left) {
        super(store);
        this.left = left;
    }

    @Override
    public AppendResult append(List<RawReading> readings) {
        left -= readings.size();
        if (left < 0) {
            throw new IllegalStateException("broken down");
        }
        return super.append(readings);
    }
}
