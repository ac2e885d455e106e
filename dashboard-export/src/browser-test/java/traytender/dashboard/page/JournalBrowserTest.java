package traytender.dashboard.page;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;
import traytender.config.journal.JournalEntry;
import traytender.ingest.store.KeptEntry;
import traytender.testing.NeedsServer;

/** The journal as a thumb writes it on a phone. */
@NeedsServer("chromium")
class JournalBrowserTest {
    @RegisterExtension
    static final BrowserBench browser = new BrowserBench();
    private Page page;

    @BeforeEach
    void open() {
        page = browser.open("/journal", BrowserBench.PHONE);
    }

    @Test
    void entry_isWrittenByTapsAlone_andTakenBackByOneMore() {
        tap("Watered");
        tap("T01");
        tap("front left corner");
        tap("below");
        page.locator("#write").click();

        assertThat(page.locator("#told")).containsText("Watered, T01: written.");
        assertThat(entries().first()).containsText("12:00 T01 Watered: the front left corner, from below");
        assertThat(counting())
                .extracting(JournalEntry::detailText)
                .containsExactly("zones=centre;in a hurry", "from=below;zones=corner-front-left");

        page.locator("#undo").click();

        assertThat(page.locator("#told")).containsText("Taken back.");
        assertThat(entries()).hasCount(1);
        assertThat(counting()).hasSize(1);
    }

    @Test
    void entryAboutTheMorning_standsAtItsOwnTime() {
        tap("Fed");
        tap("T01");
        page.locator("#time").fill("2026-03-14T06:30");
        page.locator("#note").fill("half strength");
        page.locator("#write").click();

        assertThat(entries().first()).containsText("06:30 T01 Fed: half strength");
        assertThat(counting().get(1).time()).isEqualTo("2026-03-14T06:30:00Z");
    }

    @Test
    void withdrawnEntry_staysVisibleAsWithdrawn() {
        page.locator("[data-entry] button").getByText("Withdraw").click();

        assertThat(page.locator("#told")).containsText("It stays on record.");
        assertThat(entries()).hasCount(0);
        page.locator("#past").click();
        assertThat(entries().first()).containsText("(withdrawn)");
        page.locator("[data-entry] button").getByText("Let it count again").click();
        assertThat(page.locator("[data-entry] button").getByText("Withdraw")).isVisible();
        assertThat(counting()).hasSize(1);
    }

    @Test
    void correction_showsTheRightEntryAndKeepsTheWrongOne() {
        page.locator("[data-entry] button").getByText("Correct").click();
        assertThat(page.locator("#time")).hasValue("2026-03-13T16:00");
        tap("Fed");
        page.locator("#write").click();

        assertThat(page.locator("#told")).containsText("Corrected");
        assertThat(entries()).hasCount(1);
        assertThat(entries().first()).containsText("16:00 T01 Fed: in a hurry");
        page.locator("#past").click();
        assertThat(page.locator(".entry.corrected")).containsText("corrected since");
    }

    @Test
    void nothingChosen_saysWhatIsMissing() {
        page.locator("#write").click();

        assertThat(page.locator("#told")).containsText("Say for which tray first.");
        assertThat(counting()).hasSize(1);
    }

    @Test
    void whatSomebodyElseWrites_appearsWhileAFormIsBeingFilled() {
        page.locator("#note").fill("half a sen");

        browser.bench().write(List.of(JournalEntry.of(
                BenchFixture.NOW, "T01", traytender.config.journal.EntryKind.TURNED, "")));

        assertThat(entries()).hasCount(2);
        assertThat(page.locator("#note")).hasValue("half a sen");
    }

    private void tap(String words) {
        page.locator(".chip", new Page.LocatorOptions().setHasText(java.util.regex.Pattern.compile("^" + words + "$")))
                .first()
                .click();
    }

    private Locator entries() {
        return page.locator("[data-entry]");
    }

    private List<JournalEntry> counting() {
        return browser.bench().journal().stream()
                .filter(KeptEntry::counts)
                .map(KeptEntry::entry)
                .toList();
    }
}
