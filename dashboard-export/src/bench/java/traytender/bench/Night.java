package traytender.bench;

import java.net.http.HttpResponse;
import java.sql.DriverManager;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import traytender.bench.Benchmarks.Place;
import traytender.bench.Benchmarks.Work;
import traytender.rules.night.NightSpan;

/** One night's page of 20 trays, beside plain SQL for the readings it tells of: the night, and the day before it. */
final class Night implements Work {
    private static final int TRAYS = 20;
    private static final int TIMES = 11;
    private static final LocalDate DATE = LocalDate.of(2026, 3, 2);
    private static final String PATH = "/api/v1/nights/" + DATE;
    private static final String SQL =
            "SELECT probe, time_ms, raw FROM reading WHERE probe = ? AND time_ms >= ? AND time_ms < ?";

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
                            "through HTTP; the plain SQL reads the points it is made of, the night and the day before it, one row each"),
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
        NightSpan span = NightSpan.of(season.folder().site(), DATE);
        try (var connection = DriverManager.getConnection("jdbc:sqlite:" + season.plain());
                var select = connection.prepareStatement(SQL)) {
            long start = System.nanoTime();
            double sum = 0;
            for (int probe = 1; probe <= TRAYS * Season.PROBES; probe++) {
                select.setInt(1, probe);
                select.setLong(2, span.sunriseBefore().toEpochMilli());
                select.setLong(3, span.sunrise().toEpochMilli());
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
