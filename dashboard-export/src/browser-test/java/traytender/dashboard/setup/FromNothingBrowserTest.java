package traytender.dashboard.setup;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.ColorScheme;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.concurrent.atomic.AtomicReference;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import traytender.config.folder.NewSite;
import traytender.dashboard.page.Axe;
import traytender.dashboard.page.Chromium;
import traytender.dashboard.page.PageSettings;
import traytender.dashboard.program.Program;
import traytender.ingest.broker.BuiltInBroker;
import traytender.testing.NeedsServer;

/** From an empty folder to the first right alert, by the page alone, as a person would; then a probe moved to another tray. */
@NeedsServer({"chromium", "mosquitto_pub"})
class FromNothingBrowserTest {
    private static final int DESK = 1280;
    private static final int PHONE = 390;
    private static final int HEIGHT = 900;

    /** Counts of a sensor in medium that is 70 percent wet by the ends held here. */
    private static final int MOIST = 1780;

    private static final Duration DRYING = Duration.ofHours(8);

    private static final String READINGS = "api/v1/readings?probe=alder-node-1-moisture";

    private final HttpClient http = HttpClient.newHttpClient();
    /** How far the test has put the clock forward. */
    private final AtomicReference<Duration> ahead = new AtomicReference<>(Duration.ZERO);

    private final Clock clock =
            ((InstantSource) () -> Instant.now().plus(ahead.get())).withZone(ZoneOffset.UTC);

    @TempDir
    Path folder;

    @Test
    void bench_isSetUpByThePageAlone() throws Exception {
        Path site = folder.resolve("site");
        var nothing = NewSite.unwritten(site, ZoneOffset.UTC, BuiltInBroker.freePort(0));
        var settings = new PageSettings("127.0.0.1", 0, site.resolve("page.password"));
        try (var program = Program.start(nothing, settings, clock);
                var chromium = new Chromium()) {
            await().until(() -> program.brokerPort() != 0);
            Page page = chromium.open(PHONE, HEIGHT, ColorScheme.LIGHT, program.page());
            page.navigate(program.page().toString());
            try (var sensors = new SimulatedSensors(program.brokerPort(), clock)) {
                new Walk(page, program.page(), sensors, site).all();
            } catch (AssertionError | RuntimeException e) {
                e.addSuppressed(new AssertionError("The page said: " + chromium.troubles + "\n"
                        + page.locator("body").innerText()));
                throw e;
            }
            assertThat(chromium.troubles).isEmpty();
        }
    }

    /** One person's walk through the setup, phone in hand. */
    private final class Walk {
        private final Page page;
        private final URI home;
        private final SimulatedSensors sensors;
        private final Path site;

        Walk(Page page, URI home, SimulatedSensors sensors, Path site) {
            this.page = page;
            this.home = home;
            this.sensors = sensors;
            this.site = site;
        }

        void all() throws Exception {
            begin();
            addTrays();
            findSensors();
            placeSensors();
            calibrate();
            dryOut();
            move();
        }

        private void begin() {
            assertThat(page.locator("h1")).hasText("Your site");
            assertThat(Files.exists(site.resolve("site.yaml"))).isFalse();
            shot("begin");
            page.locator("#site-name-field").fill("Alder Lane Nursery");
            page.locator("#timezone").fill("Europe/Dublin");
            page.locator("#latitude").fill("53.35");
            page.locator("#longitude").fill("-6.26");
            page.locator("#begin").click();
            assertThat(page.locator("#steps-title")).hasText("Still to do");
            assertThat(page.locator(".steps li").first()).containsText("Your site: sunset today at");
            assertThat(page.locator("#next-step")).hasText("Next: A tray");
            assertThat(page.locator("#site-name")).hasText("Alder Lane Nursery");
            shot("steps");
        }

        private void addTrays() {
            page.locator("nav.pages").getByText("Trays").click();
            page.locator("#format").selectOption("72");
            page.locator("#how-many").fill("2");
            page.locator("#add-trays").click();
            assertThat(page.locator("#told")).containsText("T01 to T02 are added.");
            for (String tray : new String[] {"T01", "T02"}) {
                page.locator("#sow-" + tray + " > summary").click();
                page.locator("#many-" + tray + " > summary").click();
                page.locator("#paste-" + tray).fill("Copper Lantern\ttomato\t1-3\nLong Meadow\ttomato\t4-6\n");
                page.locator("#sow-many-" + tray).click();
                assertThat(page.locator("#told")).containsText("2 sowings are in " + tray);
            }
            shot("trays");
            order();
        }

        /** By keys alone, there and back. */
        private void order() {
            Locator first = page.locator("[data-tray]").first();
            page.locator("#right-T01").focus();
            page.keyboard().press("Enter");
            assertThat(page.locator("#told")).containsText("T01 and T02 have changed places");
            assertThat(first).hasAttribute("data-tray", "T02");
            page.locator("#left-T01").focus();
            page.keyboard().press("Enter");
            assertThat(first).hasAttribute("data-tray", "T01");
        }

        private void findSensors() {
            sensors.set("node-1", 2100);
            sensors.set("node-2", 2050);
            page.locator("nav.pages").getByText("Sensors").click();
            assertThat(page.locator("#heard > details")).hasCount(3);
            Locator live = page.locator("[data-field='alder/node-2 /soil'] output");
            assertThat(live).hasText("2050");
            page.locator("#which").click();
            sensors.set("node-2", 1600);
            assertThat(page.locator("[data-field='alder/node-2 /soil'] .moves-word")).containsText("this one moves");
            assertThat(page.locator(".sensor-field.moves")).hasCount(1);
            assertThat(page.locator("#measures-alder-node-2-0")).hasValue("moisture");
            assertThat(page.locator("#measures-alder-air-0")).hasValue("air-temperature");
            shot("sensors");
            sensors.set("node-2", 1400);
        }

        private void placeSensors() {
            place("alder-node-1", "T01", "3/6");
            place("alder-node-2", "T02", "3/6");
            Chromium.unfold(page.locator("#topic-alder-air"));
            page.locator("#assign-alder-air").click();
            assertThat(page.locator("#told")).containsText("alder/air stands in propagation");
            assertThat(page.locator("[data-probe]")).hasCount(6);
            shot("placed");
        }

        private void place(String sensor, String tray, String cell) {
            Chromium.unfold(page.locator("#topic-" + sensor));
            page.locator("#tray-" + sensor).selectOption(tray);
            page.locator("#topic-" + sensor + " [data-cell='" + cell + "']").click();
            assertThat(page.locator("#row-" + sensor)).hasValue("3");
            page.locator("#assign-" + sensor).click();
            assertThat(page.locator("#told")).containsText("stands in " + tray + ", row 3, column 6");
        }

        private void calibrate() {
            open("alder-node-1-moisture");
            holdEnds();
            keep("node-1", "alder-node-1-moisture");
            open("alder-node-2-moisture");
            weigh();
            keep("node-2", "alder-node-2-moisture");
            coolDown("alder-node-1-temperature");
        }

        private void open(String probe) {
            page.locator("[data-probe='" + probe + "'] a.button").click();
        }

        private void holdEnds() {
            hold("dry", "node-1", 2900);
            page.locator("#show-effect").click();
            assertThat(page.locator("#told")).containsText("two ends are needed");
            hold("wet", "node-1", 2900);
            page.locator("#show-effect").click();
            assertThat(page.locator("#told")).containsText("not apart by more than the readings spread");
            hold("wet", "node-1", 1300);
        }

        /** The wet end by a kitchen scale. */
        private void weigh() {
            hold("dry", "node-2", 2900);
            page.locator("#weighing > summary").click();
            hold("weighed", "node-2", 1300);
            page.locator("#w-dry").fill("900");
            page.locator("#w-drained").fill("3400");
            page.locator("#w-now").fill("400");
            page.locator("#show-effect").click();
            assertThat(page.locator("#told")).containsText("the weights do not fit");
            page.locator("#w-now").fill("3400");
        }

        private void keep(String sensor, String probe) {
            page.locator("#show-effect").click();
            assertThat(page.locator("#effect-sentence"))
                    .containsText("counts; with the new calibration it would have told 0 % to 100 %");
            assertThat(page.locator("#told")).isEmpty();
            shot("calibrated-" + sensor);
            sensors.set(sensor, MOIST);
            sensors.sendSteadily();
            assertThat(page.locator("#back-in-cell")).isChecked();
            page.locator("#keep-all").click();
            assertThat(page.locator("#told")).containsText(probe + " is calibrated, for all its readings");
        }

        /** In ice water it reads 0.4 C too much. */
        private void coolDown(String probe) {
            open(probe);
            sensors.warm(0.4);
            page.locator("#hold-ice").click();
            sensors.sendSteadily();
            assertThat(page.locator("#held-ice")).containsText("0.4, spread 0.");
            page.locator("#take-ice").click();
            page.locator("#ice-effect").click();
            assertThat(page.locator("#new-calibration")).containsText("-0.4 °C added to what it sends");
            sensors.warm(SimulatedSensors.ROOM_C);
            sensors.sendSteadily();
            page.locator("#keep-all").click();
            assertThat(page.locator("#told")).containsText(probe + " is calibrated");
        }

        private void hold(String end, String sensor, int counts) {
            sensors.set(sensor, counts);
            page.locator("#hold-" + end).click();
            sensors.sendSteadily();
            assertThat(page.locator("#held-" + end)).containsText(counts + ", spread 0.");
            page.locator("#take-" + end).click();
            assertThat(page.locator("#held-" + end)).containsText("Taken: " + counts);
        }

        /** T01 dries below its dry line as a tray in the sun does, T02 hardly, while nobody hears them: they keep it and send it after. */
        private void dryOut() throws Exception {
            Instant begun = clock.instant();
            sensors.outOfReach();
            ahead.set(DRYING);
            for (int minute = 5; minute <= DRYING.toMinutes(); minute += 5) {
                int restless = minute / 5 % 3;
                sensors.set("node-1", MOIST + minute * 0.6 + restless);
                sensors.set("node-2", MOIST + minute * 0.06 + restless);
                sensors.sendKept(begun.plus(Duration.ofMinutes(minute)));
            }
            sensors.backInReach();
            page.navigate(home.toString());
            Locator first = page.locator("article.alert").first();
            assertThat(first).containsText("T01: Water");
            assertThat(first).containsText("dry line");
            assertThat(page.locator("article.alert")).hasCount(1);
            picture("alert");
        }

        private void move() throws Exception {
            Instant before = clock.instant().truncatedTo(ChronoUnit.MINUTES).minusSeconds(1);
            String readings = READINGS + "&from=2020-01-01T00:00:00Z&to=" + before;
            String told = get(readings);
            String alert = page.locator("article.alert").first().getAttribute("data-alert");
            ahead.updateAndGet(so -> so.plus(Duration.ofMinutes(2)));
            page.navigate(home + "setup/sensors");
            String probe = "alder-node-1-moisture";
            page.locator("[id='move-" + probe + "'] > summary").click();
            page.locator("[id='tray-to-" + probe + "']").selectOption("T02");
            page.locator("[id='row-to-" + probe + "']").fill("1");
            page.locator("[id='column-to-" + probe + "']").fill("1");
            page.locator("[id='do-move-" + probe + "']").click();
            assertThat(page.locator("#told")).containsText("stands in T02, row 1, column 1 from");
            shot("moved");

            await().until(() -> get("api/v1/probes").contains("\"row\":1,\"column\":1"));
            await().atMost(Duration.ofMinutes(2)).until(() -> get("api/v1/coverage").contains("\"probed\":[\"T02\"]"));
            assertThat(get(readings)).isEqualTo(told);
            assertThat(get("api/v1/alerts?tray=T01")).contains(alert);
            assertThat(Files.readString(site.resolve("site.yaml"))).contains("{tray: T01, row: 3, column: 6}", "{tray: T02, row: 1, column: 1, since: ");
            page.navigate(home + "trays/T01");
            assertThat(page.locator("#judged")).containsText("No probe");
            picture("judged");
            page.navigate(home.toString());
            assertThat(page.locator("#coverage")).containsText("1 of 2 trays have a probe");
            page.navigate(home + "setup");
            assertThat(page.locator("#past-title + .field + ol li").first()).containsText("moved");
            shot("history");
            page.navigate(home + "setup/devices");
            device();
            page.evaluate("document.querySelectorAll('details').forEach((one) => { one.open = true; })");
            shot("devices");
            page.navigate(home + "setup/placing");
            shot("placing");
        }

        /** A device's own user; what the page then shows is typed as it stands, and heard. */
        private void device() throws Exception {
            page.locator("#device").fill("node-3");
            assertThat(page.locator("#device-topics")).hasValue("alder/node-3/#");
            assertThat(page.locator("#let-in")).isDisabled();
            page.locator("#give").click();
            assertThat(page.locator("#let-in")).isEnabled();
            assertThat(page.locator("#given-qr")).isVisible();
            assertThat(page.locator("#given-password")).hasText(Pattern.compile("[a-z2-9]{20}"));
            assertThat(page.locator("#given-topic")).hasText("alder/node-3");
            assertThat(page.locator("#heard-of-it")).hasText("Nothing is heard of it yet.");
            String line = page.locator("#try-line").innerText();
            assertThat(line).contains(" -u node-3 -P ", " -t alder/node-3 ");
            assertThat(new ProcessBuilder("sh", "-c", line).inheritIO().start().waitFor()).isZero();
            assertThat(page.locator("#heard-of-it")).containsText("It speaks: {\"soil\": 2100, \"temp\": 21.4}");
            assertThat(page.locator("#sketch-text")).containsText("TOPIC = \"alder/node-3\"");
        }

        private String get(String path) throws Exception {
            return http
                    .send(HttpRequest.newBuilder(URI.create(home + path)).build(), HttpResponse.BodyHandlers.ofString())
                    .body();
        }

        /** Looks at the page at a desk too, and holds it to what is sound for everyone. */
        private void shot(String name) {
            picture(name);
            assertThat(Axe.violations(page)).as(name).isEmpty();
        }

        /** Looks at a view that other tests hold to what is sound. */
        private void picture(String name) {
            for (int width : new int[] {DESK, PHONE}) {
                page.setViewportSize(width, HEIGHT);
                Chromium.picture(page, "setup-" + name + "-" + width, true);
                assertThat(page.evaluate("document.documentElement.scrollWidth <= document.documentElement.clientWidth"))
                        .as("%s fits into %d pixels", name, width)
                        .isEqualTo(true);
            }
        }
    }
}
