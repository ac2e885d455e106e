package traytender.dashboard.command;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import traytender.config.reading.Reading;
import traytender.config.reading.ReadingSource;

/**
 * When nothing was heard from any probe of a site. No alert can tell that: in the readings alone it looks as if the program had been off, and
 * either way nobody watched. <b>Not thread-safe.</b>
 */
final class Silences {
    /** As long as one probe may be silent before that is told. */
    private static final long SILENT_MS = 3_600_000;
    /** As many are told one by one; our choice. */
    private static final int TOLD = 10;

    private final List<String> told = new ArrayList<>();
    private long lastMs = Long.MAX_VALUE;
    private int more;

    /** The same readings, listened to as they pass. */
    ReadingSource hearing(ReadingSource readings) {
        return (from, to, consumer) -> readings.scan(from, to, reading -> {
            hear(reading);
            consumer.accept(reading);
        });
    }

    private void hear(Reading reading) {
        long now = reading.timeMs();
        if (lastMs < now && now - lastMs >= SILENT_MS) {
            tell(Instant.ofEpochMilli(lastMs), Instant.ofEpochMilli(now));
        }
        lastMs = now;
    }

    private void tell(Instant from, Instant to) {
        if (told.size() == TOLD) {
            more++;
            return;
        }
        long hours = Math.round(Duration.between(from, to).toMinutes() / 60.0);
        told.add("nothing was heard from any probe from " + from + " to " + to + " (" + hours
                + " h): no tray was watched then, and no alert can tell of it");
    }

    /** A line for each, the first ten of them; none when some probe was always heard. */
    List<String> lines() {
        return more == 0
                ? List.copyOf(told)
                : Stream.concat(told.stream(), Stream.of("and " + more + " times more"))
                        .toList();
    }
}
