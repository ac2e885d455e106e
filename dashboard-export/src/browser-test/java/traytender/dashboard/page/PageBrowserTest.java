package traytender.dashboard.page;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.AriaRole;
import com.microsoft.playwright.options.ColorScheme;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import traytender.config.alert.Urgency;
import traytender.testing.NeedsServer;

/** The page as a person meets it: a real browser at a desk and on a phone, by day and by night. */
@NeedsServer("chromium")
class PageBrowserTest {
    private static final List<String> VIEWS =
            List.of("/", "/trays", "/trays/T01", "/nights", "/nights/2026-03-13", "/journal", "/limits", "/probes", "/alerts", "/messages");

    private static final String PICTURE_OF_THE_FIRST_CHART = "() => document.querySelector('.plot canvas').toDataURL()";

    @RegisterExtension
    static final BrowserBench browser = new BrowserBench();

    static Stream<Arguments> everyView() {
        return VIEWS.stream().flatMap(view -> Stream.of(BrowserBench.DESK, BrowserBench.PHONE).map(width -> Arguments.of(view, width)));
    }

    @ParameterizedTest
    @MethodSource("everyView")
    void view_isSoundForEveryoneByDayAndByNight(String view, int width) {
        Page page = browser.open(view, width);

        String name = (view.equals("/") ? "to-do" : view.substring(1).replace('/', '-')) + "-" + width;
        BrowserBench.assertSound(page, name + "-light");
        BrowserBench.assertSoundInTheDark(page, name + "-dark");
    }

    @Test
    void chart_takesTheColoursOfTheNightWhileItIsLookedAt() {
        Page page = browser.open("/trays/T01", BrowserBench.DESK);
        Object byDay = page.evaluate(PICTURE_OF_THE_FIRST_CHART);

        page.emulateMedia(new Page.EmulateMediaOptions().setColorScheme(ColorScheme.DARK));

        page.waitForFunction("(byDay) => (" + PICTURE_OF_THE_FIRST_CHART + ")() !== byDay", byDay);
        page.emulateMedia(new Page.EmulateMediaOptions().setColorScheme(ColorScheme.LIGHT));
        page.waitForFunction("(byDay) => (" + PICTURE_OF_THE_FIRST_CHART + ")() === byDay", byDay);
    }

    @Test
    void axe_findsWhatIsUnsound() {
        Page page = browser.open("/", BrowserBench.DESK);
        page.evaluate("document.body.append(document.createElement('img'))");

        assertThat(Axe.violations(page)).anyMatch(violation -> violation.startsWith("image-alt"));
    }

    @Test
    void newAlert_appearsWithoutAReload() {
        Page page = browser.open("/", BrowserBench.DESK);
        page.evaluate("window.notReloaded = true");
        assertThat(page.locator("[data-alert=fresh]")).hasCount(0);

        browser.bench().open(BenchFixture.dry("fresh", Urgency.NOW, BenchFixture.NOW));

        assertThat(page.locator("[data-alert=fresh]")).isVisible();
        assertThat(page.evaluate("window.notReloaded")).isEqualTo(true);
        assertThat(page.locator("#news")).containsText("Water it by 13:00.");
    }

    @Test
    void startPage_tellsWhatToDoWhereAndUntilWhenTheMostUrgentFirst() {
        Page page = browser.open("/", BrowserBench.DESK);

        Locator alerts = page.locator("article.alert");
        assertThat(alerts).hasCount(2);
        assertThat(alerts.first()).containsText("T01: Unplug the mat.");
        assertThat(alerts.nth(1)).containsText("until about 13:00 (12:50 to 13:10)");
    }

    @Test
    void emptyBench_saysUntilWhenThereIsNothingToDo() {
        browser.bench().alerts.clear();

        Page page = browser.open("/", BrowserBench.PHONE);

        assertThat(page.locator(".nothing")).hasText("Nothing to do until about 13:00.");
    }

    @Test
    void whatASensorSent_isShownAsTextNotAsMarkup() {
        Page page = browser.open("/messages", BrowserBench.DESK);

        assertThat(page.getByText("<img src=x onerror=alert(1)>")).isVisible();
        assertThat(page.locator("main img")).hasCount(0);
    }

    @Test
    void programGone_isSaid() {
        Page page = browser.open("/", BrowserBench.DESK);
        assertThat(page.locator("#link-state")).containsText("live");

        browser.server().close();

        assertThat(page.locator("#link-state")).containsText("cut off from the program since");
    }

    @Test
    void otherViews_areThereWhenTheProgramIsNot() {
        Page page = browser.open("/", BrowserBench.DESK);
        page.waitForFunction("() => performance.getEntriesByType('resource').some(({ name }) => name.endsWith('/setup/placing.js'))");

        browser.server().close();
        page.getByRole(AriaRole.LINK, new Page.GetByRoleOptions().setName("Trays").setExact(true)).click();

        assertThat(page.locator("main h1")).hasText("Rooms, mats and trays");
        assertThat(page.locator("main article")).not().hasCount(0);
        browser.forgiveTroubles();
    }

    @Test
    void programThatCannotStore_saysSoAboveEveryView() {
        browser.bench().health = new BenchFacts.Health(
                List.of("readings cannot be stored: the disk is full"), List.of("InfluxDB takes no readings"));
        Page page = browser.open("/trays", BrowserBench.DESK);

        assertThat(page.locator("#health")).containsText("readings cannot be stored: the disk is full");
        assertThat(page.locator("#health")).containsText("InfluxDB takes no readings");
    }

    @Test
    void trayOnAPhone_standsUprightWithItsFrontAtTheLeft() {
        Page page = browser.open("/trays/T01", BrowserBench.PHONE);

        assertThat(page.locator(".big-map svg")).hasAttribute("viewBox", "-3 -19 44 100");
        assertThat(page.getByText("The front of the tray is on the left.")).isVisible();
    }

    @Test
    void tray_isFoundAndReadByKeyboardAlone() {
        Page page = browser.open("/", BrowserBench.DESK);

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
    }
}
