package traytender.dashboard.page;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.net.http.HttpTimeoutException;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.Tuple;
import net.jqwik.api.lifecycle.AfterContainer;
import net.jqwik.api.lifecycle.BeforeContainer;

/**
 * Every operation that the OpenAPI document describes, asked with whatever comes: it answers as is described, or refuses in a plain
 * word, and never fails nor hangs. The long form is {@code -Djqwik.tries.default=1000000}.
 */
class HttpFuzzTest {
    /** Words that mean something somewhere here, and such as have broken programs before; as they stand in an address. */
    private static final List<String> WORDS = List.of(
            "T01",
            "T01-moisture",
            "propagation",
            "mat-1",
            "tomato",
            "1",
            "2",
            "0",
            "-1",
            "true",
            "false",
            "2026-03-13",
            "2026-03-14T05:41:00Z",
            "2026-03-14T06:41:00%2B01:00",
            "2026-02-30",
            "%2B999999999-12-31T23:59:59Z",
            "-999999999-01-01T00:00:00Z",
            "9223372036854775807",
            "9223372036854775808",
            "1e308",
            "NaN",
            "0x10",
            "%00",
            "%FF%FE",
            "%F0%9F%8C%B1",
            "..",
            "%2E%2E%2F",
            "a%2Fb",
            "%5C",
            "%27%3B--",
            "%3Cb%3E",
            "%0D%0AX:1",
            "%7B%7D",
            "");

    /** The same for a body, as JSON. */
    private static final List<String> VALUES = List.of(
            "null",
            "true",
            "0",
            "-1",
            "1",
            "0.5",
            "1e308",
            "1e999",
            "99999999999999999999",
            "\"\"",
            "\"T01\"",
            "\"T01-moisture\"",
            "\"watered\"",
            "\"seen\"",
            "\"tomato\"",
            "\"seedling\"",
            "\"dry-line\"",
            "\"a1\"",
            "\"2026-03-14T05:41:00Z\"",
            "\"2026-13-01\"",
            "\"\\u0000\"",
            "\"\\ud800\"",
            "\"../x\"",
            "\"#\"",
            "[]",
            "{}");

    /** A new bench after so many questions: what they changed must not slow down the rest. */
    private static final int QUESTIONS_A_BENCH = 5_000;

    private static final Duration HANGS = Duration.ofSeconds(60);
    private static HttpClient client = HttpClient.newHttpClient();
    private static ServedBench served;
    private static List<Operation> operations;
    private static List<String> fields;
    private static int questions;
    private static final List<String> DROPPED = new ArrayList<>();

    /** One operation as described. */
    private record Operation(String method, String path, List<String> parameters, Set<String> statuses) {}

    /** What is asked of it: words for what stands in braces, a query and a body. */
    private record Question(Operation operation, List<String> words, String query, String body) {
        URI at(URI server) {
            String path = operation.path();
            for (String word : words) {
                path = path.replaceFirst("\\{[^}]*}", word.replace("\\", "\\\\").replace("$", "\\$"));
            }
            return URI.create(server.resolve("/") + path.substring(1) + query);
        }

        /** Whether it may not be this operation at all that is asked so: an empty word, dots or slashes in its address. */
        boolean isElsewhere() {
            return operation.path().contains("{")
                    && words.stream()
                            .anyMatch(word ->
                                    word.isEmpty() || word.matches("(?s).*([.;/\\\\]|%00|%2[fFeE]|%5[cC]|%[89A-F]).*"));
        }
    }

    @BeforeContainer
    static void serve() throws Exception {
        served = new ServedBench();
        served.beforeEach(null);
        JsonNode description = ApiDescription.of(served.server).json();
        operations = new ArrayList<>();
        for (Map.Entry<String, JsonNode> path : description.path("paths").properties()) {
            for (Map.Entry<String, JsonNode> method : path.getValue().properties()) {
                var names = new ArrayList<String>();
                method.getValue()
                        .path("parameters")
                        .forEach(it -> names.add(it.path("name").asText()));
                var statuses = new HashSet<String>();
                method.getValue().path("responses").fieldNames().forEachRemaining(statuses::add);
                operations.add(new Operation(
                        method.getKey().toUpperCase(Locale.ROOT),
                        path.getKey(),
                        List.copyOf(names),
                        Set.copyOf(statuses)));
            }
        }
        // It answers for as long as it is listened to.
        operations.removeIf(operation -> operation.path().equals("/api/v1/changes"));
        var names = new TreeSet<String>();
        description.findValues("properties").forEach(it -> it.fieldNames().forEachRemaining(names::add));
        fields = List.copyOf(names);
    }

    @AfterContainer
    static void close() throws Exception {
        served.afterEach(null);
        assertThat(DROPPED).as("connections ended without a word").isEmpty();
    }

    @Property(seed = "20260314")
    void whateverIsAsked_isAnsweredAsDescribed_orRefusedInAPlainWord(@ForAll("questions") Question question)
            throws Exception {
        renew();
        var request = HttpRequest.newBuilder(question.at(served.server.address()))
                .timeout(HANGS)
                .header("Content-Type", "application/json")
                .method(
                        question.operation().method(),
                        question.operation().method().equals("GET")
                                ? BodyPublishers.noBody()
                                : BodyPublishers.ofString(question.body()));

        HttpResponse<String> answer = send(request.build());

        String status = Integer.toString(answer.statusCode());
        if (question.isElsewhere()) {
            assertThat(answer.statusCode()).as(status).isLessThan(500);
            return;
        }
        assertThat(question.operation().statuses()).as("described answers").contains(status);
        if (answer.statusCode() >= 400 && answer.statusCode() != 503) {
            assertThat(new ObjectMapper().readTree(answer.body()).path("error").asText())
                    .isNotBlank();
        }
    }

    /**
     * The web server refuses an address that is none (such as one with {@code %00}) before the program sees it, in its own words, and
     * ends the connection without having said so (RFC 9112, section 9.6, lets it): the next question comes on a new one. A
     * connection that ends at any other time is an error.
     */
    private static HttpResponse<String> send(HttpRequest request) throws Exception {
        try {
            HttpResponse<String> answer = client.send(request, BodyHandlers.ofString());
            String type = answer.headers().firstValue("Content-Type").orElse("");
            if (answer.statusCode() == 400 && type.startsWith("text/html")) {
                client = HttpClient.newHttpClient();
            }
            return answer;
        } catch (HttpTimeoutException e) {
            throw e;
        } catch (IOException e) {
            DROPPED.add(request.method() + " " + request.uri() + ": " + e);
            return HttpClient.newHttpClient().send(request, BodyHandlers.ofString());
        }
    }

    private static void renew() throws Exception {
        if (++questions % QUESTIONS_A_BENCH == 0) {
            served.afterEach(null);
            served.beforeEach(null);
        }
    }

    @Provide
    static Arbitrary<Question> questions() {
        Arbitrary<String> word = Arbitraries.frequencyOf(
                Tuple.of(4, Arbitraries.of(WORDS)),
                Tuple.of(
                        1,
                        Arbitraries.strings()
                                .ofMaxLength(20)
                                .map(it -> URLEncoder.encode(it, StandardCharsets.UTF_8))));
        return Arbitraries.of(operations)
                .flatMap(operation -> Combinators.combine(word.list().ofSize(2), query(operation, word), bodies())
                        .as((words, query, body) -> new Question(operation, words, query, body)));
    }

    private static Arbitrary<String> query(Operation operation, Arbitrary<String> word) {
        var names = new ArrayList<>(operation.parameters());
        names.add("odd");
        Arbitrary<String> name = operation.parameters().isEmpty()
                ? Arbitraries.of(names)
                : Arbitraries.frequencyOf(
                        Tuple.of(9, Arbitraries.of(operation.parameters())), Tuple.of(1, Arbitraries.of(names)));
        return Combinators.combine(name, word)
                .as((key, value) -> key + "=" + value)
                .list()
                .ofMaxSize(3)
                .map(pairs -> pairs.isEmpty() ? "" : "?" + String.join("&", pairs));
    }

    private static Arbitrary<String> bodies() {
        Arbitrary<String> object = object(Arbitraries.of(VALUES));
        Arbitrary<String> deep = object(Arbitraries.oneOf(
                Arbitraries.of(VALUES),
                object,
                object.list().ofMaxSize(2).map(it -> "[" + String.join(",", it) + "]")));
        return Arbitraries.oneOf(
                object,
                deep,
                object(deep),
                Arbitraries.of(VALUES),
                Arbitraries.strings().ofMaxLength(40));
    }

    private static Arbitrary<String> object(Arbitrary<String> values) {
        return Combinators.combine(Arbitraries.of(fields), values)
                .as((name, value) -> "\"" + name + "\":" + value)
                .list()
                .ofMaxSize(4)
                .map(pairs -> "{" + String.join(",", pairs) + "}");
    }
}
