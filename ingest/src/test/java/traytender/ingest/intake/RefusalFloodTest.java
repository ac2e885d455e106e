package traytender.ingest.intake;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import traytender.config.crop.Crops;
import traytender.config.folder.SiteFolder;
import traytender.config.site.Binding;
import traytender.config.site.Broker;
import traytender.config.site.Messages;
import traytender.config.site.Probe;
import traytender.config.site.Quantity;
import traytender.config.site.Room;
import traytender.config.site.RoomKind;
import traytender.config.site.Show;
import traytender.config.site.Site;
import traytender.config.site.StoreSettings;
import traytender.ingest.calibrate.Calibrator;
import traytender.ingest.mqtt.Sensor;
import traytender.ingest.store.Bench;
import traytender.ingest.store.SqliteReadingStore;

/** A site of many probes of which every one has gone mad. */
class RefusalFloodTest {
    private static final int PROBES = 1_200;
    private static final int LISTED = 1_000;
    private static final Clock CLOCK = Clock.fixed(Instant.parse("2026-03-14T05:41:00Z"), ZoneOffset.UTC);

    @TempDir
    Path folder;

    private SiteFolder site() {
        List<Probe> probes = IntStream.range(0, PROBES)
                .mapToObj(i -> Bench.probe("p" + i, Quantity.MOISTURE, new Binding.Text("alder/p" + i, Map.of())))
                .toList();
        var site = new Site(
                "Alder Lane Nursery",
                ZoneId.of("Europe/Dublin"),
                null,
                Show.USUAL,
                List.of(new Room("propagation", RoomKind.INDOORS, null)),
                List.of(),
                List.of(),
                probes,
                new Messages(new Broker.BuiltIn("127.0.0.1", 0), "traytender"),
                new StoreSettings(null, null),
                null,
                LocalTime.of(7, 0));
        return new SiteFolder(folder, site, new Crops(Map.of()));
    }

    @Test
    void refusals_areAllCounted_andListedUpToABound() throws Exception {
        try (var store = SqliteReadingStore.open(Files.createDirectories(folder.resolve("data")), Calibrator::read);
                var intake = Intake.of(site(), store, CLOCK, readings -> {})) {
            intake.start();
            await().atMost(Duration.ofSeconds(30)).until(() -> intake.brokerPort() > 0);
            try (var sensor = Sensor.at(intake.brokerPort())) {
                for (int i = 0; i < PROBES; i++) {
                    sensor.publish("alder/p" + i, "\u0007mad");
                }
                sensor.publish("alder/p7", "0.5");
                await().atMost(Duration.ofSeconds(60))
                        .until(() -> intake.counts().received() > PROBES);
            }

            assertThat(intake.counts())
                    .isEqualTo(new Counts(PROBES + 1, 1, 0, PROBES, 0, Map.of("not-a-number", (long) PROBES)));
            assertThat(intake.refusals()).hasSize(LISTED + 1);
            assertThat(intake.refusals().stream().mapToLong(Refusal::count).sum())
                    .isEqualTo(PROBES);
            assertThat(intake.refusals().get(0).count()).isEqualTo(PROBES - LISTED);
            assertThat(intake.refusals())
                    .allMatch(refusal -> refusal.firstBytes().equals("\uFFFDmad"));
        }
    }
}
