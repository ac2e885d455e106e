package traytender.dashboard.command;

import java.io.PrintWriter;
import java.nio.file.Path;
import me.tongfei.progressbar.ProgressBar;
import me.tongfei.progressbar.ProgressBarBuilder;
import org.jspecify.annotations.Nullable;
import traytender.ingest.file.ImportListener;

/** Shows how far an import has come, where somebody watches it on a terminal, and tells of rejected lines. */
final class ImportProgress implements ImportListener, AutoCloseable {
    /** Set by bin/traytender, since Java itself can only guess whether its standard error is a terminal. */
    private static final String TERMINAL = "traytender.terminal";

    private static final long KIB = 1024;

    private final RejectedLines rejected;
    private final @Nullable ProgressBar bar;

    private ImportProgress(RejectedLines rejected, @Nullable ProgressBar bar) {
        this.rejected = rejected;
        this.bar = bar;
    }

    static ImportProgress of(Path file, PrintWriter err) {
        var rejected = new RejectedLines(file, err);
        // Piped into a file or a log, a bar would be a heap of control characters.
        if (!Boolean.getBoolean(TERMINAL)) {
            return new ImportProgress(rejected, null);
        }
        var bar = new ProgressBarBuilder()
                .setTaskName(String.valueOf(file.getFileName()))
                .setUnit(" KiB", KIB)
                .build();
        return new ImportProgress(rejected, bar);
    }

    @Override
    public void progress(long doneBytes, long totalBytes) {
        if (bar != null) {
            bar.maxHint(totalBytes);
            bar.stepTo(doneBytes);
        }
    }

    @Override
    public void rejected(long line, String reason) {
        rejected.rejected(line, reason);
    }

    @Override
    public void close() {
        if (bar != null) {
            bar.close();
        }
    }
}
