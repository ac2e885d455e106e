package traytender.dashboard.page;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import java.io.OutputStream;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.List;
import traytender.config.reading.Marks;
import traytender.config.reading.Reading;
import traytender.config.site.Calibration;
import traytender.config.site.Probe;
import traytender.config.site.Quantity;
import traytender.dashboard.record.Json;

/** Readings of a probe as JSON, written as they come, since a season of them is large. */
final class ReadingsJson {
    private static final JsonFactory FACTORY = new JsonFactory();
    private static final int DECIMALS = 4;

    private ReadingsJson() {}

    /** The UCUM unit of a probe's calibrated values; a tray's weight with its tare known is told as moisture. */
    static String unit(Probe probe) {
        boolean weighed =
                probe.measures() == Quantity.WEIGHT && probe.calibration().last() instanceof Calibration.Weight;
        return weighed ? Quantity.MOISTURE.unit() : probe.measures().unit();
    }

    /** Writes {@code {"probe":..., "unit":..., "readings":[[time, value, [marks]], ...]}}. */
    static void write(Probe probe, List<Reading> readings, OutputStream out) throws IOException {
        try (JsonGenerator json = FACTORY.createGenerator(out)) {
            json.writeStartObject();
            json.writeStringField("probe", probe.id());
            json.writeStringField("unit", unit(probe));
            json.writeArrayFieldStart("readings");
            for (Reading reading : readings) {
                write(reading, json);
            }
            json.writeEndArray();
            json.writeEndObject();
        }
    }

    private static void write(Reading reading, JsonGenerator json) throws IOException {
        json.writeStartArray();
        json.writeString(Json.text(reading.time()));
        json.writeNumber(rounded(reading.value()).toPlainString());
        json.writeStartArray();
        for (String mark : Marks.words(reading.marks())) {
            json.writeString(mark);
        }
        json.writeEndArray();
        json.writeEndArray();
    }

    private static BigDecimal rounded(double value) {
        return BigDecimal.valueOf(value)
                .setScale(DECIMALS, RoundingMode.HALF_UP)
                .stripTrailingZeros();
    }
}
