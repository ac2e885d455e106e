package traytender.ingest.store;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.influxdb.dto.QueryResult.Series;

/** The stretch of history that InfluxDB has, as {@link InfluxLayout} draws it. */
final class InfluxStretch implements Stretch {
    /** Times beyond these, in ms since 1970, InfluxDB cannot say: its own are 64-bit nanoseconds. */
    private static final long EARLIEST_MS = Long.MIN_VALUE / 1_000_000 + 1_000;

    private static final long LATEST_MS = Long.MAX_VALUE / 1_000_000 - 1_000;

    private final InfluxServer server;

    InfluxStretch(InfluxServer server) {
        this.server = server;
    }

    @Override
    public List<RawReading> next(String probe, long fromMs, long toMs, int most) {
        var from = Math.max(fromMs, EARLIEST_MS);
        var to = Math.min(toMs, LATEST_MS);
        if (from >= to) {
            return List.of();
        }
        return readings(probe, " AND time >= " + from + "ms AND time < " + to + "ms ORDER BY time LIMIT " + most);
    }

    @Override
    public Optional<RawReading> last(String probe) {
        return readings(probe, " ORDER BY time DESC LIMIT 1").stream().findFirst();
    }

    private List<RawReading> readings(String probe, String which) {
        var readings = new ArrayList<RawReading>();
        var select = "SELECT raw, marks FROM " + InfluxLayout.MEASUREMENT + " WHERE probe = $probe" + which;
        for (var series : server.query(select, Map.of("probe", InfluxLayout.tag(probe)))) {
            for (var row : series.getValues()) {
                // Another program may have written to the same measurement.
                if (row.get(0) instanceof Number time && row.get(1) instanceof Number raw) {
                    readings.add(InfluxLayout.raw(probe, time, raw, row.get(2) instanceof Number marks ? marks : 0));
                }
            }
        }
        return readings;
    }

    @Override
    public List<Extent> extents() {
        var first = ends("first");
        var extents = new ArrayList<Extent>();
        ends("last").forEach((probe, last) -> extents.add(new Extent(probe, first.getOrDefault(probe, last), last)));
        return extents;
    }

    private Map<String, Instant> ends(String end) {
        var ends = new TreeMap<String, Instant>();
        var select = "SELECT " + end + "(raw) FROM " + InfluxLayout.MEASUREMENT + " GROUP BY probe";
        for (Series series : server.query(select, Map.of())) {
            var tag = series.getTags().get(InfluxLayout.PROBE);
            if (tag != null && series.getValues().get(0).get(0) instanceof Number time) {
                ends.put(InfluxLayout.probe(tag), Instant.ofEpochMilli(time.longValue()));
            }
        }
        return ends;
    }
}
