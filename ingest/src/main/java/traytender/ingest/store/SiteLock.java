package traytender.ingest.store;

import static java.nio.charset.StandardCharsets.US_ASCII;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.OverlappingFileLockException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;

/**
 * The right to write to a site's {@code data} folder, held from {@link #take} to {@link #close}. It is a lock of the operating
 * system on the file {@code data/lock}, so it ends with the process, however that ends; the file stays and means nothing.
 */
public final class SiteLock implements AutoCloseable {
    /** Behind what is written there: on some systems nobody else may read a locked part, and the holder's number must be read. */
    private static final long LOCKED_AT = 1L << 20;

    private final FileChannel channel;

    private SiteLock(FileChannel channel) {
        this.channel = channel;
    }

    /**
     * Takes the lock of a {@code data} folder, which is made if missing.
     *
     * @throws SiteInUseException when it is taken
     * @throws StoreException when the folder cannot be written
     */
    public static SiteLock take(Path data) {
        try {
            Files.createDirectories(data);
            var channel = FileChannel.open(
                    data.resolve("lock"), StandardOpenOption.CREATE, StandardOpenOption.READ, StandardOpenOption.WRITE);
            try {
                if (channel.tryLock(LOCKED_AT, 1, false) == null) {
                    throw new SiteInUseException(data, holder(channel), null);
                }
                sign(channel);
                return new SiteLock(channel);
            } catch (OverlappingFileLockException e) {
                var holder = holder(channel);
                channel.close();
                throw new SiteInUseException(data, holder, e);
            } catch (IOException | RuntimeException e) {
                channel.close();
                throw e;
            }
        } catch (IOException e) {
            throw Troubles.of(e, data.toString());
        }
    }

    private static void sign(FileChannel channel) throws IOException {
        channel.truncate(0);
        channel.write(
                ByteBuffer.wrap(Long.toString(ProcessHandle.current().pid()).getBytes(US_ASCII)), 0);
    }

    private static String holder(FileChannel channel) throws IOException {
        var bytes = ByteBuffer.allocate(20);
        channel.read(bytes, 0);
        return new String(bytes.array(), 0, bytes.position(), US_ASCII).strip();
    }

    @Override
    public void close() {
        try {
            channel.close();
        } catch (IOException e) {
            throw Troubles.of(e, "data/lock");
        }
    }
}
