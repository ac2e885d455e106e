package traytender.config.folder;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.MonthDay;
import java.time.ZoneId;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import traytender.config.crop.Stage;
import traytender.config.site.Binding;
import traytender.config.site.Broker;
import traytender.config.site.Calibration;
import traytender.config.site.Cell;
import traytender.config.site.CellBlock;
import traytender.config.site.Cells;
import traytender.config.site.LampHours;
import traytender.config.site.Location;
import traytender.config.site.Mat;
import traytender.config.site.Messages;
import traytender.config.site.Place;
import traytender.config.site.Probe;
import traytender.config.site.Quantity;
import traytender.config.site.Relay;
import traytender.config.site.Room;
import traytender.config.site.RoomKind;
import traytender.config.site.Show;
import traytender.config.site.Site;
import traytender.config.site.Sowing;
import traytender.config.site.StoreSettings;
import traytender.config.site.Tray;

class SiteReaderTest {
    @TempDir
    Path folder;

    @Test
    void show_saysScaleAndClock() throws IOException {
        String text = resource("alder-lane.yaml").replace("{temperature: C}", "{temperature: F, clock: 12}");

        assertThat(Folders.read(folder, text).site().show()).isEqualTo(new Show(true, true));
    }

    @Test
    void wholeSite_isReadAsWritten() throws IOException {
        Site site = Folders.read(folder, resource("alder-lane.yaml")).site();

        assertThat(site.name()).isEqualTo("Alder Lane Nursery");
        assertThat(site.timezone()).isEqualTo(ZoneId.of("Europe/Dublin"));
        assertThat(site.location()).isEqualTo(new Location(53.35, -6.26));
        assertThat(site.show()).isEqualTo(Show.USUAL);
        assertThat(site.rooms())
                .containsExactly(
                        new Room(
                                "propagation",
                                RoomKind.INDOORS,
                                new LampHours(LocalTime.of(6, 0), LocalTime.of(22, 0))),
                        new Room("cold-frame", RoomKind.OUTDOORS, null));
        assertThat(site.mats())
                .containsExactly(new Mat("mat-1", "propagation", true, new Relay("alder/mat-1/relay", "rest")));
        assertThat(site.trays())
                .containsExactly(new Tray(
                        "T01",
                        "propagation",
                        "north",
                        "mat-1",
                        new Cells(8, 16),
                        "peat-perlite",
                        Stage.GERMINATING,
                        List.of(
                                new Sowing(
                                        new CellBlock(1, 4, 1, 16),
                                        "tomato",
                                        "Copper Lantern",
                                        LocalDate.of(2026, 3, 2),
                                        2),
                                new Sowing(new CellBlock(5, 8, 1, 16), "pepper", "Long Meadow", null, null)),
                        Instant.MIN));
        assertThat(site.messages()).isEqualTo(new Messages(new Broker.BuiltIn("127.0.0.1", 1883), "traytender"));
        assertThat(site.store())
                .isEqualTo(new StoreSettings(
                        Duration.ofDays(400),
                        new StoreSettings.Influx("http://127.0.0.1:8086", "alder", "alder", "influx.password", null)));
        assertThat(site.lastFrost()).isEqualTo(MonthDay.of(4, 20));
        assertThat(site.morningRound()).isEqualTo(LocalTime.of(7, 0));
    }

    @Test
    void probes_areReadWithPlaceBindingAndCalibration() throws IOException {
        List<Probe> probes =
                Folders.read(folder, resource("alder-lane.yaml")).site().probes();

        assertThat(probes)
                .extracting(Probe::measures)
                .containsExactly(Quantity.MOISTURE, Quantity.TEMPERATURE, Quantity.AIR_TEMPERATURE, Quantity.MAT_POWER);
        assertThat(probes)
                .extracting(probe -> probe.at().last())
                .containsExactly(
                        new Place.InCell("T01", new Cell(4, 8)),
                        new Place.InCell("T01", new Cell(4, 8)),
                        new Place.InRoom("propagation"),
                        new Place.AtMat("mat-1"));
        assertThat(probes)
                .extracting(Probe::binding)
                .containsExactly(
                        new Binding.Json("alder/T01/centre", "/soil", null, Map.of()),
                        new Binding.Json("alder/T01/centre", "/temp", null, Map.of()),
                        new Binding.SenMl("alder/propagation", "alder:air:temp"),
                        new Binding.Text("alder/mat-1/report", Map.of("heat", 1.0, "rest", 0.0)));
        assertThat(probes.get(0).calibration().last()).isEqualTo(new Calibration.DryWet(2900, 1300));
        assertThat(probes.get(1).calibration().last()).isEqualTo(new Calibration.None());
        assertThat(probes.get(0).every()).isEqualTo(Duration.ofMinutes(1));
        assertThat(probes.get(2).every()).isNull();
    }

    @Test
    void leastSite_hasTheStatedDefaults() {
        Site site = Folders.read(folder, Folders.LEAST + Folders.TRAY).site();

        assertThat(site.location()).isNull();
        assertThat(site.lastFrost()).isNull();
        assertThat(site.morningRound()).isEqualTo(LocalTime.of(7, 0));
        assertThat(site.messages()).isEqualTo(new Messages(new Broker.BuiltIn("127.0.0.1", 1883), "traytender"));
        assertThat(site.store()).isEqualTo(new StoreSettings(null, null));
        assertThat(site.trays().get(0).stage()).isEqualTo(Stage.GERMINATING);
        assertThat(site.trays().get(0).sowings()).isEmpty();
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
                    {dry: 2900, wet: 1300}                                        | moisture        | DryWet[dry=2900.0, wet=1300.0]
                    {points: [[0, 0], [500, 0.4], [900, 1]]}                      | moisture        | Points[points=[Point[raw=0.0, value=0.0], Point[raw=500.0, value=0.4], Point[raw=900.0, value=1.0]]]
                    {polynomial: [0.1, 2e-4]}                                     | moisture        | Polynomial[coefficients=[0.1, 2.0E-4]]
                    {ntc: {r25: 10000, beta: 3950, series: 10000, counts: 4095}}  | temperature     | Ntc[r25=10000.0, beta=3950.0, series=10000.0, counts=4095.0]
                    {platinum: {r0: 100}}                                         | temperature     | Platinum[r0=100.0]
                    {offset: -0.4}                                                | temperature     | Offset[offset=-0.4]
                    none                                                          | temperature     | None[]
                    {none: true}                                                  | temperature     | None[]
                    """)
    void calibration_isReadInEveryForm(String calibration, String quantity, String expected) {
        String probe = """
                probes:
                  - id: p
                    measures: %s
                    at: {tray: T01, row: 1, column: 1}
                    message: {topic: t, format: text}
                    calibration: %s
                """.formatted(quantity, calibration);

        Site site = Folders.read(folder, Folders.LEAST + Folders.TRAY + probe).site();

        assertThat(site.probes().get(0).calibration().last()).hasToString(expected);
    }

    @Test
    void datedValues_holdFromTheirSinceOn() {
        String probe = """
                probes:
                  - id: p
                    measures: moisture
                    at:
                      - {tray: T01, row: 1, column: 1}
                      - {tray: T01, row: 8, column: 16, since: 2026-03-20T10:00:00Z}
                    message: {topic: t, format: text}
                    calibration:
                      - none
                      - {dry: 3000, wet: 1300, since: 2026-03-10}
                      - {dry: 3100, wet: 1300, since: "2026-04-10T12:00:00+02:00"}
                """;

        Probe read = Folders.read(folder, Folders.LEAST + Folders.TRAY + probe)
                .site()
                .probes()
                .get(0);

        assertThat(read.at().at(Instant.parse("2026-03-20T09:59:59Z")))
                .contains(new Place.InCell("T01", new Cell(1, 1)));
        assertThat(read.at().at(Instant.parse("2026-03-20T10:00:00Z")))
                .contains(new Place.InCell("T01", new Cell(8, 16)));
        assertThat(read.calibration().at(Instant.parse("2026-03-09T23:59:59Z"))).contains(new Calibration.None());
        assertThat(read.calibration().at(Instant.parse("2026-03-10T00:00:00Z")))
                .contains(new Calibration.DryWet(3000, 1300));
        assertThat(read.calibration().at(Instant.parse("2026-04-10T10:00:00Z")))
                .contains(new Calibration.DryWet(3100, 1300));
    }

    @Test
    void severalProbes_mayShareATopicAndEvenAField() {
        String probes = """
                probes:
                  - {id: a, measures: moisture, at: {tray: T01, row: 1, column: 1}, message: {topic: t, format: json, value: /v}}
                  - {id: b, measures: moisture, at: {tray: T01, row: 2, column: 2}, message: {topic: t, format: json, value: /v}}
                """;

        assertThat(Folders.read(folder, Folders.LEAST + Folders.TRAY + probes)
                        .site()
                        .probes())
                .hasSize(2);
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
                    {broker: built-in, listen: 0.0.0.0, port: 0}                                | BuiltIn[listen=0.0.0.0, port=0, key=null, keyPasswordFile=null]
                    {listen: "::1"}                                                             | BuiltIn[listen=::1, port=1883, key=null, keyPasswordFile=null]
                    {listen: 0.0.0.0, key: bench.p12, password-file: key.password}              | BuiltIn[listen=0.0.0.0, port=8883, key=bench.p12, keyPasswordFile=key.password]
                    {broker: "tcp://broker.lan"}                                                | Outside[uri=tcp://broker.lan:1883, user=null, passwordFile=null, trust=null]
                    {broker: "tcp://10.0.0.2:1884"}                                             | Outside[uri=tcp://10.0.0.2:1884, user=null, passwordFile=null, trust=null]
                    {broker: "ssl://broker.lan", user: u, password-file: mqtt.password, trust: ca.pem} | Outside[uri=ssl://broker.lan:8883, user=u, passwordFile=mqtt.password, trust=ca.pem]
                    """)
    void messages_nameTheirBroker(String messages, String expected) {
        Site site =
                Folders.read(folder, Folders.LEAST + "messages: " + messages).site();

        assertThat(site.messages().broker()).hasToString(expected);
    }

    @Test
    void numbersAsNames_areTakenAsWritten() {
        String trays = "trays:\n  - {id: 01, room: propagation, bench: 3, cells: {rows: 2, columns: 3}}\n";

        Tray tray = Folders.read(folder, Folders.LEAST + trays).site().trays().get(0);

        assertThat(tray.id()).isEqualTo("01");
        assertThat(tray.bench()).isEqualTo("3");
    }

    @Test
    void aliases_areFollowed() {
        String trays = """
                trays:
                  - {id: T01, room: propagation, cells: &plug {rows: 8, columns: 16}}
                  - {id: T02, room: propagation, cells: *plug}
                """;

        assertThat(Folders.read(folder, Folders.LEAST + trays).site().trays())
                .extracting(Tray::cells)
                .containsOnly(new Cells(8, 16));
    }

    @Test
    void sowing_mayBeginLaterAtItsOwnStage() {
        String tray = Folders.TRAY + """
                    sowings:
                      - {rows: 1-8, crop: lettuce, variety: Green Quay}
                      - {rows: 3, columns: 1-8, crop: basil, variety: Pale Anchor, stage: seedling, since: 2026-04-01}
                """;

        List<Sowing> sowings =
                Folders.read(folder, Folders.LEAST + tray).site().trays().get(0).sowings();

        assertThat(sowings.get(1))
                .isEqualTo(new Sowing(
                        new CellBlock(3, 3, 1, 8),
                        "basil",
                        "Pale Anchor",
                        null,
                        null,
                        Stage.SEEDLING,
                        Instant.parse("2026-03-31T23:00:00Z")));
    }

    static String resource(String name) throws IOException {
        try (InputStream in = SiteReaderTest.class.getResourceAsStream(name)) {
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        }
    }
}
