package traytender.dashboard.page;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.deque.html.axecore.playwright.AxeBuilder;
import com.deque.html.axecore.results.Rule;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.ColorScheme;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import traytender.config.crop.Stage;
import traytender.config.journal.EntryKind;
import traytender.config.journal.JournalEntry;
import traytender.testing.NeedsServer;

/** What a dry line 5 points higher would have done last week, found out from the page alone. */
@NeedsServer("chromium")
class LimitsBrowserTest {
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
        bench.storeReadings();
        server = PageServer.start(bench, bench, new PageSettings("127.0.0.1", 0, folder.resolve("page.password")));
    }

    @AfterEach
    void close() {
        server.close();
        bench.close();
        assertThat(chromium.troubles).isEmpty();
    }

    @Test
    void dryLineFivePointsHigher_isAnsweredInTwoTaps() {
        // They came up four days ago: that a pace of 52 points a day asks for potting up is not said of cotyledons.
        Instant up = BenchFixture.NOW.minus(Duration.ofDays(4));
        bench.write(List.of(new JournalEntry(up, "T01", EntryKind.STAGE, Map.of("stage", "seedling"), "")));
        for (int width : new int[] {1280, 390}) {
            Page page = open(width);
            page.locator("#pages").getByText("Limits").click();
            page.locator("#try").click();

            assertThat(page.locator("#answer-title")).hasText("The dry line 5 points higher");
            assertThat(page.locator("#answer-sentence")).containsText("Over the last 7 days:");
            assertThat(page.locator("#answer-sentence")).containsText("earlier, by 2 h");
            assertThat(page.locator("#differences tbody tr").first()).containsText("earlier by 2 h");
            page.evaluate("document.querySelectorAll('details').forEach((one) => { one.open = true; })");
            page.screenshot(new Page.ScreenshotOptions()
                    .setPath(Path.of("target", "screenshots", "limits-answered-" + width + ".png"))
                    .setFullPage(true));
            assertThat(new AxeBuilder(page).analyze().getViolations())
                    .map(Rule::getId)
                    .isEmpty();
            assertThat(page.evaluate("document.documentElement.scrollWidth <= document.documentElement.clientWidth"))
                    .isEqualTo(true);
            page.context().close();
        }
    }

    @Test
    void keptLimits_areInForceAndUndoneByOneTap() {
        Page page = open(390);
        page.locator("#pages").getByText("Limits").click();
        page.locator("#try-stage").selectOption("seedling");
        page.locator("#less").click();
        page.locator("#try").click();
        page.locator("#who").fill("Mira");
        page.locator("#why").fill("they droop");
        page.locator("#keep").click();

        assertThat(page.locator("#told")).containsText("Kept: seedling: the dry line 4 points higher.");
        assertThat(page.locator("[data-version]").first()).containsText("— Mira: they droop");
        assertThat(bench.crops().get("tomato").limits(Stage.SEEDLING).dryLine()).isEqualTo(0.49);

        page.locator("#undo").click();

        assertThat(page.locator("#told")).containsText("Taken back.");
        assertThat(bench.crops().get("tomato").limits(Stage.SEEDLING).dryLine()).isEqualTo(0.45);
        page.locator("#back-2").click();
        assertThat(page.locator("#told")).containsText("Version 2 of crops/tomato.yaml is back.");
        assertThat(bench.crops().get("tomato").limits(Stage.SEEDLING).dryLine()).isEqualTo(0.49);
        page.context().close();
    }

    private Page open(int width) {
        Page page = chromium.open(width, 900, ColorScheme.LIGHT, server.address());
        page.navigate(server.address().toString());
        page.waitForSelector("main h1");
        return page;
    }
}
