package traytender.dashboard.page;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.ColorScheme;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import traytender.config.journal.JournalEntry;
import traytender.ingest.store.KeptEntry;
import traytender.testing.NeedsServer;

/** The journal as a thumb writes it on a phone. */
@NeedsServer("chromium")
class JournalBrowserTest {
    private static Chromium chromium;

    @TempDir
    Path folder;

    private BenchFixture bench;
    private PageServer server;
    private Page page;

    @BeforeAll
    static void launch() {
        chromium = new Chromium();
    }

    @AfterAll
    static void quit() {
        chromium.close();
    }

    @BeforeEach
    void open() throws IOException {
        chromium.troubles.clear();
        bench = BenchFixture.in(folder);
        server = PageServer.start(bench, bench, new PageSettings("127.0.0.1", 0, folder.resolve("page.password")));
        page = chromium.open(390, 900, ColorScheme.LIGHT, server.address());
        page.navigate(server.address() + "journal");
        page.waitForSelector("main h1");
    }

    @AfterEach
    void close() {
        page.context().close();
        server.close();
        bench.close();
        assertThat(chromium.troubles).isEmpty();
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

        bench.write(List.of(JournalEntry.of(
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
        return bench.journal().stream()
                .filter(KeptEntry::counts)
                .map(KeptEntry::entry)
                .toList();
    }
}
