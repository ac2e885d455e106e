package traytender.config.folder;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.networknt.schema.JsonSchema;
import com.networknt.schema.JsonSchemaFactory;
import com.networknt.schema.SchemaValidatorsConfig;
import com.networknt.schema.SpecVersion;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import org.snakeyaml.engine.v2.api.Load;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.schema.CoreSchema;

/** The JSON Schemas that come with the program, with documents as YAML 1.2. */
final class Schemas {
    private static final ObjectMapper MAPPER = new ObjectMapper();

    private Schemas() {}

    static JsonNode node(String name) {
        try (InputStream in = Schemas.class.getResourceAsStream("/schema/" + name)) {
            return MAPPER.readTree(in);
        } catch (IOException broken) {
            throw new UncheckedIOException(broken);
        }
    }

    static JsonSchema schema(String name) {
        return JsonSchemaFactory.getInstance(SpecVersion.VersionFlag.V202012)
                .getSchema(node(name), SchemaValidatorsConfig.builder().build());
    }

    static Object load(String yaml) {
        return new Load(LoadSettings.builder().setSchema(new CoreSchema()).build()).loadFromString(yaml);
    }

    /** What the schema has against a document; empty when it accepts it. */
    static String verdict(JsonSchema schema, Object document) {
        return String.join(
                "\n",
                schema.validate(MAPPER.valueToTree(document)).stream()
                        .map(Object::toString)
                        .toList());
    }
}
