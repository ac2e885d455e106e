package traytender.ingest.file;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.io.Writer;
import java.math.BigDecimal;
import org.jspecify.annotations.Nullable;
import traytender.config.reading.Marks;
import traytender.config.reading.Reading;
import traytender.config.site.Probe;

/**
 * A SenML pack being written. A probe's first record sets base name, base time and base unit; the others carry the seconds since
 * then. Beside SenML's own fields each record has {@code raw} and, where there are any, {@code marks}; RFC 8428 (section 4.4) has
 * other readers pass over fields they do not know.
 *
 * <pre>
 * [{"bn":"T01-centre-moisture","bt":1741939260,"bu":"/","v":0.41,"raw":2243},
 * {"t":60,"v":0.408,"raw":2246}]
 * </pre>
 */
final class SenMlPack implements AutoCloseable {
    private final JsonGenerator json;

    SenMlPack(Writer out) throws IOException {
        json = new JsonFactory().createGenerator(out);
        json.disable(JsonGenerator.Feature.AUTO_CLOSE_TARGET);
        json.writeStartArray();
    }

    ReadingExport.Rows recordsOf(Probe probe) {
        return new Records(probe);
    }

    private final class Records implements ReadingExport.Rows {
        private final Probe probe;
        private @Nullable SenMlUnit unit;
        private long baseMs;

        Records(Probe probe) {
            this.probe = probe;
        }

        @Override
        public void write(Reading reading) throws IOException {
            json.writeStartObject();
            var unitNow = unitFor(reading);
            if (reading.timeMs() != baseMs) {
                json.writeFieldName("t");
                json.writeNumber(seconds(reading.timeMs() - baseMs));
            }
            json.writeFieldName("v");
            json.writeNumber(Numbers.text(reading.value() / unitNow.divisor()));
            json.writeFieldName("raw");
            json.writeNumber(Numbers.text(reading.raw()));
            if (reading.marks() != Marks.NONE) {
                json.writeStringField("marks", String.join(" ", Marks.words(reading.marks())));
            }
            json.writeEndObject();
            json.writeRaw('\n');
        }

        private SenMlUnit unitFor(Reading reading) throws IOException {
            var before = unit;
            if (before != null && SenMlUnit.isSteady(probe)) {
                return before;
            }
            var now = SenMlUnit.of(probe, reading.timeMs());
            if (before == null) {
                baseMs = reading.timeMs();
                json.writeStringField("bn", probe.id());
                json.writeFieldName("bt");
                json.writeNumber(seconds(baseMs));
            }
            if (!now.equals(before)) {
                json.writeStringField("bu", now.symbol());
            }
            unit = now;
            return now;
        }
    }

    private static String seconds(long ms) {
        return BigDecimal.valueOf(ms, 3).stripTrailingZeros().toPlainString();
    }

    @Override
    public void close() throws IOException {
        json.writeEndArray();
        json.writeRaw('\n');
        json.close();
    }
}
