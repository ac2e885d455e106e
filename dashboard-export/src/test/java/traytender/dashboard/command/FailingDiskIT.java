package traytender.dashboard.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.temporal.ChronoUnit;
import java.util.concurrent.TimeUnit;
import org.awaitility.Awaitility;
import org.awaitility.core.ConditionFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import traytender.config.folder.SiteReader;
import traytender.dashboard.program.Stores;

/** The packaged program on a disk that the system makes read-only, as it does when a card fails. */
class FailingDiskIT {
    @TempDir
    Path folder;

    @Test
    @Timeout(value = 5, unit = TimeUnit.MINUTES, threadMode = Timeout.ThreadMode.SEPARATE_THREAD)
    void diskThatBecomesReadOnly_isTold_andTheProgramUsesItAgainByItselfWhenItIsMended() throws Exception {
        try (FailingDisk disk = FailingDisk.mount(folder.resolve("image"), folder.resolve("disk"))) {
            int port = PackagedProgram.freePort();
            Path site = SmallSite.in(disk.folder().resolve("site"), port);
            disk.settle();
            var first =
                    Clock.systemUTC().instant().truncatedTo(ChronoUnit.SECONDS).minus(Duration.ofHours(40));
            try (var sensor = PatientSensor.start(port, "T01-centre-moisture", "alder/T01/centre", first, 1);
                    var program =
                            PackagedProgram.start(folder, "run", "--site", site).awaitWell()) {
                await().until(() -> sensor.acknowledged().size() > 20);
                disk.fail();
                await().until(() -> program.health() == 503);
                assertThat(program.body("/health")).containsAnyOf("cannot be written", "cannot be stored", "broker");

                disk.replace(folder.resolve("copy"));
                program.awaitWell();
                int before = sensor.acknowledged().size();
                await().until(() -> sensor.acknowledged().size() > before + 20);
                sensor.finish();
                await().until(() -> stored(site) == sensor.acknowledged().size());
                assertThat(program.log()).contains("Started anew");
                assertThat(program.stop()).isZero();
            }
        }
    }

    private static ConditionFactory await() {
        return Awaitility.await().atMost(Duration.ofSeconds(90)).ignoreExceptions();
    }

    private static long stored(Path site) {
        try (var store = Stores.toRead(SiteReader.read(site))) {
            return store.readings().count();
        }
    }
}
