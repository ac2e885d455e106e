package traytender.ingest.file;

import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import traytender.config.reading.Marks;
import traytender.config.site.Binding;
import traytender.config.site.Probe;
import traytender.config.site.Site;
import traytender.ingest.store.RawReading;

/**
 * Reads a SenML JSON pack (RFC 8428) record by record. A record's name is the name in a probe's binding, or else the probe's id.
 * A record that carries {@code raw}, as {@link ReadingExport} writes it, is named by the probe's id and comes back by that value.
 */
final class SenMlReader {
    private static final ObjectMapper JSON = new ObjectMapper();

    private final RawReadings readings;
    private final GroupWriter writer;
    private final SenMlBase base = new SenMlBase();
    /** Probes by the name in their binding; two topics may use the same name. */
    private final Map<String, List<Probe>> byName = new HashMap<>();

    SenMlReader(Site site, RawReadings readings, GroupWriter writer) {
        this.readings = readings;
        this.writer = writer;
        for (var probe : site.probes()) {
            if (probe.binding() instanceof Binding.SenMl senMl) {
                byName.computeIfAbsent(senMl.name(), name -> new ArrayList<>()).add(probe);
            }
        }
    }

    /**
     * Reads the pack.
     *
     * @param position 0, or how many records an interrupted import has brought in
     * @throws Rejection when the pack as a whole cannot be used
     */
    ImportResult read(InputStream in, long position) throws IOException, Rejection {
        long number = 0;
        try (var parser = JSON.createParser(in)) {
            if (parser.nextToken() != JsonToken.START_ARRAY) {
                throw new Rejection("it is not a SenML pack, which is one JSON array");
            }
            while (parser.nextToken() == JsonToken.START_OBJECT) {
                JsonNode entry = JSON.readTree(parser);
                number++;
                take(entry, number, position);
                writer.storeWhenFull(number, parser.currentLocation().getByteOffset());
            }
            refuseRest(parser, number);
        } catch (JsonProcessingException e) {
            writer.reject(number + 1, "the file is not JSON from here on: " + e.getOriginalMessage());
        }
        return writer.finish(Math.min(position, number));
    }

    private void refuseRest(JsonParser parser, long number) {
        if (parser.currentToken() != JsonToken.END_ARRAY) {
            writer.reject(number + 1, "not a SenML record; the rest of the file was not read");
        }
    }

    private void take(JsonNode entry, long number, long position) throws Rejection {
        base.take(entry);
        if (number <= position || SenMlBase.isBaseOnly(entry)) {
            return;
        }
        try {
            writer.add(reading(entry));
        } catch (Rejection e) {
            writer.reject(number, e.reason());
        }
    }

    private RawReading reading(JsonNode entry) throws Rejection {
        base.refuseUnknown(entry);
        var name = base.name(entry);
        var timeMs = readings.checked(base.timeMs(entry));
        var raw = entry.get("raw");
        if (raw != null && raw.isNumber() && readings.hasProbe(name)) {
            return readings.reading(readings.probe(name), timeMs, raw.doubleValue(), marks(entry));
        }
        var probe = probe(name);
        var word = entry.get("vs");
        return word != null && word.isTextual()
                ? readings.reading(probe, timeMs, word.textValue(), Marks.NONE)
                : readings.reading(probe, timeMs, base.value(entry), Marks.NONE);
    }

    private Probe probe(String name) throws Rejection {
        var named = byName.getOrDefault(name, List.of());
        if (named.size() > 1) {
            throw new Rejection(
                    named.size() + " probes have the name " + Rejection.quoted(name) + " in their messages");
        }
        return named.isEmpty() ? readings.probe(name) : named.get(0);
    }

    private static int marks(JsonNode entry) {
        return RawReadings.marks(entry.path("marks").asText(""));
    }
}
