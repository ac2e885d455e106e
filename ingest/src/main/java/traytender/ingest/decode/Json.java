package traytender.ingest.decode;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.StreamReadConstraints;
import com.fasterxml.jackson.core.StreamReadFeature;
import com.fasterxml.jackson.core.json.JsonReadFeature;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.MissingNode;

/**
 * One JSON document (RFC 8259). A document that names a field twice says two things about it and is refused. {@code NaN} and
 * {@code Infinity}, which are no JSON but which common encoders write, are let through as what they are, so that one failed
 * sensor does not cost the other values of its message.
 */
final class Json {
    /** Far deeper than a sensor's message goes; our choice. */
    private static final int DEEPEST = 64;

    private static final JsonMapper MAPPER = JsonMapper.builder()
            .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
            .enable(JsonReadFeature.ALLOW_NON_NUMERIC_NUMBERS)
            .enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
            .build();

    static {
        MAPPER.getFactory()
                .setStreamReadConstraints(
                        StreamReadConstraints.builder().maxNestingDepth(DEEPEST).build());
    }

    private Json() {}

    static JsonNode parse(String text) throws Refused {
        try {
            JsonNode node = MAPPER.readTree(text);
            if (node == null || node instanceof MissingNode) {
                throw new Refused(Cause.EMPTY);
            }
            return node;
        } catch (JsonProcessingException e) {
            throw new Refused(Cause.NOT_JSON);
        }
    }
}
