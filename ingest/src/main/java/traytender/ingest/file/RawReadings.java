package traytender.ingest.file;

import java.time.Clock;
import java.time.DateTimeException;
import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.HashMap;
import java.util.Map;
import traytender.config.reading.Marks;
import traytender.config.site.Probe;
import traytender.config.site.Site;
import traytender.ingest.store.RawReading;
import traytender.ingest.store.ReadingStore;

/** Makes raw readings of what stands in a file, by the site's probes and the clock; what cannot be one is a {@link Rejection}. */
final class RawReadings {
    /** How far ahead of the program's clock a reading may be (contract: a time more than 5 minutes in the future is refused). */
    private static final Duration AHEAD = Duration.ofMinutes(5);

    private final Map<String, Probe> probes = new HashMap<>();
    private final long latestMs;

    private RawReadings(Site site, long latestMs) {
        site.probes().forEach(probe -> probes.put(probe.id(), probe));
        this.latestMs = latestMs;
    }

    /**
     * By the clock as it is now. A clock that stands before the newest reading on disk is wrong, and then no time is refused.
     */
    static RawReadings of(Site site, ReadingStore store, Clock clock) {
        var latest = clock.instant().plus(AHEAD);
        var clockIsWrong = store.newestTime().filter(latest::isBefore).isPresent();
        return new RawReadings(site, clockIsWrong ? Long.MAX_VALUE : latest.toEpochMilli());
    }

    /** Whether the site has a probe of that id. */
    boolean hasProbe(String id) {
        return probes.containsKey(id);
    }

    /** The probe of that id. */
    Probe probe(String id) throws Rejection {
        var probe = probes.get(id);
        if (probe == null) {
            throw new Rejection("no probe is called " + Rejection.quoted(id));
        }
        return probe;
    }

    /** A reading of a checked time and a value that stands as text, a number or one of the probe's words. */
    RawReading reading(Probe probe, long timeMs, String value, int marks) throws Rejection {
        return reading(probe, timeMs, number(probe, value), marks);
    }

    /** A reading of a checked time. */
    RawReading reading(Probe probe, long timeMs, double value, int marks) throws Rejection {
        if (!Double.isFinite(value)) {
            throw new Rejection("the value is beyond every number");
        }
        return new RawReading(probe.id(), timeMs, value, marks);
    }

    /** RFC 3339 text as milliseconds since 1970, what is finer cut off. */
    long timeMs(String text) throws Rejection {
        try {
            var iso = text.length() > 10 && text.charAt(10) == ' '
                    ? text.substring(0, 10) + 'T' + text.substring(11)
                    : text;
            return checked(OffsetDateTime.parse(iso).toInstant().toEpochMilli());
        } catch (DateTimeException | ArithmeticException e) {
            throw new Rejection("the time is not of the form 2026-03-14T05:41:00Z: " + Rejection.quoted(text));
        }
    }

    /** The time itself, unless it lies in the future. */
    long checked(long timeMs) throws Rejection {
        if (timeMs > latestMs) {
            throw new Rejection("the time lies in the future: " + Instant.ofEpochMilli(timeMs));
        }
        return timeMs;
    }

    private static double number(Probe probe, String value) throws Rejection {
        var word = SenMlUnit.words(probe.binding()).get(value);
        return word == null ? Numbers.parse(value) : word;
    }

    /** Only the clock's mark: every other is worked out again from the raw value. */
    static int marks(String words) {
        return words.contains("clock") ? Marks.CLOCK : Marks.NONE;
    }
}
