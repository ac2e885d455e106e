package traytender.ingest.store;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Clock;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.zip.ZipEntry;
import java.util.zip.ZipException;
import java.util.zip.ZipInputStream;
import java.util.zip.ZipOutputStream;
import traytender.ingest.store.StoreException.Trouble;

/**
 * A whole site in one zip file: both databases, {@code site.yaml} and {@code crops/*.yaml}. No passwords and no keys. It may be
 * written while the program runs: each database is as it stood at one moment.
 */
public final class SiteBackup {
    private static final Map<String, Schema> DATABASES = databases();

    private SiteBackup() {}

    private static Map<String, Schema> databases() {
        var databases = new LinkedHashMap<String, Schema>();
        databases.put("readings.db", Schema.READINGS);
        databases.put("journal.db", Schema.JOURNAL);
        return databases;
    }

    /**
     * Writes the backup; it is there whole or not at all.
     *
     * @param folder the site folder
     * @param file replaced when it is there already
     * @throws StoreException when a database cannot be read, or the file cannot be written
     */
    public static void write(Path folder, Path file) {
        var part = beside(file, ".part");
        try {
            try (var zip = new ZipOutputStream(new BufferedOutputStream(Files.newOutputStream(part)))) {
                for (var name : DATABASES.keySet()) {
                    addDatabase(zip, folder.resolve("data").resolve(name), beside(file, "." + name + ".part"));
                }
                for (var yaml : ownersFiles(folder)) {
                    add(zip, folder.relativize(yaml).toString().replace('\\', '/'), yaml);
                }
            }
            Files.move(part, file, StandardCopyOption.REPLACE_EXISTING, StandardCopyOption.ATOMIC_MOVE);
        } catch (IOException e) {
            throw Troubles.of(e, file.toString());
        } finally {
            delete(part);
        }
    }

    private static Path beside(Path file, String ending) {
        return file.toAbsolutePath().resolveSibling(file.getFileName() + ending);
    }

    private static void addDatabase(ZipOutputStream zip, Path database, Path copy) throws IOException {
        if (!Files.exists(database)) {
            throw new StoreException(
                    Trouble.OTHER, database + " is not there; the program has not run in this folder yet", null);
        }
        try {
            Files.deleteIfExists(copy);
            Database.copy(database, copy);
            add(zip, "data/" + database.getFileName(), copy);
        } finally {
            delete(copy);
        }
    }

    private static void add(ZipOutputStream zip, String name, Path content) throws IOException {
        zip.putNextEntry(new ZipEntry(name));
        Files.copy(content, zip);
        zip.closeEntry();
    }

    private static List<Path> ownersFiles(Path folder) throws IOException {
        var files = new ArrayList<Path>();
        if (Files.exists(folder.resolve("site.yaml"))) {
            files.add(folder.resolve("site.yaml"));
        }
        if (Files.isDirectory(folder.resolve("crops"))) {
            try (var crops = Files.newDirectoryStream(folder.resolve("crops"), "*.yaml")) {
                crops.forEach(files::add);
            }
        }
        files.sort(null);
        return files;
    }

    /**
     * Puts a backup's databases in place. Those that are there are set aside whole under dated names; {@code site.yaml} and crop
     * files come back only where there is none of the name. Nothing is changed unless the whole backup is good.
     *
     * @param folder the site folder, made if missing
     * @return the names of what was set aside
     * @throws SiteInUseException when the program runs in the folder
     * @throws StoreException when the file is no such backup, is damaged, or comes from a newer program
     */
    public static List<Path> restore(Path folder, Path file, Clock clock) {
        var data = folder.resolve("data");
        var lock = SiteLock.take(data);
        var unpacked = data.resolve("restore.part");
        NativeLibrary.unpackInto(data.resolve("native"));
        try {
            deleteAll(unpacked);
            unpack(file, unpacked);
            for (var database : DATABASES.entrySet()) {
                Database.checkWhole(unpacked.resolve("data").resolve(database.getKey()), database.getValue());
            }
            return putInPlace(folder, unpacked, clock);
        } catch (ZipException e) {
            throw new StoreException(Trouble.DAMAGED, file + " is no whole backup (" + e.getMessage() + ")", e);
        } catch (IOException e) {
            throw Troubles.of(e, file.toString());
        } finally {
            deleteAll(unpacked);
            lock.close();
        }
    }

    private static void unpack(Path file, Path unpacked) throws IOException {
        try (var zip = new ZipInputStream(Files.newInputStream(file))) {
            for (var entry = zip.getNextEntry(); entry != null; entry = zip.getNextEntry()) {
                if (isOurs(entry.getName())) {
                    copy(zip, unpacked.resolve(entry.getName()));
                }
            }
        }
        for (var name : DATABASES.keySet()) {
            if (!Files.exists(unpacked.resolve("data").resolve(name))) {
                throw new StoreException(Trouble.OTHER, file + " is no backup of a site: it has no data/" + name, null);
            }
        }
    }

    /** Only names that a backup has: a made-up one could name a file anywhere. */
    private static boolean isOurs(String name) {
        return name.equals("site.yaml")
                || (name.startsWith("data/") && DATABASES.containsKey(name.substring(5)))
                || name.matches("crops/[^/\\\\]+\\.yaml");
    }

    private static void copy(InputStream in, Path target) throws IOException {
        Files.createDirectories(target.getParent());
        Files.copy(in, target, StandardCopyOption.REPLACE_EXISTING);
    }

    private static List<Path> putInPlace(Path folder, Path unpacked, Clock clock) throws IOException {
        var aside = new ArrayList<Path>();
        for (var name : DATABASES.keySet()) {
            var database = folder.resolve("data").resolve(name);
            if (Files.exists(database)) {
                aside.add(Damage.setAside(database, "before-restore", clock.instant()));
            }
            Files.move(unpacked.resolve("data").resolve(name), database, StandardCopyOption.ATOMIC_MOVE);
        }
        for (var yaml : ownersFiles(unpacked)) {
            var target = folder.resolve(unpacked.relativize(yaml).toString());
            if (!Files.exists(target)) {
                Files.createDirectories(target.toAbsolutePath().getParent());
                Files.move(yaml, target);
            }
        }
        return aside;
    }

    private static void deleteAll(Path folder) {
        if (!Files.exists(folder)) {
            return;
        }
        try (var files = Files.walk(folder)) {
            for (var file : files.sorted((one, other) -> other.compareTo(one)).toList()) {
                Files.delete(file);
            }
        } catch (IOException e) {
            throw Troubles.of(e, folder.toString());
        }
    }

    private static void delete(Path file) {
        try {
            Files.deleteIfExists(file);
        } catch (IOException e) {
            throw Troubles.of(e, file.toString());
        }
    }
}
