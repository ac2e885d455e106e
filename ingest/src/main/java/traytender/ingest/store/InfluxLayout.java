package traytender.ingest.store;

import java.util.HashMap;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.influxdb.dto.Point;
import traytender.config.reading.Marks;
import traytender.config.site.Probe;
import traytender.config.site.Site;

/**
 * How a reading stands in InfluxDB:
 *
 * <pre>
 * measurement  tag probe             field value   field raw   field marks   time
 * reading      T01-centre-moisture         0.773      1663.0             0   1773466860000 ms
 * </pre>
 *
 * {@code value} is calibrated, in the unit of the probe's quantity, and missing when the site file no longer has the probe;
 * {@code marks} is a whole number, bits of {@link Marks}.
 */
final class InfluxLayout {
    static final String MEASUREMENT = "reading";
    static final String PROBE = "probe";

    /** Marks that the raw value does not tell anew; the others are those of the calibration when it was sent. */
    private static final int OWN_MARKS = Marks.CLOCK;

    private final Map<String, Probe> probes = new HashMap<>();
    private final Meaning meaning;

    InfluxLayout(Site site, Meaning meaning) {
        site.probes().forEach(probe -> probes.put(probe.id(), probe));
        this.meaning = meaning;
    }

    Point point(RawReading raw) {
        var point = Point.measurement(MEASUREMENT)
                .tag(PROBE, tag(raw.probe()))
                .time(raw.timeMs(), TimeUnit.MILLISECONDS)
                .addField("raw", raw.raw());
        var probe = probes.get(raw.probe());
        if (probe == null) {
            return point.addField("marks", raw.marks()).build();
        }
        var reading = meaning.of(probe, raw);
        return point.addField("value", reading.value())
                .addField("marks", reading.marks())
                .build();
    }

    static RawReading raw(String probe, Number timeMs, Number raw, Number marks) {
        return new RawReading(probe, timeMs.longValue(), raw.doubleValue(), marks.intValue() & OWN_MARKS);
    }

    /** InfluxDB's line protocol has no way to write a line's end in a tag: it and the sign that stands for it are written by their number. */
    static String tag(String probe) {
        return probe.replace("%", "%25").replace("\n", "%0A").replace("\\", "%5C");
    }

    static String probe(String tag) {
        return tag.replace("%5C", "\\").replace("%0A", "\n").replace("%25", "%");
    }
}
