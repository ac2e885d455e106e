package traytender.config.folder;

import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.LocalTime;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.snakeyaml.engine.v2.nodes.Node;
import traytender.config.alert.Urgency;
import traytender.config.notice.Heartbeat;
import traytender.config.notice.MailServer;
import traytender.config.notice.MailServer.Security;
import traytender.config.notice.NoticeSettings;
import traytender.config.notice.Person;
import traytender.config.site.LampHours;

/** Reads {@code notices.yaml}. */
final class NoticesReading {
    static final String FILE = "notices.yaml";
    private static final List<String> PERSON_KEYS =
            List.of("name", "mail", "webhook", "secret-file", "urgency", "quiet", "now-breaks-quiet", "night-report");
    private static final Pattern ADDRESS = Pattern.compile("[^@\\s<>\",;]+@[^@\\s<>\",;]+");
    private static final Pattern HOST = Pattern.compile("[A-Za-z0-9:.-]{1,253}");
    private static final int TLS_PORT = 465;
    private static final int SUBMISSION_PORT = 587;
    private static final int PLAIN_PORT = 25;
    private static final Duration USUAL_HEARTBEAT = Duration.ofMinutes(5);

    private NoticesReading() {}

    static NoticeSettings read(Path folder) {
        if (!Files.exists(folder.resolve(FILE))) {
            return NoticeSettings.NONE;
        }
        var problems = new Problems();
        Node root = YamlFile.read(folder.resolve(FILE), FILE, problems);
        NoticeSettings settings = root == null ? null : settings(new Field(root, FILE, "the file", problems));
        problems.runChecks();
        if (settings == null || problems.any()) {
            throw new SiteFolderException(problems.inOrder());
        }
        return settings;
    }

    private static @Nullable NoticeSettings settings(Field field) {
        Keys keys = field.keys(List.of("page", "mail", "heartbeat", "people"));
        if (keys == null) {
            return null;
        }
        String page = keys.may("page", Addresses::web);
        MailServer mail = keys.may("mail", NoticesReading::mail);
        Heartbeat heartbeat = keys.may("heartbeat", NoticesReading::heartbeat);
        Set<String> names = new HashSet<>();
        List<Person> people = keys.list("people", person -> person(person, keys.has("mail"), names));
        return new NoticeSettings(page, mail, heartbeat, people);
    }

    private static @Nullable Heartbeat heartbeat(Field field) {
        Keys keys = field.keys(List.of("url", "every"));
        if (keys == null) {
            return null;
        }
        URI url = keys.need(
                "url", value -> Addresses.uri(value, List.of("http", "https"), "https://watch.example.org/alder"));
        Duration every = keys.or(
                "every",
                USUAL_HEARTBEAT,
                value -> Times.duration(value, Duration.ofMinutes(1), Duration.ofDays(1), "PT5M"));
        return url == null ? null : new Heartbeat(url, every);
    }

    private static @Nullable MailServer mail(Field field) {
        Keys keys = field.keys(List.of("server", "port", "security", "from", "user", "password-file"));
        if (keys == null) {
            return null;
        }
        String host = keys.need("server", value -> value.text(HOST, "a host such as mail.example.org"));
        Security security = keys.or(
                "security",
                Security.STARTTLS,
                value ->
                        value.word(List.of(Security.values()), one -> one.name().toLowerCase(Locale.ROOT)));
        int usual = switch (security) {
            case TLS -> TLS_PORT;
            case STARTTLS -> SUBMISSION_PORT;
            case NONE -> PLAIN_PORT;
        };
        int port = keys.or("port", usual, value -> value.whole(1, 65_535));
        String from = keys.need("from", NoticesReading::address);
        String user = keys.may("user", Field::text);
        String password = keys.may("password-file", Field::text);
        if (keys.has("user") != keys.has("password-file")) {
            field.wrong("mail has only one of user and password-file", "give both, or neither");
        }
        if (security == Security.NONE && keys.has("user")) {
            field.wrong("mail would send its password in the clear", "security: starttls or tls is right with a user");
        }
        return host == null || from == null ? null : new MailServer(host, port, security, from, user, password);
    }

    private static @Nullable String address(Field field) {
        return field.text(ADDRESS, "an address such as mira@example.org");
    }

    private static @Nullable Person person(Field field, boolean isMailKnown, Set<String> names) {
        Keys keys = field.keys(PERSON_KEYS);
        if (keys == null) {
            return null;
        }
        String name = keys.need("name", Field::id);
        String mail = keys.may("mail", NoticesReading::address);
        URI webhook = keys.may(
                "webhook", value -> Addresses.uri(value, List.of("http", "https"), "https://board.example/alerts"));
        String secret = keys.may("secret-file", Field::text);
        Urgency urgency =
                keys.or("urgency", Urgency.TODAY, value -> value.word(List.of(Urgency.values()), Urgency::word));
        LampHours quiet = keys.may("quiet", Times::lampHours);
        boolean breaks = keys.or("now-breaks-quiet", true, Field::yes);
        Person.Night night = keys.may("night-report", NoticesReading::night);
        if (!keys.has("mail") && !keys.has("webhook")) {
            field.wrong("has neither mail nor webhook", "give one of them");
        }
        if (keys.has("webhook") != keys.has("secret-file")) {
            field.wrong("has only one of webhook and secret-file", "give both, or neither");
        }
        if (keys.has("night-report") && !keys.has("mail")) {
            field.wrong("wants the night report, but has no mail", "give mail too");
        }
        if (keys.has("mail") && !isMailKnown) {
            field.wrong("wants mail, but the file names no mail server", "give mail: {server: ..., from: ...}");
        }
        if (name != null && !names.add(name)) {
            field.wrong("the name " + name + " stands twice", "give each a name of its own");
        }
        return name == null
                ? null
                : new Person(
                        name,
                        mail,
                        webhook,
                        secret,
                        urgency,
                        quiet == null ? null : new Person.Quiet(quiet.on(), quiet.off()),
                        breaks,
                        night);
    }

    private static Person.@Nullable Night night(Field field) {
        Keys keys = field.keys(List.of("at", "as"));
        if (keys == null) {
            return null;
        }
        LocalTime at = keys.need("at", Times::timeOfDay);
        Person.Form as = keys.or(
                "as",
                Person.Form.PDF,
                value -> value.word(
                        List.of(Person.Form.values()), one -> one.name().toLowerCase(Locale.ROOT)));
        return at == null ? null : new Person.Night(at, as);
    }
}
