package traytender.dashboard.page;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;
import traytender.config.alert.Urgency;
import traytender.ingest.store.KeptEntry;
import traytender.testing.NeedsServer;

/** The round as a grower walks it, phone in hand. The fixture's a1 is drying soon, a2 a mat too hot. */
@NeedsServer("chromium")
class RoundBrowserTest {
    @RegisterExtension
    static final BrowserBench browser = new BrowserBench();
    private Page page;

    @BeforeEach
    void open() {
        page = browser.open("/", BrowserBench.PHONE);
    }

    @Test
    void oneTap_writesTheWateringAndClearsTheLine_andUndoBringsBoth() {
        page.locator("#below-a1").click();

        assertThat(page.locator("#told")).containsText("Written: T01 watered from below, the front left corner.");
        assertThat(line("a1")).hasCount(0);
        assertThat(page.locator("#answered summary")).hasText("Seen to: 1");
        assertThat(newEntries()).containsExactly("from=below;zones=corner-front-left");

        page.locator("#undo").click();

        assertThat(line("a1")).isVisible();
        assertThat(newEntries()).isEmpty();
    }

    @Test
    void whatOneWalkSettles_isOneLine() {
        browser.bench().open(BenchFixture.dry("a4", Urgency.NOW, BenchFixture.NOW));

        assertThat(page.locator("article.alert")).hasCount(2);
        assertThat(page.locator("article[data-alert=a4] .also li")).hasCount(1);
        page.locator("#above-a4").click();

        assertThat(page.locator("article.alert")).hasCount(1);
        assertThat(browser.bench().marks()).containsOnlyKeys("a1", "a4");
        assertThat(newEntries()).containsExactly("from=above;zones=corner-front-left");
    }

    @Test
    void later_takesTheLineAwayForTheHoursChosen() {
        page.locator("#later-hours").selectOption("4");
        page.locator("#later-a2").click();

        assertThat(page.locator("#told")).containsText("asks again in 4 hours");
        assertThat(line("a2")).hasCount(0);
        page.locator("#answered summary").click();
        assertThat(page.locator("#answered li")).containsText("later at 12:00; asks again at 16:00 if it is still so");
        page.locator("#undo-a2").click();
        assertThat(line("a2")).isVisible();
    }

    @Test
    void notSo_isKeptAsAFalseAlarm() {
        page.locator("#not-so-a1").click();

        assertThat(page.locator("#told")).containsText("Kept as a false alarm: T01, front left corner, drying soon.");
        assertThat(line("a1")).hasCount(0);
        assertThat(browser.bench().marks().get("a1").mark().word()).isEqualTo("not-so");
    }

    @Test
    void seen_staysOnTheRound() {
        page.locator("#seen-a2").click();

        assertThat(line("a2")).containsText("seen at 12:00");
        assertThat(page.locator("#seen-a2")).hasCount(0);
    }

    @Test
    void everythingSeenTo_saysSo() {
        page.locator("#not-so-a1").click();
        page.locator("#not-so-a2").click();

        assertThat(page.locator(".nothing")).hasText("Nothing to do until about 13:00.");
    }

    @Test
    void wantsWater_isOneTap() {
        page.locator("#wants-T01").click();

        assertThat(page.locator("#told")).containsText("Noted: you would water T01 now.");
        assertThat(browser.bench().journal().get(1).entry().kind().word()).isEqualTo("wants-water");
    }

    @Test
    void willItLast_isAnsweredForEveryTray() {
        page.locator("#night summary").click();

        assertThat(page.locator("#night summary")).hasText("Will it last until 07:00 tomorrow? 0 of 1 tray will.");
        assertThat(page.locator("#night li"))
                .hasText("T01 ✕ no: front left corner dry about 13:00 (12:50 to 13:10)");
    }

    @Test
    void manyDryTraysOfABench_areOneLine_andTheEarliestBenchComesFirst() {
        Object round = page.evaluate("""
                async () => {
                  const { roundOf } = await import("/web/round.js");
                  const now = Date.parse("2026-03-14T12:00:00Z");
                  const alert = (tray, kind, urgency, expected) => ({ id: tray + kind, tray, kind, urgency, zone: "centre",
                    opened: "2026-03-14T11:00:00Z", expected });
                  const trays = ["A", "B", "C", "D", "E"].map((id) => ({ id, room: "tunnel", bench: id === "E" ? "south" : "north" }));
                  const alerts = [
                    ...["A", "B", "C", "D"].map((id, i) => alert(id, "drying-soon", "today", `2026-03-14T1${4 + i}:00:00Z`)),
                    alert("A", "uneven-drying", "today"), alert("E", "drying-soon", "today", "2026-03-14T13:00:00Z"),
                    alert("B", "pot-up-due", "note"),
                  ];
                  const { benches, notes } = roundOf(alerts, trays, now);
                  return benches.map(({ bench, lines }) => `${bench}: ${lines.map(({ alerts: of, whole }) =>
                    (whole ? "all " : "") + of.map(({ id }) => id).join("+")).join(", ")}`).concat(notes.map(({ id }) => id));
                }""");

        assertThat(round)
                .isEqualTo(List.of(
                        "south: Edrying-soon",
                        "north: all Adrying-soon+Bdrying-soon+Cdrying-soon+Ddrying-soon, Auneven-drying",
                        "Bpot-up-due"));
    }

    @Test
    void willItLast_knowsWhatItDoesNotKnow() {
        Object answers = page.evaluate("""
                async (zones) => {
                  const { lasts } = await import("/web/round.js");
                  const until = Date.parse("2026-03-15T07:00:00Z");
                  const zone = (moisture, rate, hours) => ({ zone: "centre", moisture, rate, dryLine: 0.45,
                    expected: hours && `2026-03-15T${hours[1]}:00:00Z`, earliest: hours && `2026-03-15T${hours[0]}:00:00Z` });
                  return [[zone(0.4, 0.02)], [zone(0.6, 0.02, ["05", "06"])], [zone(0.6, 0.02, ["06", "08"])],
                    [zone(0.6, 0.02, ["08", "09"])], [zone(0.9, 0.001)], [zone(0.9, null)], [zone(null, null)], [],
                    [zone(0.9, 0.001), zone(0.5, 0.02, ["03", "04"])]].map((of) => lasts({ zones: of }, until).answer);
                }""", Map.of());

        assertThat(answers)
                .isEqualTo(List.of("dry", "no", "perhaps", "yes", "yes", "unknown", "unknown", "unknown", "no"));
    }

    private Locator line(String alert) {
        return page.locator("[data-alert=" + alert + "]");
    }

    private List<String> newEntries() {
        return browser.bench().journal().stream()
                .filter(KeptEntry::counts)
                .map(KeptEntry::entry)
                .filter(entry -> entry.time().equals(BenchFixture.NOW))
                .map(entry -> entry.detailText())
                .toList();
    }
}
