package traytender.dashboard.command;

import java.io.BufferedWriter;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.Writer;
import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import traytender.dashboard.program.ProgramException;
import traytender.ingest.file.AtomicFile;

/** Where a command writes what was asked for: a file, whole or not at all, or standard output. */
final class Output {
    private Output() {}

    /** What is written. */
    @FunctionalInterface
    interface Content {
        void to(Writer writer) throws IOException;
    }

    /**
     * Writes it.
     *
     * @param file null for standard output
     * @throws ProgramException when it cannot be written
     */
    static void write(@Nullable Path file, PrintWriter standard, Content content) {
        try {
            if (file != null) {
                AtomicFile.write(file, content::to);
                return;
            }
            var buffered = new BufferedWriter(standard);
            content.to(buffered);
            buffered.flush();
        } catch (IOException e) {
            throw new ProgramException(
                    "cannot write " + (file == null ? "standard output" : file) + ": " + e.getMessage(), e);
        }
        if (standard.checkError()) {
            throw new ProgramException("cannot write standard output");
        }
    }
}
