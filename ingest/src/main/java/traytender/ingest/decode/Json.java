package traytender.ingest.decode;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.MissingNode;

/** One JSON document. */
final class Json {
    private static final ObjectMapper MAPPER =
            new ObjectMapper().enable(DeserializationFeature.FAIL_ON_TRAILING_TOKENS);

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
