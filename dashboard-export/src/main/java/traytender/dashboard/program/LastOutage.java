package traytender.dashboard.program;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.Clock;
import java.time.DateTimeException;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalTime;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import traytender.config.reading.Reading;
import traytender.config.site.LampHours;
import traytender.config.site.Place;
import traytender.config.site.Probe;
import traytender.config.site.Quantity;
import traytender.config.site.Room;
import traytender.config.site.Site;
import traytender.dashboard.page.Outage;
import traytender.dashboard.page.Outage.Low;
import traytender.ingest.file.AtomicFile;
import traytender.ingest.store.ReadingStore;
import traytender.ingest.store.SiteStore;

/**
 * What the last time was like in which the program did not run: a power cut, most often. It is told for a day, over further starts, as
 * what is known of it grows. <b>Safe from any thread.</b>
 */
final class LastOutage {
    /** A shorter time is no news; our choice, like the others here. */
    static final Duration SHORTEST = Duration.ofMinutes(10);

    static final Duration TOLD_FOR = Duration.ofHours(24);
    /** Readings so soon after it still say what it was like. */
    private static final Duration JUST_AFTER = Duration.ofMinutes(30);

    private static final Duration JUST_BEFORE = Duration.ofHours(2);
    private static final int PLACES = 3;
    /** A lamp's probe that reads less than this share of what it read before is dark. */
    private static final double DARK = 0.1;

    private static final String FILE = "last-outage";
    private static final Set<Quantity> WARMTH = Set.of(Quantity.TEMPERATURE, Quantity.AIR_TEMPERATURE);
    private static final Logger log = LoggerFactory.getLogger(LastOutage.class);

    private final Site site;
    private final ReadingStore readings;
    private final Clock clock;
    private final @Nullable Span span;
    private final boolean isNew;

    /** When it was. */
    private record Span(Instant from, Instant to, boolean wasCut) {}

    private LastOutage(Site site, ReadingStore readings, Clock clock, @Nullable Span span, boolean isNew) {
        this.site = site;
        this.readings = readings;
        this.clock = clock;
        this.span = span;
        this.isNew = isNew;
    }

    /** To be asked at the start, before a message is taken; remembers it in a small file of the data folder. */
    static LastOutage before(SiteStore store, Site site, Path data, Clock clock) {
        Instant now = clock.instant();
        Optional<Span> fresh = store.readings()
                .newestTime()
                .filter(newest -> !newest.plus(SHORTEST).isAfter(now))
                .map(newest -> new Span(newest, now, store.wasLeftOpen()));
        fresh.ifPresent(span -> write(data.resolve(FILE), span));
        Span span = fresh.or(() -> read(data.resolve(FILE))).orElse(null);
        return new LastOutage(site, store.readings(), clock, span, fresh.isPresent());
    }

    private static void write(Path file, Span span) {
        try {
            AtomicFile.write(file, out -> out.write(span.from + "\n" + span.to + "\n" + span.wasCut + "\n"));
        } catch (IOException e) {
            log.warn("{} cannot be written: {}", file, e.toString());
        }
    }

    private static Optional<Span> read(Path file) {
        try {
            List<String> lines = Files.readAllLines(file);
            return lines.size() < 3
                    ? Optional.empty()
                    : Optional.of(new Span(
                            Instant.parse(lines.get(0)),
                            Instant.parse(lines.get(1)),
                            Boolean.parseBoolean(lines.get(2))));
        } catch (NoSuchFileException e) {
            return Optional.empty();
        } catch (IOException | DateTimeException e) {
            log.warn("{} cannot be read: {}", file, e.toString());
            return Optional.empty();
        }
    }

    /** Whether it ended with this start, and not with an earlier one. */
    boolean isNew() {
        return isNew;
    }

    /** What is known of it by now; empty when there was none within a day. */
    Optional<Outage> now() {
        Span last = span;
        if (last == null || clock.instant().isAfter(last.to.plus(TOLD_FOR))) {
            return Optional.empty();
        }
        return Optional.of(new Outage(
                last.from,
                last.to,
                last.wasCut,
                lowest(last, WARMTH),
                lowest(last, Set.of(Quantity.MOISTURE)),
                site.probes().stream()
                        .filter(probe -> wasHeard(probe, last) && !isBack(probe, last))
                        .map(Probe::id)
                        .toList(),
                matsNotBack(last),
                lampsNotBack(last)));
    }

    private List<Low> lowest(Span last, Set<Quantity> quantities) {
        return site.probes().stream()
                .filter(probe -> quantities.contains(probe.measures()))
                .map(probe -> lowest(probe, last))
                .flatMap(Optional::stream)
                .sorted(Comparator.comparingDouble(Low::value))
                .limit(PLACES)
                .toList();
    }

    private Optional<Low> lowest(Probe probe, Span last) {
        return readings.readings(probe, last.from.plusMillis(1), last.to.plus(JUST_AFTER)).stream()
                .filter(reading -> probe.measures().isPlausible(reading.value()))
                .min(Comparator.comparingDouble(Reading::value))
                .map(reading -> new Low(probe.id(), reading.value(), reading.time()));
    }

    private boolean wasHeard(Probe probe, Span last) {
        return before(probe, last).isPresent();
    }

    private Optional<Reading> before(Probe probe, Span last) {
        List<Reading> before = readings.readings(probe, last.from.minus(JUST_BEFORE), last.from.plusMillis(1));
        return before.isEmpty() ? Optional.empty() : Optional.of(before.get(before.size() - 1));
    }

    private boolean isBack(Probe probe, Span last) {
        return readings.latest(probe)
                .filter(reading -> !reading.time().isBefore(last.to))
                .isPresent();
    }

    private Stream<Reading> since(Probe probe, Span last) {
        return readings.readings(probe, last.to, Instant.MAX).stream();
    }

    private List<String> matsNotBack(Span last) {
        return site.probes().stream()
                .filter(probe -> probe.measures() == Quantity.MAT_POWER)
                .filter(probe ->
                        before(probe, last).filter(one -> one.value() > 0).isPresent())
                .filter(probe -> since(probe, last).noneMatch(one -> one.value() > 0))
                .map(probe -> probe.at().last() instanceof Place.AtMat mat ? mat.mat() : probe.id())
                .distinct()
                .toList();
    }

    private List<String> lampsNotBack(Span last) {
        LocalTime time = clock.instant().atZone(site.timezone()).toLocalTime();
        return site.probes().stream()
                .filter(probe -> probe.measures() == Quantity.LIGHT)
                .filter(probe ->
                        hours(probe).filter(hours -> hours.contains(time)).isPresent())
                .filter(probe -> isDark(probe, last))
                .map(probe -> probe.at().last() instanceof Place.InRoom room ? room.room() : probe.id())
                .distinct()
                .toList();
    }

    private Optional<LampHours> hours(Probe probe) {
        return probe.at().last() instanceof Place.InRoom in
                ? site.room(in.room()).map(Room::light)
                : Optional.empty();
    }

    private boolean isDark(Probe probe, Span last) {
        double lit = before(probe, last).map(Reading::value).orElse(0.0);
        double now = readings.latest(probe)
                .filter(reading -> !reading.time().isBefore(last.to))
                .map(Reading::value)
                .orElse(Double.NaN);
        return lit > 0 && now < DARK * lit;
    }
}
