package traytender.ingest.decode;

import com.fasterxml.jackson.core.JsonPointer;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.MissingNode;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import traytender.config.site.Binding;
import traytender.config.site.Probe;
import traytender.config.site.Site;
import traytender.ingest.store.RawReading;

/** Turns the messages of one topic into raw readings of the probes bound to it. Immutable; safe from any thread. */
public final class TopicDecoder {
    /** The largest payload that is looked at, in bytes; the contract's 64 KiB. */
    public static final int LARGEST = 64 * 1024;

    private static final String BYTE_ORDER_MARK = "\uFEFF";

    private final List<Bound> bound;

    /** A probe with its pointers, read once. */
    private record Bound(
            Probe probe, JsonPointer value, @Nullable JsonPointer time) {
        static Bound of(Probe probe) {
            if (!(probe.binding() instanceof Binding.Json json)) {
                return new Bound(probe, JsonPointer.empty(), null);
            }
            return new Bound(
                    probe,
                    JsonPointer.compile(json.value()),
                    json.time() == null ? null : JsonPointer.compile(json.time()));
        }
    }

    private TopicDecoder(List<Probe> probes) {
        this.bound = probes.stream().map(Bound::of).toList();
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
            return Decoded.refused(refused.why(), bound.size());
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
            String text = StandardCharsets.UTF_8
                    .newDecoder()
                    .decode(ByteBuffer.wrap(payload))
                    .toString();
            return text.startsWith(BYTE_ORDER_MARK) ? text.substring(1) : text;
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
            for (Bound one : bound) {
                read(one);
            }
            if (readings.isEmpty() && refusals.isEmpty()) {
                throw new Refused(Cause.NO_FIELD);
            }
            return new Decoded(readings, refusals);
        }

        private void read(Bound one) {
            Probe probe = one.probe();
            Binding binding = probe.binding();
            if (binding instanceof Binding.Text inText) {
                collect(() -> add(probe, arrival.relative(0), Values.number(text, inText.words())));
            } else if (binding instanceof Binding.Json inJson) {
                collect(() -> {
                    JsonNode value = document().at(one.value());
                    if (!value.isMissingNode()) {
                        add(probe, timeMs(one.time()), Values.number(value, inJson.words()));
                    }
                });
            } else if (binding instanceof Binding.SenMl senMl) {
                collect(() -> read(probe, senMl, pack()));
            }
        }

        private void read(Probe probe, Binding.SenMl binding, List<SenMl.Resolved> records) {
            for (SenMl.Resolved entry : records) {
                if (entry.name().equals(binding.name())) {
                    collect(() -> add(probe, timeMs(entry), value(entry)));
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

        private void add(Probe probe, long timeMs, double raw) {
            readings.add(new RawReading(probe.id(), timeMs, raw, arrival.marks()));
        }

        private long timeMs(@Nullable JsonPointer pointer) throws Refused {
            JsonNode time =
                    pointer == null ? MissingNode.getInstance() : document().at(pointer);
            return time.isMissingNode() || time.isNull() ? arrival.relative(0) : arrival.checked(Values.timeMs(time));
        }

        private long timeMs(SenMl.Resolved entry) throws Refused {
            return entry.isRelative() ? arrival.relative(entry.ms()) : arrival.checked(entry.ms());
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
                pack = SenMl.resolve(document());
            }
            return pack;
        }
    }

    @FunctionalInterface
    private interface Taking {
        void take() throws Refused;
    }
}
