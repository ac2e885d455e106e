package traytender.dashboard.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The demo as the README starts it. */
class DemoIT {
    @TempDir
    Path folder;

    @Test
    void demo_showsDaysOfHistoryAndSomeOfEverythingGoingWrong() throws Exception {
        Path site = folder.resolve("nursery");
        try (var demo = PackagedProgram.start(folder, "demo", "--site", site).awaitWell()) {
            String open = demo.body("/api/v1/alerts?open=true");

            assertThat(demo.log()).contains("The page is at http://127.0.0.1:" + demo.pagePort());
            // A centre drying over its mat, a corner missed, a mat that will not stop, a silent probe.
            assertThat(open).contains("\"dry\"", "\"missed-watering\"", "\"mat-not-stopping\"", "\"probe-silent\"");
            assertThat(demo.body("/api/v1/alerts")).contains("\"night-cold\"");
            assertThat(demo.body("/api/v1/counts")).contains("\"refused\":0");
            assertThat(demo.stop()).isZero();
        }
    }

    @Test
    void demo_neverWritesOverAGrowersOwnSite() throws Exception {
        Path site = SmallSite.in(folder.resolve("own"));

        var run = CommandLineRun.of("demo", "--site", site);

        assertThat(run.status()).isEqualTo(1);
        assertThat(run.err()).contains("site of its own");
    }
}
