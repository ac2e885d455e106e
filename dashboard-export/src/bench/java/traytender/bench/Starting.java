package traytender.bench;

import java.io.IOException;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.util.List;
import java.util.concurrent.TimeUnit;
import traytender.bench.Benchmarks.Place;
import traytender.bench.Benchmarks.Work;
import traytender.testing.Mosquitto;

/** From the start of the process to the first message on disk, which waited at the broker, beside a Java program that says hello with the same flags. */
final class Starting implements Work {
    private static final int TIMES = 5;

    @Override
    public List<Result> measure(Place place) throws Exception {
        try (var broker = Mosquitto.start(place.folder("broker-start"))) {
            Season site = Season.site(place.folder("start"), 20, "broker: \"" + broker.uri() + "\"");
            subscribeOnce(place, site);
            double[] ours = new double[TIMES];
            double[] hello = new double[TIMES];
            double[] without = new double[TIMES];
            for (int i = 0; i < TIMES; i++) {
                hello[i] = helloMs(place);
                ours[i] = firstMessageMs(place, site, broker, place.archive().toString());
                without[i] = firstMessageMs(place, site, broker, "");
            }
            String work = "start to first message taken, 20 trays, outside broker";
            return List.of(
                    Result.atMost(
                            work,
                            Night.median(ours),
                            Night.median(hello),
                            4,
                            "ms",
                            "with the package's archive of classes; site and crops are read, store and broker's client are loaded before it"),
                    Result.told(work + ", no archive", Night.median(without), Night.median(hello), "ms", ""));
        }
    }

    private static void subscribeOnce(Place place, Season site) throws Exception {
        try (Running program = Running.start(place.program(), site.path(), "")) {
            program.awaitWell();
        }
    }

    private static double firstMessageMs(Place place, Season site, Mosquitto broker, String archive) throws Exception {
        broker.publish(Season.topic(1, 0), "{\"value\": 2100}");
        long before = onDisk(site);
        long start = System.nanoTime();
        try (Running program = Running.start(place.program(), site.path(), archive)) {
            program.await(() -> onDisk(site) > before);
            return (System.nanoTime() - start) / 1e6;
        }
    }

    private static long onDisk(Season site) throws IOException {
        try (var connection =
                        DriverManager.getConnection("jdbc:sqlite:" + site.path().resolve("data/readings.db"));
                var statement = connection.createStatement();
                var rows = statement.executeQuery("SELECT count(*) FROM reading")) {
            return rows.getLong(1);
        } catch (SQLException busy) {
            throw new IOException(busy);
        }
    }

    private static double helloMs(Place place) throws Exception {
        long start = System.nanoTime();
        Process process = Child.start(place.program(), Hello.class);
        if (!process.waitFor(60, TimeUnit.SECONDS)) {
            throw new IllegalStateException("hello hangs");
        }
        if (process.exitValue() != 0) {
            throw new IllegalStateException("hello ended with status " + process.exitValue());
        }
        return (System.nanoTime() - start) / 1e6;
    }

    /** The least that any Java program costs; with an argument it stays until it is ended. */
    static final class Hello {
        private Hello() {}

        public static void main(String[] arguments) throws Exception {
            System.out.println("hello");
            if (arguments.length > 0) {
                // Until whoever started it closes this end, or ends it.
                System.in.read();
            }
        }
    }
}
