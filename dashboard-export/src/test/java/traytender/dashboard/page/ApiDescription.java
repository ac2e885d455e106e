package traytender.dashboard.page;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.networknt.schema.JsonSchemaFactory;
import com.networknt.schema.SpecVersion;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.util.List;

/** The served OpenAPI document, to hold answers against. */
record ApiDescription(String document) {
    private static final String BASE = "https://traytender.invalid/api";

    static ApiDescription of(PageServer server) throws Exception {
        var request = HttpRequest.newBuilder(URI.create(server.address() + "api/v1/openapi.json"))
                .build();
        return new ApiDescription(HttpClient.newHttpClient()
                .send(request, HttpResponse.BodyHandlers.ofString())
                .body());
    }

    /** What is not as the description says; empty when all is. */
    List<String> errors(String path, String method, String status, JsonNode answer) {
        String escaped =
                path.replace("~", "~0").replace("/", "~1").replace("{", "%7B").replace("}", "%7D");
        var schemas = JsonSchemaFactory.getInstance(
                SpecVersion.VersionFlag.V202012,
                builder -> builder.schemaLoaders(
                        loaders -> loaders.schemas(iri -> iri.startsWith(BASE) ? document : null)));
        var schema = schemas.getSchema(URI.create(BASE + "#/paths/" + escaped + "/" + method + "/responses/" + status
                + "/content/application~1json/schema"));
        return schema.validate(answer).stream().map(Object::toString).toList();
    }

    JsonNode json() throws Exception {
        return new ObjectMapper().readTree(document);
    }
}
