package traytender.dashboard.command;

import java.io.PrintWriter;
import java.nio.file.Path;
import traytender.ingest.file.ImportListener;

/** Tells of every rejected line by its number. */
final class RejectedLines implements ImportListener {
    private final Path file;
    private final PrintWriter err;

    RejectedLines(Path file, PrintWriter err) {
        this.file = file;
        this.err = err;
    }

    @Override
    public void progress(long doneBytes, long totalBytes) {}

    @Override
    public void rejected(long line, String reason) {
        err.println(file + ":" + line + ": " + reason);
    }
}
