package traytender.ingest.nursery;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Objects;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import traytender.config.folder.SiteFolder;
import traytender.config.folder.SiteReader;
import traytender.config.journal.JournalEntry;
import traytender.ingest.nursery.probe.Bench;
import traytender.ingest.nursery.probe.SimulatedMessage;
import traytender.ingest.nursery.world.Happening;

/**
 * Alder Lane Nursery, made up for the demo: seven trays in three rooms, four days behind it, and some of everything going wrong now. The script
 * is {@link DemoScript}.
 *
 * <p><b>Used by one thread.</b>
 */
public final class DemoNursery {
    /** How much of the past {@link #history()} tells. */
    public static final Duration BEHIND = Duration.ofDays(4);

    private static final ZoneId ZONE = ZoneId.of("Europe/Dublin");
    private static final Pattern DAYS_AGO = Pattern.compile("\\$\\{(\\d+)}");

    private final SiteFolder folder;
    private final Instant now;
    private final List<JournalEntry> journal;
    private final List<SimulatedMessage> history;
    private final Bench bench;

    private DemoNursery(SiteFolder folder, Instant now, DemoScript script, Bench bench) {
        this.folder = folder;
        this.now = now;
        this.bench = bench;
        this.journal = script.journal();
        this.history = bench.messagesUntil(now);
    }

    /**
     * Writes the nursery's site folder (site.yaml; what is there of that name is replaced) and simulates its past.
     *
     * @param siteFolder made when missing
     * @param now the end of its past; seconds are dropped
     * @throws UncheckedIOException when the folder cannot be written
     */
    public static DemoNursery create(Path siteFolder, Instant now, long seed) {
        Instant minute = now.truncatedTo(ChronoUnit.MINUTES);
        try {
            Files.createDirectories(siteFolder);
            Files.writeString(
                    siteFolder.resolve("site.yaml"),
                    siteFile(minute.atZone(ZONE).toLocalDate()));
        } catch (IOException e) {
            throw new UncheckedIOException("cannot write the demo's site folder " + siteFolder, e);
        }
        SiteFolder folder = SiteReader.read(siteFolder);
        var script = new DemoScript(minute, ZONE);
        var world = new DemoWorld(folder.site(), minute, seed);
        List<Happening> happenings = script.happenings();
        return new DemoNursery(
                folder, minute, script, new Bench(world.world(), world.nodes(), happenings, Bench.Witness.none()));
    }

    /** The folder as written and read back. */
    public SiteFolder folder() {
        return folder;
    }

    /** The minute at which its past ends. */
    public Instant now() {
        return now;
    }

    /** Every message before {@link #now()}, in order of arrival; each tells its readings' own times. */
    public List<SimulatedMessage> history() {
        return history;
    }

    /** What the grower wrote before {@link #now()}, in order of time. */
    public List<JournalEntry> journal() {
        return journal;
    }

    /** The messages that arrive from the end of the last call (at first {@link #now()}) up to {@code until}, in order. */
    public List<SimulatedMessage> next(Instant until) {
        return bench.messagesUntil(until.truncatedTo(ChronoUnit.MINUTES));
    }

    private static String siteFile(LocalDate today) {
        try (InputStream in = DemoNursery.class.getResourceAsStream("demo/site.yaml")) {
            String text =
                    new String(Objects.requireNonNull(in, "demo/site.yaml").readAllBytes(), StandardCharsets.UTF_8);
            return DAYS_AGO.matcher(text)
                    .replaceAll(days -> Matcher.quoteReplacement(
                            today.minusDays(Long.parseLong(days.group(1))).toString()));
        } catch (IOException e) {
            throw new UncheckedIOException("cannot read the demo's own site.yaml", e);
        }
    }
}
