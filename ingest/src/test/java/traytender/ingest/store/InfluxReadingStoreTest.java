package traytender.ingest.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.io.TempDir;
import traytender.config.site.StoreSettings.Influx;
import traytender.testing.Influxd;
import traytender.testing.NeedsServer;

/** The contract on a real server. */
@NeedsServer("influxd")
class InfluxReadingStoreTest extends ReadingStoreContract {
    @TempDir
    static Path folder;

    private static Influxd server;
    private static int databases;

    @BeforeAll
    static void start() throws IOException {
        server = Influxd.start(folder.resolve("influx"));
        Files.writeString(folder.resolve("influx.password"), server.password());
    }

    @AfterAll
    static void stop() {
        server.close();
    }

    @Override
    ReadingStore openEmpty() {
        databases++;
        var settings = new Influx(server.url(), "alder" + databases, server.user(), "influx.password", null);
        return InfluxReadingStore.at(settings, folder, Bench.site("a", "b", "c"), Bench.DOUBLED);
    }
}
