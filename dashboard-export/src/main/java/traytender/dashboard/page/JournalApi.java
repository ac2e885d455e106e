package traytender.dashboard.page;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import traytender.config.journal.EntryKind;
import traytender.config.journal.Growing;
import traytender.config.journal.JournalEntry;
import traytender.dashboard.record.Json;
import traytender.ingest.store.KeptEntry;

/** The journal by HTTP: read, written, withdrawn, corrected. */
final class JournalApi {
    private static final String PATH = Api.ROOT + "/journal";
    /** As for a reading: a time further ahead is a clock's or a typing mistake. */
    private static final Duration FURTHEST_AHEAD = Duration.ofMinutes(5);

    private static final Instant EARLIEST = Instant.parse("2000-01-01T00:00:00Z");
    /** Entries written at once, for example one a tray of a bench; our choice. */
    private static final int MOST_AT_ONCE = 500;

    private final BenchFacts facts;
    private final BenchActs acts;

    JournalApi(BenchFacts facts, BenchActs acts) {
        this.facts = facts;
        this.acts = acts;
    }

    void addTo(RoutesConfig routes) {
        routes.get(PATH, this::list);
        routes.post(PATH, this::write);
        routes.put(PATH + "/{number}", this::correct);
        routes.delete(PATH + "/{number}", context -> answer(context, acts.withdraw(number(context))));
        routes.post(PATH + "/{number}/bring-back", context -> answer(context, acts.bringBack(number(context))));
    }

    private void list(Context context) {
        var query = new Query(context, "tray", "from", "to", "past");
        String tray = query.word("tray").orElse(null);
        Instant from = query.time("from").orElse(Instant.MIN);
        Instant to = query.time("to").orElse(Instant.MAX);
        boolean past = query.yes("past");
        ArrayNode journal = Json.array();
        facts.journal().stream()
                .filter(kept -> past || kept.counts())
                .filter(kept -> tray == null || tray.equals(kept.entry().tray()))
                .filter(kept -> !kept.entry().time().isBefore(from)
                        && kept.entry().time().isBefore(to))
                .map(JournalApi::json)
                .forEach(journal::add);
        Api.answer(context, journal);
    }

    private void write(Context context) {
        JsonNode body = Body.read(context);
        var entries = new ArrayList<JournalEntry>();
        if (body.isArray()) {
            if (body.isEmpty() || body.size() > MOST_AT_ONCE) {
                throw Answer.wrong("right is one entry, or a list of 1 to " + MOST_AT_ONCE);
            }
            body.forEach(one -> entries.add(entry(one)));
        } else {
            entries.add(entry(body));
        }
        List<KeptEntry> kept = acts.write(List.copyOf(entries));
        ArrayNode answer = withDoubts(kept);
        context.status(201);
        Api.answer(context, body.isArray() ? answer : answer.get(0));
    }

    private void correct(Context context) {
        long number = number(context);
        JournalEntry right = entry(Body.read(context));
        Optional<KeptEntry> kept = acts.correct(number, right);
        if (kept.isEmpty()) {
            throw Answer.unknown("no entry " + number + " that counts");
        }
        Api.answer(context, withDoubts(List.of(kept.get())).get(0));
    }

    private JournalEntry entry(JsonNode json) {
        var body = new Body(json, "time", "tray", "entry", "detail", "note");
        String tray = body.needed("tray");
        if (facts.site().tray(tray).isEmpty()) {
            throw Answer.wrong("there is no tray " + tray);
        }
        String word = body.needed("entry");
        EntryKind kind = EntryKind.ofWord(word)
                .orElseThrow(() -> Answer.wrong(word + " is no journal entry; right are "
                        + Arrays.stream(EntryKind.values()).map(EntryKind::word).collect(Collectors.joining(", "))));
        Instant time = body.time("time").orElseGet(facts::now);
        if (time.isAfter(facts.now().plus(FURTHEST_AHEAD)) || time.isBefore(EARLIEST)) {
            throw Answer.wrong("time is in the future, or before the year 2000");
        }
        // By way of the journal's own text, so that an entry from here and the same one from a file are equal.
        String text = detail(body.part("detail"))
                + body.text("note").map(note -> ";" + oneLine(note)).orElse("");
        return JournalEntry.of(time, tray, kind, text);
    }

    private static String detail(JsonNode json) {
        if (json.isMissingNode() || json.isNull()) {
            return "";
        }
        if (!json.isObject()) {
            throw Answer.wrong("detail is not an object such as {\"zones\": \"centre\"}");
        }
        var pairs = new TreeMap<String, String>();
        for (Map.Entry<String, JsonNode> field : json.properties()) {
            JsonNode value = field.getValue();
            boolean isPlain =
                    (value.isTextual() || value.isNumber()) && value.asText().length() <= 500;
            if (!isPlain || value.asText().contains(";")) {
                throw Answer.wrong("detail " + field.getKey() + " is neither a short text without ; nor a number");
            }
            pairs.put(field.getKey(), oneLine(value.asText()));
        }
        return pairs.entrySet().stream()
                .map(pair -> pair.getKey() + "=" + pair.getValue())
                .collect(Collectors.joining(";"));
    }

    private static String oneLine(String text) {
        return text.replaceAll("\\p{Cntrl}+", " ").strip();
    }

    private static long number(Context context) {
        try {
            return Long.parseLong(context.pathParam("number"));
        } catch (NumberFormatException e) {
            throw Answer.unknown("no entry " + context.pathParam("number"));
        }
    }

    private static void answer(Context context, Optional<KeptEntry> kept) {
        Api.answer(context, json(kept.orElseThrow(() -> Answer.unknown("no entry " + context.pathParam("number")))));
    }

    /** The entries, each with why it has less effect than it says, where that is so. */
    private ArrayNode withDoubts(List<KeptEntry> kept) {
        Set<JournalEntry> asked = new HashSet<>();
        kept.forEach(one -> asked.add(one.entry()));
        List<JournalEntry> counting = facts.journal().stream()
                .filter(KeptEntry::counts)
                .map(KeptEntry::entry)
                .toList();
        List<Growing.Doubt> doubts = Growing.of(facts.site(), facts.crops(), counting).doubts().stream()
                .filter(doubt -> asked.contains(doubt.entry()))
                .toList();
        ArrayNode answer = Json.array();
        for (KeptEntry one : kept) {
            ObjectNode json = json(one);
            json.set(
                    "doubts",
                    Json.words(doubts.stream()
                            .filter(doubt -> doubt.entry().equals(one.entry()))
                            .map(Growing.Doubt::why)
                            .toList()));
            answer.add(json);
        }
        return answer;
    }

    private static ObjectNode json(KeptEntry kept) {
        JournalEntry entry = kept.entry();
        ObjectNode json = Json.object();
        json.put("number", kept.number());
        json.set("time", Json.time(entry.time()));
        json.put("tray", entry.tray());
        json.put("entry", entry.kind().word());
        ObjectNode detail = json.putObject("detail");
        new TreeMap<>(entry.detail()).forEach(detail::put);
        json.put("note", entry.note());
        json.put("state", kept.counts() ? "counts" : kept.replacedBy() == null ? "withdrawn" : "corrected");
        json.put("replacedBy", kept.replacedBy());
        return json;
    }
}
