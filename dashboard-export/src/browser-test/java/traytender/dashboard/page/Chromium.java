package traytender.dashboard.page;

import com.microsoft.playwright.Browser;
import com.microsoft.playwright.BrowserType;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Playwright;
import com.microsoft.playwright.TimeoutError;
import com.microsoft.playwright.assertions.PlaywrightAssertions;
import com.microsoft.playwright.options.ColorScheme;
import java.net.URI;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CopyOnWriteArrayList;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** The system's own chromium, and what its pages complained of or asked of others. */
public final class Chromium implements AutoCloseable {
    private static final Path PROGRAM = Path.of("/usr/bin/chromium");
    /** How long a page may take to show what is asserted of it: a machine under load is no failure of the page. */
    private static final double PATIENCE_MS = 60_000;

    private static final Path PICTURES = Path.of("target", "screenshots");
    private static final Logger LOG = LoggerFactory.getLogger(Chromium.class);

    /** Console errors and warnings, script errors, and requests to other hosts; empty while all is well. */
    public final List<String> troubles = new CopyOnWriteArrayList<>();

    private final Playwright playwright =
            Playwright.create(new Playwright.CreateOptions().setEnv(Map.of("PLAYWRIGHT_SKIP_BROWSER_DOWNLOAD", "1")));
    private final Browser browser = playwright
            .chromium()
            .launch(new BrowserType.LaunchOptions()
                    .setExecutablePath(PROGRAM)
                    .setChromiumSandbox(false)
                    .setArgs(List.of("--disable-dev-shm-usage", "--disable-gpu", "--disable-background-networking")));

    /** Starts the browser. */
    public Chromium() {
        PlaywrightAssertions.setDefaultAssertionTimeout(PATIENCE_MS);
    }

    /** A new page of that size, whose troubles are kept. */
    public Page open(int width, int height, ColorScheme scheme, URI home) {
        return watched(new Browser.NewContextOptions().setViewportSize(width, height).setColorScheme(scheme), home);
    }

    /** A new page of that size as a phone has it, moved by fingers; its troubles are kept. */
    public Page openOnPhone(int width, int height, ColorScheme scheme, URI home) {
        return watched(
                new Browser.NewContextOptions()
                        .setViewportSize(width, height)
                        .setColorScheme(scheme)
                        .setHasTouch(true)
                        .setIsMobile(true),
                home);
    }

    private Page watched(Browser.NewContextOptions options, URI home) {
        Page page = browser.newContext(options).newPage();
        page.setDefaultTimeout(PATIENCE_MS);
        page.onConsoleMessage(message -> {
            if (message.type().equals("error") || message.type().equals("warning")) {
                troubles.add("console: " + message.text());
            }
        });
        page.onPageError(error -> troubles.add("script: " + error));
        page.onRequest(request -> {
            URI asked = URI.create(request.url());
            if (!home.getAuthority().equals(asked.getAuthority())) {
                troubles.add("asked another host: " + request.url());
            }
        });
        return page;
    }

    /**
     * A picture of a page, as far as it is seen or all of it, under {@code target/screenshots}. Headless chromium
     * now and then never draws the frame that a picture waits for, so one that does not come is asked for once more.
     */
    public static void picture(Page page, String name, boolean all) {
        var options = new Page.ScreenshotOptions()
                .setPath(PICTURES.resolve(name + ".png"))
                .setFullPage(all);
        try {
            page.screenshot(options);
        } catch (TimeoutError e) {
            LOG.warn("The picture {} did not come and is taken again.", name);
            page.screenshot(options);
        }
    }

    /** Opens what can be unfolded, if it is not open by itself; a page that is drawn anew in between may have opened it meanwhile. */
    public static void unfold(Locator details) {
        for (int tries = 0; tries < 5 && details.getAttribute("open") == null; tries++) {
            details.locator("> summary").click();
        }
    }

    @Override
    public void close() {
        browser.close();
        playwright.close();
    }
}
