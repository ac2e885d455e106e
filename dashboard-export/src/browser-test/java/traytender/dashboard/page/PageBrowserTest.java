package traytender.dashboard.page;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.deque.html.axecore.playwright.AxeBuilder;
import com.deque.html.axecore.results.Rule;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import com.microsoft.playwright.options.ColorScheme;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import traytender.config.alert.Urgency;
import traytender.testing.NeedsServer;

/** The page as a person meets it: a real browser at a desk and on a phone, by day and by night. */
@NeedsServer("chromium")
class PageBrowserTest {
    private static final Path SCREENSHOTS = Path.of("target", "screenshots");
    private static final List<String> VIEWS =
            List.of("/", "/trays", "/trays/T01", "/nights", "/nights/2026-03-13", "/journal", "/limits", "/probes", "/alerts", "/messages");

    private static Chromium chromium;

    @TempDir
    Path folder;

    private BenchFixture bench;
    private PageServer server;

    @BeforeAll
    static void launch() {
        chromium = new Chromium();
    }

    @AfterAll
    static void quit() {
        chromium.close();
    }

    @BeforeEach
    void serve() throws IOException {
        chromium.troubles.clear();
        bench = BenchFixture.in(folder);
        server = PageServer.start(bench, bench, new PageSettings("127.0.0.1", 0, folder.resolve("page.password")));
    }

    @AfterEach
    void close() {
        server.close();
        bench.close();
    }

    static Stream<Arguments> everyView() {
        return VIEWS.stream()
                .flatMap(view -> Stream.of(1280, 390)
                        .flatMap(width -> Stream.of(ColorScheme.LIGHT, ColorScheme.DARK)
                                .map(scheme -> Arguments.of(view, width, scheme))));
    }

    @ParameterizedTest
    @MethodSource("everyView")
    void view_isSoundForEveryone(String view, int width, ColorScheme scheme) {
        Page page = open(view, width, scheme);

        // What is folded must be as sound as what is seen at once.
        page.evaluate("document.querySelectorAll('details').forEach((one) => { one.open = true; })");
        page.screenshot(new Page.ScreenshotOptions()
                .setPath(SCREENSHOTS.resolve(name(view, width, scheme)))
                .setFullPage(true));
        List<Rule> violations = new AxeBuilder(page).analyze().getViolations();

        assertThat(violations)
                .as("axe")
                .map(rule -> rule.getId() + " " + rule.getNodes())
                .isEmpty();
        assertThat(chromium.troubles).isEmpty();
        assertThat(page.evaluate("document.documentElement.scrollWidth <= document.documentElement.clientWidth"))
                .as("nothing runs out of the page sideways")
                .isEqualTo(true);
        page.context().close();
    }

    @Test
    void axe_findsWhatIsUnsound() {
        Page page = open("/", 1280, ColorScheme.LIGHT);
        page.evaluate("document.querySelector('main').append(document.createElement('img'))");

        assertThat(new AxeBuilder(page).analyze().getViolations())
                .extracting(Rule::getId)
                .contains("image-alt");
        page.context().close();
    }

    @Test
    void newAlert_appearsWithoutAReload() {
        Page page = open("/", 1280, ColorScheme.LIGHT);
        page.evaluate("window.notReloaded = true");
        assertThat(page.locator("[data-alert=fresh]")).hasCount(0);

        bench.open(BenchFixture.dry("fresh", Urgency.NOW, BenchFixture.NOW));

        assertThat(page.locator("[data-alert=fresh]")).isVisible();
        assertThat(page.evaluate("window.notReloaded")).isEqualTo(true);
        assertThat(page.locator("#news")).containsText("Water it by 13:00.");
        page.context().close();
    }

    @Test
    void startPage_tellsWhatToDoWhereAndUntilWhenTheMostUrgentFirst() {
        Page page = open("/", 1280, ColorScheme.LIGHT);

        Locator alerts = page.locator("article.alert");
        assertThat(alerts).hasCount(2);
        assertThat(alerts.first()).containsText("T01: Unplug the mat.");
        assertThat(alerts.nth(1)).containsText("until about 13:00 (12:50 to 13:10)");
        page.context().close();
    }

    @Test
    void emptyBench_saysUntilWhenThereIsNothingToDo() {
        bench.alerts.clear();

        Page page = open("/", 390, ColorScheme.LIGHT);

        assertThat(page.locator(".nothing")).hasText("Nothing to do until about 13:00.");
        page.context().close();
    }

    @Test
    void whatASensorSent_isShownAsTextNotAsMarkup() {
        Page page = open("/messages", 1280, ColorScheme.LIGHT);

        assertThat(page.getByText("<img src=x onerror=alert(1)>")).isVisible();
        assertThat(page.locator("main img")).hasCount(0);
        page.context().close();
    }

    @Test
    void programGone_isSaid() {
        Page page = open("/", 1280, ColorScheme.LIGHT);
        assertThat(page.locator("#link-state")).containsText("live");

        server.close();

        assertThat(page.locator("#link-state")).containsText("cut off from the program since");
        page.context().close();
    }

    @Test
    void programThatCannotStore_saysSoAboveEveryView() {
        bench.health = new BenchFacts.Health(
                List.of("readings cannot be stored: the disk is full"), List.of("InfluxDB takes no readings"));
        Page page = open("/trays", 1280, ColorScheme.LIGHT);

        assertThat(page.locator("#health")).containsText("readings cannot be stored: the disk is full");
        assertThat(page.locator("#health")).containsText("InfluxDB takes no readings");
        page.context().close();
    }

    @Test
    void trayOnAPhone_standsUprightWithItsFrontAtTheLeft() {
        Page page = open("/trays/T01", 390, ColorScheme.LIGHT);

        assertThat(page.locator(".big-map svg")).hasAttribute("viewBox", "-3 -3 44 84");
        assertThat(page.getByText("The front of the tray is on the left.")).isVisible();
        page.context().close();
    }

    @Test
    void tray_isFoundAndReadByKeyboardAlone() {
        Page page = open("/", 1280, ColorScheme.LIGHT);

        Locator link = page.locator("article.alert a").first();
        for (int presses = 0;
                presses < 20 && !(boolean) link.evaluate("(it) => it === document.activeElement");
                presses++) {
            page.keyboard().press("Tab");
        }
        page.keyboard().press("Enter");

        assertThat(page.getByRole(
                        AriaRole.HEADING,
                        new Page.GetByRoleOptions().setName("T01").setExact(true)))
                .isVisible();
        page.context().close();
    }

    private Page open(String view, int width, ColorScheme scheme) {
        Page page = chromium.open(width, 900, scheme, server.address());
        page.navigate(server.address() + view.substring(1));
        page.waitForSelector("main h1");
        if (page.locator(".plot").count() > 0) {
            page.waitForSelector(".plot canvas");
        }
        return page;
    }

    private static String name(String view, int width, ColorScheme scheme) {
        String place = view.equals("/") ? "to-do" : view.substring(1).replace('/', '-');
        return place + "-" + width + "-" + scheme.name().toLowerCase(Locale.ROOT) + ".png";
    }
}
