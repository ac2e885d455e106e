package traytender.ingest.nursery.probe;

import java.math.BigDecimal;
import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import traytender.config.site.Binding;
import traytender.config.site.Probe;

/** Readings as the text, JSON or SenML payload that the site file's bindings expect. JSON pointers of one level only. */
final class Payloads {
    private Payloads() {}

    /** A probe's value in the form it sends: a word where its binding has words, else a plain decimal. */
    static String form(Probe probe, double raw) {
        for (Map.Entry<String, Double> word : words(probe.binding()).entrySet()) {
            if (word.getValue() == raw) {
                return word.getKey();
            }
        }
        return BigDecimal.valueOf(raw)
                .setScale(4, java.math.RoundingMode.HALF_EVEN)
                .stripTrailingZeros()
                .toPlainString();
    }

    private static Map<String, Double> words(Binding binding) {
        if (binding instanceof Binding.Text text) {
            return text.words();
        }
        return binding instanceof Binding.Json json ? json.words() : Map.of();
    }

    /** The payload that carries these values; all of one topic and one kind of binding. */
    static String write(List<Probe> probes, List<String> values, Instant time) {
        Binding first = probes.get(0).binding();
        if (first instanceof Binding.Text) {
            return values.get(0);
        }
        return first instanceof Binding.SenMl ? senMl(probes, values, time) : json(probes, values, time);
    }

    /** Whether its messages tell their own time. */
    static boolean tellsTime(Binding binding) {
        return binding instanceof Binding.SenMl || (binding instanceof Binding.Json json && json.time() != null);
    }

    private static String json(List<Probe> probes, List<String> values, Instant time) {
        var text = new StringBuilder("{");
        @Nullable String clock = null;
        for (int i = 0; i < probes.size(); i++) {
            var json = (Binding.Json) probes.get(i).binding();
            String value = json.words().isEmpty() ? values.get(i) : '"' + values.get(i) + '"';
            text.append('"').append(json.value().substring(1)).append("\":").append(value);
            text.append(i + 1 < probes.size() ? "," : "");
            clock = json.time() == null ? clock : json.time();
        }
        if (clock != null) {
            text.append(",\"")
                    .append(clock.substring(1))
                    .append("\":\"")
                    .append(time)
                    .append('"');
        }
        return text.append('}').toString();
    }

    private static String senMl(List<Probe> probes, List<String> values, Instant time) {
        return java.util.stream.IntStream.range(0, probes.size())
                .mapToObj(i -> String.format(
                        Locale.ROOT,
                        "{\"n\":\"%s\",\"t\":%d,\"v\":%s}",
                        ((Binding.SenMl) probes.get(i).binding()).name(),
                        time.getEpochSecond(),
                        values.get(i)))
                .collect(Collectors.joining(",", "[", "]"));
    }
}
