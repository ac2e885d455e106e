package traytender.dashboard.command;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.ColorScheme;
import java.net.URI;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import traytender.dashboard.page.Axe;
import traytender.dashboard.page.Chromium;
import traytender.testing.NeedsServer;

/** The main job from end to end: a sensor's message through broker, store and rules onto the page in a real browser. */
@NeedsServer("chromium")
class DemoBrowserIT {
    @TempDir
    Path folder;

    @Test
    void demo_isSoundOnEveryViewAtADeskAndOnAPhone() throws Exception {
        try (var demo = PackagedProgram.start(folder, "demo", "--site", folder.resolve("nursery"))
                        .awaitWell();
                var chromium = new Chromium()) {
            for (int width : new int[] {1280, 390}) {
                for (String view : List.of("", "trays", "trays/T01", "nights", "probes", "alerts", "messages")) {
                    Page page = open(chromium, demo, view, width);

                    Chromium.picture(page, "demo-" + view.replace('/', '-') + "-" + width, false);
                    assertThat(Axe.violations(page))
                            .as("axe on /%s at %d", view, width)
                            .isEmpty();
                    page.context().close();
                }
            }
            assertThat(chromium.troubles).isEmpty();
        }
    }

    @Test
    void messageFromASensor_opensAnAlertOnTheOpenPage() throws Exception {
        int port = PackagedProgram.freePort();
        Path site = SmallSite.in(folder.resolve("site"), port);
        try (var program = PackagedProgram.start(folder, "run", "--site", site).awaitWell();
                var chromium = new Chromium()) {
            Page page = open(chromium, program, "", 1280);
            assertThat(page.locator("article.alert")).hasCount(0);

            PackagedIT.sendDryHour(port);

            assertThat(page.locator("article.alert").first()).containsText("dry line");
            assertThat(chromium.troubles).isEmpty();
        }
    }

    private static Page open(Chromium chromium, PackagedProgram program, String view, int width) {
        URI home = URI.create("http://127.0.0.1:" + program.pagePort() + "/");
        Page page = chromium.open(width, 900, ColorScheme.LIGHT, home);
        page.navigate(home + view);
        page.waitForSelector("main h1");
        return page;
    }
}
