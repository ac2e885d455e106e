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
            assertThat(page.locator("#differences tbody").getByText("earlier by 2\u00a0h").first()).isVisible();
            BrowserBench.assertSound(page, "limits-answered-" + width);
            assertThat(page.locator("#outside-hours tbody tr").first()).containsText("T01");
            page.locator("#limits-tomato-seedling summary").click();
            assertThat(page.locator("#limits-tomato-seedling tbody tr").first()).containsText("T01 lowest 43.4 %");
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

        Page journal = browser.open("/journal", BrowserBench.PHONE);
        assertThat(journal.locator(".entries")).containsText("Limits every crop, seedling: dry-line +0.04 (crops/tomato.yaml), Mira: they droop");

        page.locator("#undo").click();

        assertThat(page.locator("#told")).containsText("Taken back.");
        assertThat(browser.bench().crops().get("tomato").limits(Stage.SEEDLING).dryLine()).isEqualTo(0.45);
        page.locator("#back-2").click();
        assertThat(page.locator("#told")).containsText("Version 2 of crops/tomato.yaml is back.");
        assertThat(browser.bench().crops().get("tomato").limits(Stage.SEEDLING).dryLine()).isEqualTo(0.49);
    }

    @Test
    void whatTheGrowerSaid_suggestsALine_whichIsTriedAndNotKept() {
        for (int days = 1; days <= 3; days++) {
            Instant evening = BenchFixture.NOW.minus(Duration.ofDays(days)).minus(Duration.ofHours(3));
            browser.bench().write(List.of(new JournalEntry(evening, "T01", EntryKind.WANTS_WATER, Map.of(), "")));
        }
        for (int width : new int[] {BrowserBench.DESK, BrowserBench.PHONE}) {
            Page page = browser.open("/limits", width);

            // Full at noon and losing 52 points a day: three hours before the next noon it stands at 0.95 - 0.52 * 21 / 24 = 49.5 percent.
            assertThat(page.locator(".suggestion-sentence"))
                    .hasText("Water was wanted or came late 3 times. The dry line of 45 % would have warned in time of 0 of 3;"
                            + " one of 51 % would have warned in time of 3 of 3.");
            BrowserBench.assertSound(page, "limits-suggested-" + width);
            page.locator("#try-tomato-seedling").click();

            assertThat(page.locator("#answer-title")).hasText("Tomato seedling: the dry line 6 points higher");
            assertThat(page.locator("#answer-sentence")).containsText("Over the last 30 days:");
        }
        assertThat(browser.bench().limits().versions()).as("nothing is kept by it").isEmpty();
    }
}
