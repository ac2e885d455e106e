package traytender.dashboard.page;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.google.gson.JsonArray;
import com.google.gson.JsonObject;
import com.microsoft.playwright.CDPSession;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.BoundingBox;
import com.microsoft.playwright.options.ReducedMotion;
import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;
import traytender.config.journal.EntryKind;
import traytender.config.journal.JournalEntry;
import traytender.testing.NeedsServer;

/** What a grower does besides the round: looks back, looks closer, carries trays out, sees to a mat that was told to rest. */
@NeedsServer("chromium")
class DayBrowserTest {
    /** What the first view may take over the network, in bytes. */
    private static final long FIRST_VIEW = 150_000;

    @RegisterExtension
    static final BrowserBench browser = new BrowserBench();

    @Test
    void trayIsLookedBackOn_byTheSliderAndItsKeys() {
        for (int width : new int[] {BrowserBench.DESK, BrowserBench.PHONE}) {
            Page page = browser.open("/trays/T01", width);
            Locator map = page.locator("#cells .tray-map");
            assertThat(map).hasAttribute("aria-label", "T01, 2 by 4 cells, driest first: front left corner 50\u00a0%.");

            page.locator("#look-back").click();
            assertThat(page.locator("#past-time")).isFocused();
            for (int press = 0; press < 8; press++) {
                page.keyboard().press("ArrowLeft");
            }

            // 72 hours in 48 steps: twelve hours ago the fixture was twelve percent wetter.
            assertThat(page.locator("#past-words")).hasText("As it was at 00:00");
            assertThat(map).hasAttribute("aria-label", "T01, 2 by 4 cells, driest first: front left corner 62\u00a0%.");
            assertThat(page.locator("#cells tbody tr").first()).containsText("62");
            BrowserBench.assertSound(page, "tray-looked-back-" + width);
            page.locator("#past-now").click();
            assertThat(page.locator("#cells-title")).hasText("Cells");
        }
    }

    @Test
    void chart_isZoomedByTwoFingersKeysAndButtons() {
        Page page = browser.open("/trays/T01", BrowserBench.PHONE);
        Locator shown = page.locator(".plot .readout").first();
        Locator plot = page.locator(".plot").first();

        pinch(page, page.locator(".plot .u-over").first());
        assertThat(shown).containsText("Shown: ");
        String byFingers = shown.textContent();

        page.getByLabel("All: Moisture").click();
        assertThat(shown).containsText("All is shown");
        plot.focus();
        page.keyboard().press("+");
        assertThat(shown).containsText("Shown: ");
        page.keyboard().press("0");
        assertThat(shown).containsText("All is shown");
        page.getByLabel("Closer: Moisture").click();
        assertThat(shown).containsText("Shown: ");
        assertThat(byFingers).isNotEqualTo(shown.textContent());
    }

    @Test
    void chart_isZoomedByDraggingTheMouse() {
        Page page = browser.open("/trays/T01", BrowserBench.DESK);
        Locator shown = page.locator(".plot .readout").first();
        Locator over = page.locator(".plot .u-over").first();
        over.scrollIntoViewIfNeeded();
        BoundingBox box = over.boundingBox();

        page.mouse().move(box.x + box.width * 0.4, box.y + box.height / 2);
        page.mouse().down();
        page.mouse().move(box.x + box.width * 0.6, box.y + box.height / 2);
        page.mouse().up();

        assertThat(shown).containsText("Shown: ");
        page.getByLabel("All: Moisture").click();
        assertThat(shown).containsText("All is shown");
    }

    /** Two fingers, put down close to each other and drawn apart, as Chromium takes them from a touch screen. */
    private static void pinch(Page page, Locator where) {
        where.scrollIntoViewIfNeeded();
        BoundingBox box = where.boundingBox();
        double middle = box.x + box.width / 2;
        double y = box.y + box.height / 2;
        CDPSession session = page.context().newCDPSession(page);
        var enabled = new JsonObject();
        enabled.addProperty("enabled", true);
        enabled.addProperty("maxTouchPoints", 2);
        session.send("Emulation.setTouchEmulationEnabled", enabled);
        touch(session, "touchStart", y, middle - 20, middle + 20);
        for (int apart = 30; apart <= 80; apart += 10) {
            touch(session, "touchMove", y, middle - apart, middle + apart);
        }
        touch(session, "touchEnd", y);
    }

    private static void touch(CDPSession session, String type, double y, double... xs) {
        var points = new JsonArray();
        for (int id = 0; id < xs.length; id++) {
            var point = new JsonObject();
            point.addProperty("x", xs[id]);
            point.addProperty("y", y);
            point.addProperty("id", id);
            points.add(point);
        }
        var event = new JsonObject();
        event.addProperty("type", type);
        event.add("touchPoints", points);
        session.send("Input.dispatchTouchEvent", event);
    }

    @Test
    void matToldToRest_staysOnThePageUntilItIsSeenTo() {
        Page page = browser.open("/", BrowserBench.PHONE);
        assertThat(page.locator("[data-rest]")).hasCount(0);

        JournalEntry rest = MatRest.entry(
                        browser.bench().alerts.get(1), BenchFixture.NOW.minus(Duration.ofMinutes(14)), List.of())
                .orElseThrow();
        browser.bench().write(List.of(rest));

        assertThat(page.locator("[data-rest=mat-1]")).containsText("mat-1 was told to rest at 11:46, but the readings say that it still heats");
        assertThat(page.locator("[data-rest=mat-1]")).containsText("Cut it at its breaker or plug, with dry hands.");
        BrowserBench.assertSound(page, "mat-told-to-rest");
        page.locator("#rest-seen-mat-1").click();

        assertThat(page.locator("#told")).containsText("Noted: mat-1 is off, and you have seen it.");
        assertThat(page.locator("[data-rest]")).hasCount(0);
        page.locator("#pages").getByText("Trays").click();
        assertThat(page.locator(".relay-caution")).containsText("a help and not a protection");
    }

    @Test
    void hardeningTray_isCarriedOutByOneTap() {
        Page page = browser.open("/", BrowserBench.PHONE);
        page.evaluate("""
                async () => {
                  const { bench } = await import("/web/bench.js");
                  const { carryButtons } = await import("/web/tray-card.js");
                  bench.rooms = [...bench.rooms, { id: "cold-frame", kind: "outdoors" }];
                  const hardening = (stage) => carryButtons({ id: "T01", room: "propagation", sowings: [{ stage }] });
                  if (hardening("seedling")) throw new Error("a tray that does not harden is not carried out");
                  document.getElementById("main").prepend(...hardening("hardening"));
                }""");

        page.locator("#carry-T01-cold-frame").click();

        assertThat(page.locator("#told")).containsText("Written: T01 stands in cold frame.");
        JournalEntry entry = browser.bench().journal().get(1).entry();
        assertThat(entry.kind()).isEqualTo(EntryKind.MOVED);
        assertThat(entry.detail()).isEqualTo(Map.of("to", "cold-frame"));
    }

    @Test
    void firstView_isSmall_andFetchesNoChartLibrary() {
        var bytes = new AtomicLong();
        Page page = browser.open("/messages", BrowserBench.DESK);
        page.onRequestFinished(request -> {
            assertThat(request.url()).doesNotContain("uPlot");
            if (!request.url().endsWith("/api/v1/changes")) {
                bytes.addAndGet(request.sizes().responseBodySize + request.sizes().responseHeadersSize);
            }
        });
        // A page that has been seen is answered from the browser's own store: this one has not.
        page.route("**/*", route -> route.resume());

        page.navigate(browser.server().address().toString());
        page.waitForSelector("article.alert");

        assertThat(bytes.get()).as("bytes of the first view").isBetween(10_000L, FIRST_VIEW);
    }

    @Test
    void motion_isLeftOutWhereItIsNotWanted() {
        Page page = browser.open("/", BrowserBench.DESK);
        String moves = "parseFloat(getComputedStyle(document.querySelector('#pages a')).transitionDuration) > 0";
        assertThat(page.evaluate(moves)).isEqualTo(true);

        page.emulateMedia(new Page.EmulateMediaOptions().setReducedMotion(ReducedMotion.REDUCE));

        assertThat(page.evaluate(moves)).isEqualTo(false);
    }

    @Test
    void everyView_isReachedByKeysAlone() {
        Page page = browser.open("/", BrowserBench.DESK);
        int views = page.locator("#pages a").count();
        for (int view = 1; view < views; view++) {
            Locator link = page.locator("#pages a").nth(view);
            String name = link.textContent();
            link.focus();
            page.keyboard().press("Enter");
            assertThat(link).hasAttribute("aria-current", "page");
            assertThat(page.locator("main")).isFocused();
            page.keyboard().press("Tab");
            assertThat(page.evaluate("document.querySelector('main').contains(document.activeElement)"))
                    .as("the first stop after %s is in the page", name)
                    .isEqualTo(true);
        }
    }

    @Test
    void clockOfTwelveHours_isKeptTo() {
        Page page = browser.open("/", BrowserBench.DESK);
        Object told = page.evaluate("""
                async () => {
                  const words = await import("/web/words.js");
                  words.setSite({ ...words.theSite(), timezone: "Europe/Dublin", clock: 12 });
                  const noon = Date.parse("2026-03-14T12:00:00Z");
                  return [words.clock(noon), words.clock(noon + 13 * 3600000), words.toldSpan("06:00-22:00"), words.hourMinute(noon),
                    words.when(noon - 86400000, noon), words.siteTime(noon), words.fromSiteTime("2026-07-01T18:00")];
                }""");

        assertThat(told)
                .isEqualTo(List.of(
                        "12:00\u00a0pm",
                        "1:00\u00a0am",
                        "6:00\u00a0am to 10:00\u00a0pm",
                        "12:00",
                        "12:00\u00a0pm yesterday",
                        "2026-03-14T12:00",
                        "2026-07-01T17:00:00.000Z"));
    }
}
