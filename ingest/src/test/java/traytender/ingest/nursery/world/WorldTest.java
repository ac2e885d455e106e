package traytender.ingest.nursery.world;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.Arrays;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import traytender.config.site.Cell;
import traytender.config.site.Cells;
import traytender.config.site.Location;
import traytender.config.site.RoomKind;

class WorldTest {
    private static final Instant START = Instant.parse("2026-03-10T06:00:00Z");
    private static final Cells CELLS = new Cells(8, 16);
    private static final Cell CENTRE = new Cell(4, 8);
    private static final Cell CORNER = new Cell(1, 1);
    private static final Cell EDGE = new Cell(1, 8);

    @Test
    void water_isNeitherMadeNorLost() {
        World world = world("mat", 0.005, 0.015);
        Plugs tray = world.tray("T");
        double before = tray.held();

        run(world, 20);
        water(tray);
        run(world, 10);
        tray.waterFromBelow();
        run(world, 30);

        assertThat(tray.held()).isCloseTo(before + tray.added() - tray.drained() - tray.dried(), within(1e-9));
        assertThat(tray.drained()).isPositive();
    }

    @Test
    void waterOverCapacity_isGoneWithinTwoHours() {
        World world = world(null, 0.004, 0);
        water(world.tray("T"));
        double just = world.tray("T").water(CENTRE);

        run(world, 2);

        assertThat(just).isGreaterThan(1.05);
        assertThat(world.tray("T").water(CENTRE)).isBetween(0.95, 1.001);
    }

    @Test
    void medium_staysBetweenItsSourcesOfHeat() {
        World world = world("mat", 0.004, 0);

        for (int minute = 0; minute < 48 * 60; minute++) {
            world.step();
            double air = world.room("room").temperature();
            // Evaporation cools a plug below the air, by 3 K at most at these rates.
            assertThat(world.tray("T").heat(CENTRE))
                    .isBetween(air - 3, Math.max(air, world.mat("mat").surface()) + 8);
        }
    }

    @Test
    void thermostat_holdsItsBand() {
        World world = world("mat", 0.003, 0);
        run(world, 12);

        for (int minute = 0; minute < 24 * 60; minute++) {
            world.step();
            // Half the band is 0.6 K; the mat's own warmth carries on for some minutes.
            assertThat(world.tray("T").heat(CENTRE)).isBetween(24.5 - 1.6, 24.5 + 1.9);
        }
    }

    @Test
    void brokenMat_endsAtTheRoom() {
        World world = world("mat", 0.003, 0);
        run(world, 12);
        world.mat("mat").broken(true);

        run(world, 12);

        assertThat(world.tray("T").heat(CENTRE)).isCloseTo(world.room("room").temperature(), within(2.5));
        assertThat(world.mat("mat").reportsHeating()).isTrue();
    }

    /** Common practice, no source: without a mat, edges and corners dry first; over a mat the centre does. */
    @Test
    void border_driesFirstWithoutAMat_andTheCentreOverOne() {
        World bare = world(null, 0.004, 0.012);
        World warm = world("mat", 0.006, 0);
        run(bare, 24);
        run(warm, 24);

        assertThat(bare.tray("T").water(CORNER)).isLessThan(bare.tray("T").water(EDGE));
        assertThat(bare.tray("T").water(EDGE)).isLessThan(bare.tray("T").water(CENTRE));
        assertThat(warm.tray("T").water(CENTRE)).isLessThan(warm.tray("T").water(EDGE));
    }

    /** Common practice, no source: small plugs in leaf over a mat are dry (below 0.45 here) within a day or so. */
    @Test
    void leafyPlugsOverAMat_areDryWithinADayAndAHalf() {
        World world = world("mat", 0.0075, 0.02);
        run(world, 36);

        assertThat(world.tray("T").water(CENTRE)).isLessThan(0.45);
    }

    @Test
    void copy_meetsTheSameWeather() {
        World world = world("mat", 0.004, 0.01);
        run(world, 5);
        World copy = world.copy();

        run(world, 20);
        run(copy, 20);

        assertThat(copy.tray("T").water(CENTRE)).isEqualTo(world.tray("T").water(CENTRE));
        assertThat(copy.room("room").temperature()).isEqualTo(world.room("room").temperature());
    }

    @Test
    void clearNight_fallsFromSunsetAndIsColdestBeforeSunrise() {
        var evening = LocalDate.of(2026, 3, 11);
        Sky sky = new Sky(traits(Map.of(evening, 9.0)), new Noise(3));
        Instant set = sky.sunset(evening);
        Instant rise = sky.sunrise(evening.plusDays(1));

        assertThat(set).isBetween(Instant.parse("2026-03-11T18:00:00Z"), Instant.parse("2026-03-11T18:40:00Z"));
        assertThat(rise).isBetween(Instant.parse("2026-03-12T06:20:00Z"), Instant.parse("2026-03-12T07:00:00Z"));
        assertThat(sky.air(rise.minusSeconds(60))).isLessThan(sky.air(set.plusSeconds(7200)));
        assertThat(sky.air(set.plusSeconds(7200))).isLessThan(sky.air(set) - 3);
    }

    /** FAO-56 (1998), annex 2, table 2.3: saturation vapour pressure in kPa. */
    @ParameterizedTest
    @CsvSource({"1, 0.657", "10, 1.228", "20, 2.338", "30, 4.243"})
    void saturatedVapour_isAsPublished(double celsius, double kilopascal) {
        assertThat(Vapour.saturated(celsius)).isCloseTo(kilopascal, within(0.001));
    }

    private static World world(@Nullable String mat, double evaporation, double canopy) {
        var noise = new Noise(11);
        var world = new World(new Sky(traits(Map.of()), noise), START);
        world.add(new RoomAir(new RoomTraits("room", RoomKind.INDOORS, 20, 16, 0.58, null), noise));
        if (mat != null) {
            world.add(new HeatMat(new MatTraits(mat, "room", 18, 24.5, 1.2, "T")));
        }
        var traits = new TrayTraits(
                "T",
                "room",
                mat,
                CELLS,
                evaporation,
                canopy,
                mat == null ? 0.2 : 0.02,
                0.4,
                0,
                TrayTraits.Footprint.under(CELLS, 0.2));
        world.add(new Plugs(traits, 0.95, noise));
        return world.settled();
    }

    private static SkyTraits traits(Map<LocalDate, Double> clearNights) {
        return new SkyTraits(new Location(53.35, -6.26), ZoneId.of("Europe/Dublin"), 8, 4, 1, 0.7, clearNights);
    }

    private static void water(Plugs tray) {
        var amounts = new double[CELLS.count()];
        Arrays.fill(amounts, 0.6);
        tray.water(amounts);
    }

    private static void run(World world, int hours) {
        for (int minute = 0; minute < 60 * hours; minute++) {
            world.step();
        }
    }
}
