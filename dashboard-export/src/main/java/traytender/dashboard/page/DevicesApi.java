package traytender.dashboard.page;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import traytender.config.site.Broker;
import traytender.dashboard.record.Json;
import traytender.dashboard.setup.Sensors;

/** Who may send to the built-in broker, and what is typed into a device. */
final class DevicesApi {
    private static final String PATH = Api.ROOT + "/site/devices";
    private static final Set<String> LOOPBACK = Set.of("127.0.0.1", "localhost", "::1");

    private final BenchFacts facts;
    private final Sensors sensors;

    DevicesApi(BenchFacts facts, Sensors sensors) {
        this.facts = facts;
        this.sensors = sensors;
    }

    void addTo(RoutesConfig routes) {
        routes.get(PATH, this::devices);
        routes.post(PATH, this::give);
        routes.delete(PATH + "/{name}", this::revoke);
    }

    private void devices(Context context) {
        new Query(context);
        Api.answer(context, devices());
    }

    private ObjectNode devices() {
        ObjectNode json = Json.object();
        Broker broker = facts.site().messages().broker();
        if (broker instanceof Broker.BuiltIn builtIn) {
            json.put("broker", "built-in").put("listen", builtIn.listen()).put("tls", builtIn.key() != null);
            json.put("host", host(builtIn));
        } else {
            json.put("broker", ((Broker.Outside) broker).uri())
                    .put("listen", (String) null)
                    .put("tls", false)
                    .put("host", (String) null);
        }
        json.put("port", sensors.port());
        json.set("addresses", Json.words(Sensors.addresses()));
        ArrayNode users = json.putArray("users");
        sensors.users()
                .forEach((name, topics) -> users.addObject().put("name", name).set("topics", Json.words(topics)));
        return json;
    }

    /** Where a board finds the broker; null when this machine has no address in a network. */
    private static @Nullable String host(Broker.BuiltIn broker) {
        if (LOOPBACK.contains(broker.listen())) {
            return broker.listen();
        }
        return Sensors.addresses().stream().findFirst().orElse(null);
    }

    private void give(Context context) {
        var body = new Body(Body.read(context), "name", "topics");
        String name = body.needed("name");
        List<String> topics = body.texts("topics", 20);
        if (topics.isEmpty()) {
            throw Answer.wrong("topics is missing: where " + name + " may publish");
        }
        String password = sensors.give(name, topics);
        String topic = topic(name, topics.get(0));
        ObjectNode json = Json.object();
        json.put("name", name);
        json.put("password", password);
        json.set("topics", Json.words(topics));
        json.put("topic", topic);
        json.set("qr", Json.words(QrRows.of(credentials(name, password, topic))));
        context.status(201);
        Api.answer(context, json);
    }

    /**
     * A topic to type into a device, out of the filter by which it may send (MQTT 3.1.1, section 4.7): its name stands for the + and #
     * in it, and a filter that ends in its name already names the topic itself.
     */
    static String topic(String name, String filter) {
        String level = name.replaceAll("[/+#]", "-");
        if (filter.endsWith("/" + level + "/#")) {
            return filter.substring(0, filter.length() - 2);
        }
        return filter.replace("+", level).replace("#", level);
    }

    /** What a board needs, a line each, as plain text: no open standard has an address form for it that boards read. */
    private String credentials(String name, String password, String topic) {
        return "host: " + devices().path("host").asText("") + "\nport: " + sensors.port() + "\nuser: " + name
                + "\npassword: " + password + "\ntopic: " + topic + "\n";
    }

    private void revoke(Context context) {
        String name = context.pathParam("name");
        if (!sensors.revoke(name)) {
            throw Answer.unknown("no device " + name);
        }
        Api.answer(context, devices());
    }
}
