package traytender.dashboard.page;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Page;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;
import traytender.config.crop.Stage;
import traytender.config.journal.EntryKind;
import traytender.config.journal.JournalEntry;
import traytender.testing.NeedsServer;

/** What a dry line 5 points higher would have done last week, found out from the page alone. */
@NeedsServer("chromium")
class LimitsBrowserTest {
    @RegisterExtension
    static final BrowserBench browser = new BrowserBench();

    @BeforeEach
    void store() {
        browser.bench().storeReadings();
    }

    @Test
    void dryLineFivePointsHigher_isAnsweredInTwoTaps() {
        // They came up four days ago: that a pace of 52 points a day asks for potting up is not said of cotyledons.
        Instant up = BenchFixture.NOW.minus(Duration.ofDays(4));
        browser.bench().write(List.of(new JournalEntry(up, "T01", EntryKind.STAGE, Map.of("stage", "seedling"), "")));
        for (int width : new int[] {1280, 390}) {
            Page page = browser.open("/", width);
            page.locator("#pages").getByText("Limits").click();
            page.locator("#try").click();

            assertThat(page.locator("#answer-title")).hasText("The dry line 5 points higher");
            assertThat(page.locator("#answer-sentence")).containsText("Over the last 7 days:");
            assertThat(page.locator("#answer-sentence")).containsText("earlier, by 2 h");
            assertThat(page.locator("#differences tbody tr").first()).containsText("earlier by 2 h");
            BrowserBench.assertSound(page, "limits-answered-" + width);
            }
    }

    @Test
    void keptLimits_areInForceAndUndoneByOneTap() {
        Page page = browser.open("/", BrowserBench.PHONE);
        page.locator("#pages").getByText("Limits").click();
        page.locator("#try-stage").selectOption("seedling");
        page.locator("#less").click();
        page.locator("#try").click();
        page.locator("#who").fill("Mira");
        page.locator("#why").fill("they droop");
        page.locator("#keep").click();

        assertThat(page.locator("#told")).containsText("Kept: seedling: the dry line 4 points higher.");
        assertThat(page.locator("[data-version]").first()).containsText("— Mira: they droop");
        assertThat(browser.bench().crops().get("tomato").limits(Stage.SEEDLING).dryLine()).isEqualTo(0.49);

        page.locator("#undo").click();

        assertThat(page.locator("#told")).containsText("Taken back.");
        assertThat(browser.bench().crops().get("tomato").limits(Stage.SEEDLING).dryLine()).isEqualTo(0.45);
        page.locator("#back-2").click();
        assertThat(page.locator("#told")).containsText("Version 2 of crops/tomato.yaml is back.");
        assertThat(browser.bench().crops().get("tomato").limits(Stage.SEEDLING).dryLine()).isEqualTo(0.49);
    }
}
