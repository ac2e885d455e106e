package traytender.dashboard.limits;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import traytender.config.crop.Crops;
import traytender.config.crop.LimitKey;
import traytender.config.crop.Stage;
import traytender.config.folder.CropFileEdit;
import traytender.config.folder.SiteFolderException;
import traytender.config.folder.SiteReader;
import traytender.config.folder.UneditableException;
import traytender.ingest.file.AtomicFile;
import traytender.ingest.store.CropFileVersion;
import traytender.ingest.store.CropFileVersions;

/**
 * The site's {@code crops} folder: limits are written into its files, comments kept, and every text a file has had is kept too.
 * What would come out is read first and compared: a file is written only when it gives the limits meant and no others.
 *
 * <p><b>Safe from any thread.</b>
 */
public final class CropFolder {
    private static final String AS_FOUND = "as it was found";

    private final Path site;
    private final CropFileVersions versions;
    private final Clock clock;

    /** Limits that could not be taken over; the message is for the grower. Nothing has changed. */
    public static final class RefusedException extends RuntimeException {
        private static final long serialVersionUID = 1L;

        RefusedException(String message) {
            super(message);
        }
    }

    /** @param site the site folder */
    public CropFolder(Path site, CropFileVersions versions, Clock clock) {
        this.site = site;
        this.versions = versions;
        this.clock = clock;
    }

    /** Every version of every file, the oldest first. */
    public List<CropFileVersion> versions() {
        return versions.all();
    }

    /**
     * Writes new values into the files of their crops.
     *
     * @param values by crop, stage and limit
     * @param before the limits in force
     * @return the limits that the folder gives now
     * @throws RefusedException when the files cannot be changed so
     */
    public synchronized Crops set(
            Map<String, Map<Stage, Map<LimitKey, Double>>> values, Crops before, String who, String what, String why) {
        var texts = new LinkedHashMap<String, @Nullable String>();
        values.forEach((crop, ofCrop) -> {
            String file = fileOf(crop);
            try {
                texts.put(file, CropFileEdit.set(Objects.requireNonNullElse(read(file), ""), before.get(crop), ofCrop));
            } catch (UneditableException e) {
                throw new RefusedException("crops/" + file + ": " + e.getMessage());
            }
        });
        Crops after = wouldBe(texts);
        if (!sameLimits(after, LimitChange.applied(values, before))) {
            throw new RefusedException(
                    "The crop files cannot be changed so alone: they are laid out with references to each"
                            + " other, or were changed by hand since the program started. Write the limits by hand.");
        }
        write(texts, who, what, why);
        return after;
    }

    /**
     * Gives a file the text it once had.
     *
     * @return the limits that the folder gives now; empty when there is no version of that number
     * @throws RefusedException when the folder would not be right with it
     */
    public synchronized Optional<Crops> bringBack(long number, String who, String why) {
        Optional<CropFileVersion> found = versions.all().stream()
                .filter(version -> version.number() == number)
                .findFirst();
        if (found.isEmpty()) {
            return Optional.empty();
        }
        var texts = new LinkedHashMap<String, @Nullable String>();
        texts.put(found.get().file(), found.get().text());
        Crops after = wouldBe(texts);
        write(texts, who, "back to version " + number, why);
        return Optional.of(after);
    }

    private String fileOf(String crop) {
        String other = crop + ".yml";
        return Files.exists(crops().resolve(other)) ? other : crop + ".yaml";
    }

    private Path crops() {
        return site.resolve("crops");
    }

    private @Nullable String read(String file) {
        try {
            return Files.readString(crops().resolve(file));
        } catch (NoSuchFileException e) {
            return null;
        } catch (IOException e) {
            throw new RefusedException("crops/" + file + " cannot be read: " + e.getMessage());
        }
    }

    /** The limits that the folder would give with these texts, read from a copy of it. */
    private Crops wouldBe(Map<String, @Nullable String> texts) {
        Path copy = null;
        try {
            copy = Files.createTempDirectory("traytender-crops");
            Path folder = Files.createDirectory(copy.resolve("crops"));
            for (Path file : files(crops())) {
                Files.copy(file, folder.resolve(file.getFileName().toString()));
            }
            for (Map.Entry<String, @Nullable String> text : texts.entrySet()) {
                put(folder.resolve(text.getKey()), text.getValue());
            }
            return SiteReader.crops(copy, null);
        } catch (SiteFolderException e) {
            throw new RefusedException("The crop files would not be right: " + e.getMessage());
        } catch (IOException e) {
            throw new RefusedException("The crop files cannot be copied: " + e.getMessage());
        } finally {
            remove(copy);
        }
    }

    private static List<Path> files(Path folder) throws IOException {
        if (!Files.isDirectory(folder)) {
            return List.of();
        }
        try (Stream<Path> all = Files.list(folder)) {
            return all.filter(Files::isRegularFile).toList();
        }
    }

    private static void remove(@Nullable Path copy) {
        if (copy == null) {
            return;
        }
        try {
            for (Path file : files(copy.resolve("crops"))) {
                Files.delete(file);
            }
            Files.deleteIfExists(copy.resolve("crops"));
            Files.delete(copy);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static boolean sameLimits(Crops one, Crops other) {
        var mine = new HashMap<String, Object>();
        var theirs = new HashMap<String, Object>();
        one.byName().forEach((name, crop) -> mine.put(name, crop.stages()));
        other.byName().forEach((name, crop) -> theirs.put(name, crop.stages()));
        return mine.equals(theirs);
    }

    /** The files first, then what they were: what a crash leaves out is found again as changed by hand. */
    private void write(Map<String, @Nullable String> texts, String who, String what, String why) {
        Instant now = clock.instant();
        var all = new ArrayList<CropFileVersion>();
        Map<String, CropFileVersion> newest = new HashMap<>();
        versions.all().forEach(version -> newest.put(version.file(), version));
        texts.forEach((file, text) -> {
            String found = read(file);
            CropFileVersion last = newest.get(file);
            if (last == null || !Objects.equals(last.text(), found)) {
                all.add(new CropFileVersion(0, file, found, now, "", AS_FOUND, ""));
            }
            all.add(new CropFileVersion(0, file, text, now, who, what, why));
        });
        try {
            Files.createDirectories(crops());
            for (Map.Entry<String, @Nullable String> text : texts.entrySet()) {
                put(crops().resolve(text.getKey()), text.getValue());
            }
        } catch (IOException e) {
            throw new RefusedException("The crop files cannot be written: " + e.getMessage());
        }
        versions.add(all);
    }

    private static void put(Path file, @Nullable String text) throws IOException {
        if (text == null) {
            Files.deleteIfExists(file);
        } else {
            AtomicFile.write(file, out -> out.write(text));
        }
    }
}
