package traytender.dashboard.page;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.util.Locale;
import traytender.config.notice.Person;
import traytender.dashboard.notice.PeopleNotices;
import traytender.dashboard.record.Json;
import traytender.ingest.store.StoredNotice;

/** Notices to people by HTTP: who hears of what, what was sent, and a test. */
final class NoticesApi {
    private static final String PATH = Api.ROOT + "/notices";
    private static final int USUAL = 100;
    private static final int MOST = 5_000;

    private final PeopleNotices people;

    NoticesApi(PeopleNotices people) {
        this.people = people;
    }

    void addTo(RoutesConfig routes) {
        routes.get(PATH, this::notices);
        routes.post(PATH + "/test", this::test);
    }

    private void notices(Context context) {
        int most = new Query(context, "limit").count("limit", 1, MOST).orElse(USUAL);
        ObjectNode json = Json.object();
        ArrayNode persons = json.putArray("people");
        people.settings().people().forEach(person -> persons.add(json(person)));
        ArrayNode notices = json.putArray("notices");
        people.newest(most).forEach(notice -> notices.add(json(notice)));
        Api.answer(context, json);
    }

    private static ObjectNode json(Person person) {
        ObjectNode json = Json.object();
        json.put("name", person.name());
        json.put("mail", person.mail());
        json.put("webhook", person.webhook() == null ? null : person.webhook().getHost());
        json.put("urgency", person.urgency().word());
        Person.Quiet quiet = person.quiet();
        json.put("quiet", quiet == null ? null : quiet.from() + "-" + quiet.to());
        json.put("nowBreaksQuiet", person.nowBreaksQuiet());
        Person.Night night = person.night();
        if (night == null) {
            json.putNull("nightReport");
        } else {
            json.putObject("nightReport")
                    .put("at", night.at().toString())
                    .put("as", night.as().name().toLowerCase(Locale.ROOT));
        }
        return json;
    }

    private static ObjectNode json(StoredNotice notice) {
        ObjectNode json = Json.object();
        json.put("number", notice.number());
        json.put("person", notice.person());
        json.put("way", notice.way());
        json.put("subject", notice.subject());
        json.put("body", notice.body());
        json.set("made", Json.time(notice.made()));
        json.put("state", notice.state());
        json.put("tries", notice.tries());
        json.set("next", Json.time(notice.next()));
        json.put("trouble", notice.trouble());
        return json;
    }

    private void test(Context context) {
        String name = new Body(Body.read(context), "person").needed("person");
        if (!people.test(name)) {
            throw Answer.unknown("nobody is called " + name + " in notices.yaml");
        }
        context.status(202);
        Api.answer(context, Json.object().put("person", name));
    }
}
