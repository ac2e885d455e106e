package traytender.ingest.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.sqlite.SQLiteJDBCLoader;
import org.sqlite.util.LibraryLoaderUtil;

/**
 * SQLite's native library, unpacked once into a place that stays. Left to itself the driver unpacks a new copy of 1 MB into the
 * temporary folder at every start, and a killed program leaves it there for good.
 */
final class NativeLibrary {
    private static final Logger LOG = LoggerFactory.getLogger(NativeLibrary.class);
    private static boolean unpacked;

    private NativeLibrary() {}

    /**
     * Unpacks the library, unless this process has one already or {@code org.sqlite.lib.path} names one. When the folder cannot
     * be written the driver goes its own way.
     */
    static synchronized void unpackInto(Path folder) {
        if (unpacked || System.getProperty("org.sqlite.lib.path") != null) {
            return;
        }
        unpacked = true;
        var name = SQLiteJDBCLoader.getVersion() + "-" + LibraryLoaderUtil.getNativeLibName();
        try {
            unpack(folder, name);
            System.setProperty("org.sqlite.lib.path", folder.toString());
            System.setProperty("org.sqlite.lib.name", name);
        } catch (IOException e) {
            LOG.debug("SQLite's library stays in the temporary folder: {}", e.toString());
        }
    }

    private static void unpack(Path folder, String name) throws IOException {
        var resource = LibraryLoaderUtil.getNativeLibResourcePath() + "/" + LibraryLoaderUtil.getNativeLibName();
        try (var in = SQLiteJDBCLoader.class.getResourceAsStream(resource)) {
            if (in == null) {
                throw new IOException("no " + resource);
            }
            var bytes = in.readAllBytes();
            var target = folder.resolve(name);
            if (Files.exists(target) && Files.size(target) == bytes.length) {
                return;
            }
            Files.createDirectories(folder);
            removeOthers(folder);
            var part = folder.resolve(name + ".part");
            Files.write(part, bytes);
            Files.move(part, target, StandardCopyOption.REPLACE_EXISTING, StandardCopyOption.ATOMIC_MOVE);
        }
    }

    /** Copies of earlier versions would pile up over the years. */
    private static void removeOthers(Path folder) throws IOException {
        try (var files = Files.newDirectoryStream(folder, "*sqlitejdbc*")) {
            for (var file : files) {
                Files.deleteIfExists(file);
            }
        }
    }
}
