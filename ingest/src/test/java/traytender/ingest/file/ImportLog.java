package traytender.ingest.file;

import java.util.ArrayList;
import java.util.List;

/** Keeps what an import says. */
final class ImportLog implements ImportListener {
    final List<String> rejected = new ArrayList<>();
    final List<Long> progress = new ArrayList<>();

    @Override
    public void progress(long doneBytes, long totalBytes) {
        progress.add(100 * doneBytes / Math.max(1, totalBytes));
    }

    @Override
    public void rejected(long line, String reason) {
        rejected.add(line + ": " + reason);
    }
}
