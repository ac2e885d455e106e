package traytender.dashboard.page;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.ColorScheme;
import com.microsoft.playwright.options.ReducedMotion;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.extension.AfterAllCallback;
import org.junit.jupiter.api.extension.AfterEachCallback;
import org.junit.jupiter.api.extension.BeforeAllCallback;
import org.junit.jupiter.api.extension.BeforeEachCallback;
import org.junit.jupiter.api.extension.ExtensionContext;

/** A {@link ServedBench} for each test, looked at in one real browser; a test that leaves the browser troubled fails. */
final class BrowserBench implements BeforeAllCallback, AfterAllCallback, BeforeEachCallback, AfterEachCallback {
    static final int DESK = 1280;
    static final int PHONE = 390;

    private final ServedBench served = new ServedBench();
    private final List<Page> pages = new ArrayList<>();
    private Chromium chromium;

    @Override
    public void beforeAll(ExtensionContext context) {
        chromium = new Chromium();
    }

    @Override
    public void afterAll(ExtensionContext context) {
        chromium.close();
    }

    @Override
    public void beforeEach(ExtensionContext context) throws IOException {
        chromium.troubles.clear();
        served.beforeEach(context);
    }

    @Override
    public void afterEach(ExtensionContext context) throws IOException {
        pages.forEach(page -> page.context().close());
        pages.clear();
        served.afterEach(context);
        assertThat(chromium.troubles).isEmpty();
    }

    BenchFixture bench() {
        return served.bench;
    }

    PageServer server() {
        return served.server;
    }

    /** A view at a desk or on a phone, drawn, its charts too. */
    Page open(String view, int width) {
        Page page = chromium.open(width, 900, ColorScheme.LIGHT, server().address());
        pages.add(page);
        page.navigate(served.at(view).toString());
        page.waitForSelector("main h1");
        if (page.locator(".plot").count() > 0) {
            page.waitForSelector(".plot canvas");
        }
        return page;
    }

    /** What went wrong in the browser is forgotten: the test has caused it on purpose. */
    void forgiveTroubles() {
        chromium.troubles.clear();
    }

    /** A picture of all of a page, everything on it unfolded, under {@code target/screenshots}. */
    static void picture(Page page, String name) {
        Chromium.picture(page, name, true);
    }

    /** Unfolds everything, takes a picture and holds the page to what is sound for everyone. */
    static void assertSound(Page page, String name) {
        // What is folded must be as sound as what is seen at once.
        page.evaluate("document.querySelectorAll('details').forEach((one) => { one.open = true; })");
        picture(page, name);
        assertThat(Axe.violations(page)).as("axe on " + name).isEmpty();
        assertThat(page.evaluate("document.documentElement.scrollWidth <= document.documentElement.clientWidth"))
                .as("nothing runs out of the page sideways on " + name)
                .isEqualTo(true);
    }

    /** Turns the page dark, takes a picture, and holds it to the contrast that axe asks for: nothing but colours has changed. */
    static void assertSoundInTheDark(Page page, String name) {
        // Without motion: colours on their way from one scheme to the other belong to neither.
        page.emulateMedia(new Page.EmulateMediaOptions()
                .setColorScheme(ColorScheme.DARK)
                .setReducedMotion(ReducedMotion.REDUCE));
        picture(page, name);
        assertThat(Axe.faint(page)).as("contrast on " + name).isEmpty();
    }
}
