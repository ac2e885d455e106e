package traytender.dashboard.command;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.stream.Stream;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import traytender.ingest.store.SiteLock;
import traytender.ingest.store.StoreException;

/** Where the demo keeps its nursery: a folder that somebody named, or a temporary one that goes at the end. */
record DemoFolder(Path path, boolean isTemporary) implements AutoCloseable {
    private static final Logger log = LoggerFactory.getLogger(DemoFolder.class);
    private static final String PREFIX = "traytender-demo-";

    static DemoFolder named(Path path) {
        return new DemoFolder(path, false);
    }

    /** A new temporary folder; those of demos that were killed are removed, so that they do not heap up. */
    static DemoFolder temporary() {
        try {
            Path folder = Files.createTempDirectory(PREFIX);
            removeLeftOver(folder);
            return new DemoFolder(folder, true);
        } catch (IOException e) {
            throw new UncheckedIOException("no temporary folder can be made: " + e.getMessage(), e);
        }
    }

    private static void removeLeftOver(Path own) throws IOException {
        try (DirectoryStream<Path> folders =
                Files.newDirectoryStream(own.toAbsolutePath().getParent(), PREFIX + "*")) {
            for (Path folder : folders) {
                if (!folder.equals(own) && Files.isDirectory(folder.resolve("data")) && isLeft(folder)) {
                    remove(folder);
                }
            }
        }
    }

    /** Whether no program writes to it any more. */
    private static boolean isLeft(Path folder) {
        try {
            SiteLock.take(folder.resolve("data")).close();
            return true;
        } catch (StoreException e) {
            return false;
        }
    }

    private static void remove(Path folder) {
        try (Stream<Path> files = Files.walk(folder)) {
            for (Path file : files.sorted(Comparator.reverseOrder()).toList()) {
                Files.deleteIfExists(file);
            }
        } catch (IOException | UncheckedIOException e) {
            log.debug("{} could not be removed", folder, e);
        }
    }

    @Override
    public void close() {
        if (isTemporary) {
            remove(path);
        }
    }
}
