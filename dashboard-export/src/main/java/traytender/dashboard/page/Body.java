package traytender.dashboard.page;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.StreamReadFeature;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import io.javalin.http.Context;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.TreeSet;

/** A JSON object that came in, checked: whatever is not as it should be is answered with 400 and what would be right. */
final class Body {
    /** Longest text of a field, in characters; our choice. */
    private static final int LONGEST = 2_000;

    private static final JsonMapper MAPPER = JsonMapper.builder()
            .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
            .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
            .build();

    private final JsonNode json;

    /** An object, which may carry the named fields and no others. */
    Body(JsonNode json, String... known) {
        if (!json.isObject()) {
            throw Answer.wrong("right is a JSON object with " + String.join(", ", known));
        }
        var others = new TreeSet<String>();
        json.fieldNames().forEachRemaining(others::add);
        others.removeAll(Arrays.asList(known));
        if (!others.isEmpty()) {
            throw Answer.wrong("unknown field " + others.first() + "; known here: " + String.join(", ", known));
        }
        this.json = json;
    }

    /** What was sent, whole. */
    static JsonNode read(Context context) {
        try {
            return MAPPER.readTree(context.body());
        } catch (JsonProcessingException e) {
            throw Answer.wrong("this is not JSON: " + e.getOriginalMessage());
        }
    }

    /** A text; empty when it is not there or {@code null}. */
    Optional<String> text(String name) {
        JsonNode value = json.path(name);
        if (value.isMissingNode() || value.isNull()) {
            return Optional.empty();
        }
        if (!value.isTextual() || value.asText().length() > LONGEST) {
            throw Answer.wrong(name + " is not a text of at most " + LONGEST + " characters");
        }
        return Optional.of(value.asText());
    }

    String needed(String name) {
        return text(name)
                .filter(text -> !text.isBlank())
                .orElseThrow(() -> Answer.wrong("field " + name + " is missing"));
    }

    Optional<Instant> time(String name) {
        return text(name).map(word -> {
            try {
                return OffsetDateTime.parse(word).toInstant();
            } catch (DateTimeParseException e) {
                throw Answer.wrong(name + " is not a time; right would be 2026-03-14T05:41:00Z");
            }
        });
    }

    Optional<Double> number(String name, double least, double most) {
        JsonNode value = json.path(name);
        if (value.isMissingNode() || value.isNull()) {
            return Optional.empty();
        }
        if (!value.isNumber() || !(value.asDouble() >= least && value.asDouble() <= most)) {
            throw Answer.wrong(name + " is not a number from " + least + " to " + most);
        }
        return Optional.of(value.asDouble());
    }

    List<String> texts(String name, int most) {
        var texts = new ArrayList<String>();
        for (JsonNode one : list(name, most)) {
            if (!one.isTextual()) {
                throw Answer.wrong(name + " is not a list of texts");
            }
            texts.add(one.asText());
        }
        return List.copyOf(texts);
    }

    /** A list; empty when it is not there. */
    List<JsonNode> list(String name, int most) {
        JsonNode value = json.path(name);
        if (value.isMissingNode() || value.isNull()) {
            return List.of();
        }
        if (!value.isArray() || value.size() > most) {
            throw Answer.wrong(name + " is not a list of at most " + most);
        }
        var parts = new ArrayList<JsonNode>();
        value.forEach(parts::add);
        return parts;
    }

    JsonNode part(String name) {
        return json.path(name);
    }
}
