package traytender.bench;

import java.net.http.HttpResponse;
import java.sql.DriverManager;
import java.util.Arrays;
import java.util.List;
import traytender.bench.Benchmarks.Place;
import traytender.bench.Benchmarks.Work;

/** One night's page of 20 trays, beside plain SQL for the readings of that night. */
final class Night implements Work {
    private static final int TRAYS = 20;
    private static final int TIMES = 11;
    private static final String PATH = "/api/v1/nights/2026-03-02";
    private static final String SQL =
            "SELECT probe, time_ms, raw FROM reading WHERE probe = ? AND time_ms BETWEEN ? AND ?";
    private static final long EVENING_MS = Season.FIRST.plusSeconds(42 * 3_600).toEpochMilli();
    private static final long MORNING_MS = Season.FIRST.plusSeconds(55 * 3_600).toEpochMilli();

    @Override
    public List<Result> measure(Place place) throws Exception {
        Season season = Season.site(place.folder("night"), TRAYS, "broker: built-in\n  port: 0")
                .filled(5);
        try (Running program = Running.start(place.program(), season.path(), "").awaitWell()) {
            double[] page = new double[TIMES];
            double[] plain = new double[TIMES];
            for (int i = 0; i < TIMES; i++) {
                plain[i] = plainMs(season);
                long start = System.nanoTime();
                HttpResponse<String> answer = program.answer(PATH);
                page[i] = (System.nanoTime() - start) / 1e6;
                if (answer.statusCode() != 200 || !answer.body().contains("T20")) {
                    throw new IllegalStateException("no night: " + answer.statusCode());
                }
            }
            double kilobytes = program.compressed(PATH).length / 1e3;
            String work = "one night's page, %d trays".formatted(TRAYS);
            return List.of(
                    Result.atMost(
                            work,
                            median(page),
                            median(plain),
                            2,
                            "ms",
                            "through HTTP; the plain SQL reads one row a minute and probe"),
                    Result.below(
                            work + ", over the wire",
                            kilobytes,
                            100,
                            100,
                            "kB",
                            "compressed as a browser asks for it"));
        }
    }

    private static double plainMs(Season season) throws Exception {
        try (var connection = DriverManager.getConnection("jdbc:sqlite:" + season.plain());
                var select = connection.prepareStatement(SQL)) {
            long start = System.nanoTime();
            double sum = 0;
            for (int probe = 1; probe <= TRAYS * Season.PROBES; probe++) {
                select.setInt(1, probe);
                select.setLong(2, EVENING_MS);
                select.setLong(3, MORNING_MS);
                try (var rows = select.executeQuery()) {
                    while (rows.next()) {
                        sum += rows.getLong(2) + rows.getDouble(3);
                    }
                }
            }
            if (sum == 0) {
                throw new IllegalStateException("no readings that night");
            }
            return (System.nanoTime() - start) / 1e6;
        }
    }

    static double median(double[] values) {
        double[] sorted = values.clone();
        Arrays.sort(sorted);
        return sorted[sorted.length / 2];
    }
}
