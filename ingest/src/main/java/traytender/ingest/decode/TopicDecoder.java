package traytender.ingest.decode;

import com.fasterxml.jackson.core.JsonPointer;
import com.fasterxml.jackson.databind.JsonNode;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import traytender.config.reading.Marks;
import traytender.config.site.Binding;
import traytender.config.site.Probe;
import traytender.config.site.Site;
import traytender.ingest.store.RawReading;

/** Turns the messages of one topic into raw readings of the probes bound to it. Immutable; safe from any thread. */
public final class TopicDecoder {
    /** The largest payload that is looked at, in bytes; the contract's 64 KiB. */
    public static final int LARGEST = 64 * 1024;

    private final List<Probe> probes;

    private TopicDecoder(List<Probe> probes) {
        this.probes = List.copyOf(probes);
    }

    /** A decoder for every topic that a probe of the site names. */
    public static Map<String, TopicDecoder> of(Site site) {
        Map<String, List<Probe>> byTopic = new LinkedHashMap<>();
        for (Probe probe : site.probes()) {
            byTopic.computeIfAbsent(probe.binding().topic(), topic -> new ArrayList<>())
                    .add(probe);
        }
        Map<String, TopicDecoder> decoders = new LinkedHashMap<>();
        byTopic.forEach((topic, bound) -> decoders.put(topic, new TopicDecoder(bound)));
        return decoders;
    }

    /** What the message says. A field that only some of the topic's probes find is no trouble; one that none finds is. */
    public Decoded decode(byte[] payload, Arrival arrival) {
        try {
            return new Decoding(text(payload), arrival).decoded();
        } catch (Refused refused) {
            return Decoded.refused(refused.why());
        }
    }

    private static String text(byte[] payload) throws Refused {
        if (payload.length > LARGEST) {
            throw new Refused(Cause.TOO_LARGE);
        }
        if (payload.length == 0) {
            throw new Refused(Cause.EMPTY);
        }
        try {
            return StandardCharsets.UTF_8
                    .newDecoder()
                    .decode(ByteBuffer.wrap(payload))
                    .toString();
        } catch (CharacterCodingException e) {
            throw new Refused(Cause.NOT_UTF8);
        }
    }

    /** The work on one message; the document is parsed once, however many probes read it. */
    private final class Decoding {
        private final String text;
        private final Arrival arrival;
        private final List<RawReading> readings = new ArrayList<>();
        private final List<Cause> refusals = new ArrayList<>();
        private @Nullable JsonNode document;
        private @Nullable List<SenMl.Resolved> pack;

        Decoding(String text, Arrival arrival) {
            this.text = text;
            this.arrival = arrival;
        }

        Decoded decoded() throws Refused {
            for (Probe probe : probes) {
                read(probe);
            }
            if (readings.isEmpty() && refusals.isEmpty()) {
                throw new Refused(Cause.NO_FIELD);
            }
            return new Decoded(readings, refusals);
        }

        private void read(Probe probe) throws Refused {
            Binding binding = probe.binding();
            if (binding instanceof Binding.Text inText) {
                collect(() -> take(probe, null, Values.number(text, inText.words())));
            } else if (binding instanceof Binding.Json inJson) {
                JsonNode value = document().at(JsonPointer.compile(inJson.value()));
                if (!value.isMissingNode()) {
                    collect(() -> take(probe, timeMs(inJson), Values.number(value, inJson.words())));
                }
            } else if (binding instanceof Binding.SenMl senMl) {
                for (SenMl.Resolved entry : pack()) {
                    if (entry.name().equals(senMl.name())) {
                        collect(() -> take(probe, entry.hasTime() ? entry.timeMs() : null, value(entry)));
                    }
                }
            }
        }

        private void collect(Taking taking) {
            try {
                taking.take();
            } catch (Refused refused) {
                refusals.add(refused.why());
            }
        }

        private void take(Probe probe, @Nullable Long timeMs, double raw) throws Refused {
            if (timeMs == null) {
                readings.add(new RawReading(probe.id(), arrival.own(), raw, arrival.marks()));
                return;
            }
            readings.add(new RawReading(probe.id(), arrival.checked(timeMs), raw, Marks.NONE));
        }

        private @Nullable Long timeMs(Binding.Json binding) throws Refused {
            if (binding.time() == null) {
                return null;
            }
            JsonNode time = document().at(JsonPointer.compile(binding.time()));
            return time.isMissingNode() || time.isNull() ? null : Values.timeMs(time);
        }

        private static double value(SenMl.Resolved entry) throws Refused {
            if (entry.value() != null) {
                return Values.finite(entry.value());
            }
            if (entry.flag() != null) {
                return entry.flag() ? 1 : 0;
            }
            throw new Refused(Cause.NOT_A_NUMBER);
        }

        private JsonNode document() throws Refused {
            if (document == null) {
                document = Json.parse(text);
            }
            return document;
        }

        private List<SenMl.Resolved> pack() throws Refused {
            if (pack == null) {
                pack = SenMl.resolve(document(), arrival.timeMs());
            }
            return pack;
        }
    }

    @FunctionalInterface
    private interface Taking {
        void take() throws Refused;
    }
}
