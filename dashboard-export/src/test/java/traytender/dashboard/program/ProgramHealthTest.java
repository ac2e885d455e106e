package traytender.dashboard.program;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import traytender.config.folder.SiteReader;
import traytender.ingest.intake.Intake;
import traytender.ingest.intake.Refusal;
import traytender.ingest.store.RawReading;

class ProgramHealthTest {
    private static final Instant START = Instant.parse("2026-03-10T06:00:00Z");
    private static final String SITE = """
            site: Alder Lane Nursery
            timezone: Europe/Dublin
            rooms:
              - {id: propagation, kind: indoors}
            probes:
              - id: propagation-air
                measures: air-temperature
                at: {room: propagation}
                message: {topic: alder/propagation, format: text}
                every: PT1M
            messages:
              broker: tcp://127.0.0.1:1
            """;

    @TempDir
    Path folder;

    private Instant now = START;
    private final Clock clock = new Clock() {
        @Override
        public ZoneId getZone() {
            return ZoneOffset.UTC;
        }

        @Override
        public Clock withZone(ZoneId zone) {
            return this;
        }

        @Override
        public Instant instant() {
            return now;
        }
    };

    @Test
    void nothingHeardFromAnyProbeForAnHour_isSaid_withTheLikelyCause_untilOneSpeaks() throws IOException {
        Files.writeString(folder.resolve("site.yaml"), SITE);
        var site = SiteReader.read(folder);
        try (var store = Stores.toWrite(site, clock);
                var intake = Intake.of(site, store.readings(), clock, readings -> {});
                var watching = new Watching(site, store, change -> {}, () -> {}, clock)) {
            store.readings().append(List.of(reading(START.minusSeconds(7200))));
            var health =
                    new ProgramHealth(store, null, intake, watching, List::of, Optional::empty, Optional::empty, clock);
            assertThat(health.now().notes()).isEmpty();

            now = START.plus(Duration.ofMinutes(59));
            assertThat(health.now().notes()).isEmpty();
            now = START.plus(Duration.ofHours(3));
            assertThat(health.now().notes())
                    .singleElement()
                    .asString()
                    .contains("any probe for 3 hours", "power", "broker", "network");

            store.readings().append(List.of(reading(now)));
            assertThat(health.now().notes()).isEmpty();
        }
    }

    @Test
    void aSensorWhoseClockRunsAhead_isToldAsThat_whileItDoes() {
        var ahead = new Refusal("future", "alder/T01/centre", 12, "{}", START);
        var garbled = new Refusal("not-json", "alder/T02/centre", 3, "rubbish", START);

        assertThat(ProgramHealth.clocksAhead(List.of(ahead, garbled), START.plus(Duration.ofMinutes(59))))
                .singleElement()
                .asString()
                .contains("alder/T01/centre", "five minutes ahead", "12 so far", "set the sensor's clock");
        assertThat(ProgramHealth.clocksAhead(List.of(ahead), START.plus(Duration.ofHours(1))))
                .isEmpty();
    }

    private static RawReading reading(Instant at) {
        return new RawReading("propagation-air", at.toEpochMilli(), 18.5, 0);
    }
}
