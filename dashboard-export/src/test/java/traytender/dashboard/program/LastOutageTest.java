package traytender.dashboard.program;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicReference;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import traytender.config.folder.SiteFolder;
import traytender.config.folder.SiteReader;
import traytender.dashboard.page.Outage;
import traytender.ingest.store.RawReading;
import traytender.ingest.store.SiteStore;

/** The lights went out at 02:10 and came on at 05:40. */
class LastOutageTest {
    private static final Instant CUT = Instant.parse("2026-03-14T02:10:00Z");
    private static final Instant BACK = Instant.parse("2026-03-14T05:40:00Z");

    @TempDir
    Path folder;

    private SiteFolder site;

    @BeforeEach
    void write() throws IOException {
        Files.writeString(folder.resolve("site.yaml"), """
                site: Alder Lane Nursery
                timezone: Europe/Dublin
                rooms:
                  - {id: propagation, kind: indoors, light: "05:00-22:00"}
                  - {id: cold-frame, kind: outdoors}
                mats:
                  - {id: mat-1, room: propagation}
                trays:
                  - {id: T01, room: propagation, mat: mat-1, cells: {rows: 8, columns: 16}, medium: peat-perlite, stage: seedling}
                probes:
                  - {id: soil, measures: moisture, at: {tray: T01, row: 4, column: 8}, message: {topic: a/soil, format: text}, calibration: none}
                  - {id: corner, measures: moisture, at: {tray: T01, row: 1, column: 1}, message: {topic: a/corner, format: text}, calibration: none}
                  - {id: root, measures: temperature, at: {tray: T01, row: 4, column: 8}, message: {topic: a/root, format: text}}
                  - {id: air, measures: air-temperature, at: {room: cold-frame}, message: {topic: a/air, format: text}}
                  - {id: power, measures: mat-power, at: {mat: mat-1}, message: {topic: a/mat, format: text, heating: heat, resting: rest}}
                  - {id: lamp, measures: light, at: {room: propagation}, message: {topic: a/lamp, format: text, lit: lit, dark: dark}}
                """);
        site = SiteReader.read(folder);
    }

    @Test
    void cut_isTold_withTheColdestAndDriest_andWhatIsNotBack() {
        try (var store = Stores.toWrite(site, at(CUT))) {
            everything(store, CUT);
        }
        try (var store = Stores.toWrite(site, at(BACK))) {
            var now = new AtomicReference<>(BACK);
            var outage = LastOutage.before(store, site.site(), site.data(), handClock(now));
            now.set(BACK.plus(Duration.ofMinutes(25)));
            assertThat(outage.isNew()).isTrue();
            // One probe had kept a reading for itself; the mat's plug and the lamp's probe are back, the mat and the
            // lamp are not.
            store.readings()
                    .append(List.of(
                            reading("air", CUT.plus(Duration.ofHours(2)), -1.25),
                            reading("air", BACK.plusSeconds(60), 0.5),
                            reading("soil", BACK.plusSeconds(60), 0.31),
                            reading("root", BACK.plusSeconds(3_000), 3),
                            reading("power", BACK.plusSeconds(1_260), 0),
                            reading("lamp", BACK.plusSeconds(1_260), 0)));

            Outage told = outage.now().orElseThrow();

            assertThat(told.from()).isEqualTo(CUT);
            assertThat(told.wasCut()).isFalse();
            assertThat(told.coldest()).containsExactly(new Outage.Low("air", -1.25, CUT.plus(Duration.ofHours(2))));
            assertThat(told.driest()).containsExactly(new Outage.Low("soil", 0.31, BACK.plusSeconds(60)));
            assertThat(told.probes()).containsExactly("corner");
            assertThat(told.mats()).containsExactly("mat-1");
            assertThat(told.lamps()).containsExactly("propagation");
            assertThat(new OutageWords(site.site()).of(told))
                    .isEqualTo(
                            "Nothing was watched from Sat 14 Mar 02:10 to Sat 14 Mar 05:40 (3 h 30 min): the program was"
                                    + " stopped. Coldest meanwhile and just after, as far as known: -1.3 C at air (04:10). Driest:"
                                    + " 31 % at soil (05:41). Not heard again yet: corner. Heated before and not since: mat-1."
                                    + " Dark in the lamps' hours: propagation. Look at them yourself.");
        }
    }

    @Test
    void killedProgram_wasCutOff() throws IOException {
        try (var store = Stores.toWrite(site, at(CUT))) {
            everything(store, CUT);
            // What a power cut leaves behind: the newest changes beside the database.
            var left = Files.createDirectories(folder.resolve("left"));
            for (String name : List.of("readings.db", "readings.db-wal", "journal.db")) {
                Files.copy(site.data().resolve(name), left.resolve(name));
            }
        }
        for (String name : List.of("readings.db", "readings.db-wal", "journal.db")) {
            Files.move(
                    folder.resolve("left").resolve(name),
                    site.data().resolve(name),
                    StandardCopyOption.REPLACE_EXISTING);
        }

        try (var store = Stores.toWrite(site, at(BACK))) {
            assertThat(outage(store, BACK)).map(Outage::wasCut).contains(true);
        }
    }

    @Test
    void outage_isToldForADay_overFurtherStarts_andAShortOneIsNone() {
        try (var store = Stores.toWrite(site, at(CUT))) {
            everything(store, CUT);
            assertThat(outage(store, CUT.plus(Duration.ofMinutes(9)))).isEmpty();
            assertThat(outage(store, BACK)).isPresent();
            everything(store, BACK);

            var again = LastOutage.before(store, site.site(), site.data(), at(BACK.plusSeconds(90)));

            assertThat(again.isNew()).isFalse();
            assertThat(again.now()).map(Outage::from).contains(CUT);
            everything(store, BACK.plus(Duration.ofHours(25)));
            assertThat(outage(store, BACK.plus(Duration.ofHours(25)))).isEmpty();
        }
    }

    /** A board without a clock battery boots in the past: that is no outage. */
    @Test
    void clockThatStandsBeforeTheNewestReading_isNoOutage() {
        try (var store = Stores.toWrite(site, at(CUT))) {
            everything(store, CUT);

            assertThat(outage(store, Instant.parse("2019-01-01T00:00:00Z"))).isEmpty();
        }
    }

    private Optional<Outage> outage(SiteStore store, Instant now) {
        return LastOutage.before(store, site.site(), site.data(), at(now)).now();
    }

    private static void everything(SiteStore store, Instant at) {
        store.readings()
                .append(List.of(
                        reading("soil", at, 0.6),
                        reading("corner", at, 0.7),
                        reading("root", at, 22),
                        reading("air", at, 4),
                        reading("power", at, 1),
                        reading("lamp", at, 1)));
    }

    private static RawReading reading(String probe, Instant at, double raw) {
        return new RawReading(probe, at.toEpochMilli(), raw, 0);
    }

    private static Clock handClock(AtomicReference<Instant> now) {
        return ((InstantSource) now::get).withZone(ZoneOffset.UTC);
    }

    private static Clock at(Instant now) {
        return Clock.fixed(now, ZoneOffset.UTC);
    }
}
