package traytender.dashboard.setup;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Clock;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import java.util.function.Supplier;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import traytender.config.folder.SiteEdit;
import traytender.config.folder.SiteError;
import traytender.config.folder.SiteFolder;
import traytender.config.folder.SiteFolderException;
import traytender.config.folder.SiteReader;
import traytender.config.folder.UneditableException;
import traytender.config.site.Broker;
import traytender.ingest.file.AtomicFile;

/**
 * The site's files, changed by the page and taken over when they were changed by hand. What is to be written is read whole by the
 * strict reader first; the folder's files are copied before; whoever changes says which version was seen, so that two at once
 * lose nothing. A file changed by hand is taken over when it has no error, else refused whole, the old one staying in force.
 *
 * <p><b>Safe from any thread.</b>
 */
public final class SiteDesk {
    static final String SITE = "site.yaml";
    private static final Logger log = LoggerFactory.getLogger(SiteDesk.class);

    private final Path folder;
    private final Supplier<SiteFolder> inForce;
    private final Consumer<SiteFolder> takeOver;
    private final Clock clock;
    private final SiteCopies copies;
    private List<String> stamp;
    private List<SiteError> errors = List.of();

    /**
     * A desk over the folder of the site in force.
     *
     * @param inForce the site by which the program works, or is about to
     * @param takeOver given a changed site when it is on disk
     */
    public SiteDesk(Supplier<SiteFolder> inForce, Consumer<SiteFolder> takeOver, Clock clock) {
        this.folder = inForce.get().path();
        this.inForce = inForce;
        this.takeOver = takeOver;
        this.clock = clock;
        this.copies = new SiteCopies(folder, inForce.get().data());
        this.stamp = stamp();
    }

    /** How the file stands. */
    public synchronized SiteState state() {
        String text = text();
        return new SiteState(version(text), !text.isEmpty(), keys(text), errors);
    }

    private static Map<?, ?> keys(String text) {
        try {
            return text.isEmpty() ? Map.of() : SiteEdit.of(text).keys();
        } catch (UneditableException e) {
            return Map.of();
        }
    }

    /** Changes made by the page, the oldest first. */
    public synchronized List<SiteChange> changes() {
        return copies.changes(version(text()));
    }

    /**
     * Changes the file, and has the program take it over.
     *
     * @param version of the file that the person saw
     * @param what in the grower's words
     * @param edit what is changed
     * @throws SiteRefusedException when somebody changed it meanwhile, or it would not be right
     */
    public synchronized void change(String version, String who, String what, UnaryOperator<SiteEdit> edit) {
        String now = checked(version);
        try {
            SiteEdit before = now.isEmpty() ? begun() : SiteEdit.of(now);
            write(edit.apply(before).text(), now, who, what);
        } catch (UneditableException e) {
            throw new SiteRefusedException(SITE + ": " + e.getMessage());
        }
    }

    /**
     * The site as it would be after a change; nothing is written.
     *
     * @throws SiteRefusedException when it would not be right
     */
    public synchronized SiteFolder tried(UnaryOperator<SiteEdit> edit) {
        try {
            return read(edit.apply(SiteEdit.of(text())).text());
        } catch (UneditableException e) {
            throw new SiteRefusedException(SITE + ": " + e.getMessage());
        }
    }

    /**
     * Gives the file the text it had before the newest change.
     *
     * @throws SiteRefusedException when it was changed since
     */
    public synchronized void takeBack(int number, String version, String who) {
        String now = checked(version);
        SiteChange change = changes().stream()
                .filter(one -> one.number() == number)
                .findFirst()
                .orElseThrow(() -> new SiteRefusedException("There is no change " + number + "."));
        try {
            String before = copies.siteBefore(number);
            if (before.isEmpty()) {
                throw new SiteRefusedException("The first step cannot be taken back; change it instead.");
            }
            if (!change.isCurrent()) {
                throw new SiteRefusedException(SITE + " was changed since; take the later changes back first.");
            }
            write(before, now, who, "taken back: " + change.what());
        } catch (IOException e) {
            throw new SiteRefusedException("The copy cannot be read: " + e.getMessage());
        }
    }

    /** Looks whether the files were changed by hand, and takes them over when they are right. */
    public synchronized void look() {
        List<String> now = stamp();
        if (now.equals(stamp)) {
            return;
        }
        stamp = now;
        try {
            SiteFolder found = SiteReader.read(folder);
            errors = List.of();
            SiteFolder before = inForce.get();
            if (!found.site().equals(before.site()) || !found.crops().equals(before.crops())) {
                log.info("The site's files were changed by hand and are taken over");
                takeOver.accept(found);
            }
        } catch (SiteFolderException e) {
            errors = e.errors();
            log.warn(
                    "The site's files were changed by hand and are not right; the old ones stay in force:\n{}",
                    e.getMessage());
        }
    }

    /** What the grower must know: errors that keep the files on disk from being in force. */
    public synchronized List<String> notes() {
        return errors.isEmpty()
                ? List.of()
                : List.of("the site's files were changed and are not right, so the old ones stay in force:\n"
                        + String.join(
                                "\n", errors.stream().map(SiteError::toString).toList()));
    }

    private String checked(String version) {
        String now = text();
        if (!version(now).equals(version)) {
            throw new SiteRefusedException(
                    SITE
                            + " was changed meanwhile, by somebody else or by hand. Look at it as it is now, then say it again.",
                    true);
        }
        return now;
    }

    /** A broker that could not have its usual port keeps the one it found. */
    private SiteEdit begun() {
        SiteEdit fresh = SiteEdit.begun("My nursery");
        return inForce.get().site().messages().broker() instanceof Broker.BuiltIn builtIn
                        && builtIn.port() != Broker.BuiltIn.PORT
                ? fresh.site(Map.of("messages", Map.of("port", builtIn.port())))
                : fresh;
    }

    private void write(String text, String now, String who, String what) {
        if (text.equals(now)) {
            return;
        }
        SiteFolder next = read(text);
        try {
            copies.keep(clock.instant(), who, what, version(text));
            Path file = folder.resolve(SITE);
            AtomicFile.write(Files.exists(file) ? file.toRealPath() : file, out -> out.write(text));
        } catch (IOException e) {
            throw new SiteRefusedException(SITE + " cannot be written: " + e.getMessage());
        }
        stamp = stamp();
        errors = List.of();
        log.info("{} changed by the page: {}", SITE, what);
        takeOver.accept(next);
    }

    private SiteFolder read(String text) {
        try {
            return SiteReader.readWith(folder, text);
        } catch (SiteFolderException e) {
            throw new SiteRefusedException(String.join(
                    "\n",
                    e.errors().stream()
                            .map(error ->
                                    error.file().equals(SITE) ? error.wrong() + "; " + error.right() : error.toString())
                            .toList()));
        }
    }

    private String text() {
        try {
            return Files.readString(folder.resolve(SITE));
        } catch (NoSuchFileException e) {
            return "";
        } catch (IOException e) {
            throw new SiteRefusedException(SITE + " cannot be read: " + e.getMessage());
        }
    }

    private static String version(String text) {
        try {
            byte[] digest = MessageDigest.getInstance("SHA-256").digest(text.getBytes(StandardCharsets.UTF_8));
            return HexFormat.of().formatHex(digest, 0, 12);
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException(e);
        }
    }

    /** What tells, without reading them, that the files are others: names, times and sizes. */
    private List<String> stamp() {
        var stamp = new ArrayList<String>();
        stamp(folder.resolve(SITE), stamp);
        Path crops = folder.resolve("crops");
        if (Files.isDirectory(crops)) {
            try (Stream<Path> files = Files.list(crops)) {
                files.sorted().forEach(file -> stamp(file, stamp));
            } catch (IOException e) {
                stamp.add(e.toString());
            }
        }
        return stamp;
    }

    private static void stamp(Path file, List<String> stamp) {
        try {
            stamp.add(file + " " + Files.getLastModifiedTime(file).toMillis() + " " + Files.size(file));
        } catch (IOException e) {
            stamp.add(file + " is not there");
        }
    }
}
