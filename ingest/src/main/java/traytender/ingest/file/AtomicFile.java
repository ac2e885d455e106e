package traytender.ingest.file;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.BufferedWriter;
import java.io.IOException;
import java.io.OutputStream;
import java.io.OutputStreamWriter;
import java.io.Writer;
import java.nio.channels.Channels;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;

/** Writes a file that is there whole or not at all: under another name first, then renamed. */
public final class AtomicFile {
    /** What is written. */
    @FunctionalInterface
    public interface Content {
        void writeTo(Writer out) throws IOException;
    }

    private AtomicFile() {}

    /**
     * Writes UTF-8 text. What is no regular file, such as a pipe, is written directly.
     *
     * @throws IOException when it cannot be written; a file that was there before is then unchanged
     */
    public static void write(Path file, Content content) throws IOException {
        writeBytes(file, out -> {
            var writer = new BufferedWriter(new OutputStreamWriter(out, UTF_8));
            content.writeTo(writer);
            writer.flush();
        });
    }

    /** As {@link #write(Path, Content)}, of bytes. */
    public static void write(Path file, byte[] bytes) throws IOException {
        writeBytes(file, out -> out.write(bytes));
    }

    @FunctionalInterface
    private interface Bytes {
        void writeTo(OutputStream out) throws IOException;
    }

    private static void writeBytes(Path file, Bytes bytes) throws IOException {
        if (Files.exists(file) && !Files.isRegularFile(file)) {
            try (var out = Files.newOutputStream(file)) {
                bytes.writeTo(out);
            }
            return;
        }
        var part = file.resolveSibling(file.getFileName() + ".part");
        try {
            writeThrough(part, bytes);
            Files.move(part, file, StandardCopyOption.REPLACE_EXISTING, StandardCopyOption.ATOMIC_MOVE);
        } finally {
            Files.deleteIfExists(part);
        }
    }

    private static void writeThrough(Path part, Bytes bytes) throws IOException {
        try (var channel = FileChannel.open(
                        part,
                        StandardOpenOption.CREATE,
                        StandardOpenOption.WRITE,
                        StandardOpenOption.TRUNCATE_EXISTING);
                var out = Channels.newOutputStream(channel)) {
            bytes.writeTo(out);
            // The name must not be on disk before the content is.
            channel.force(true);
        }
    }
}
