package traytender.dashboard.page;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import traytender.config.journal.Growing;
import traytender.config.journal.JournalEntry;
import traytender.config.journal.VarietyCount;
import traytender.config.journal.VarietyCounts;
import traytender.dashboard.record.Json;
import traytender.ingest.store.KeptEntry;

/** How many plants of each variety came through, from seeds sown to plants planted out, by HTTP as JSON and CSV. */
final class VarietiesApi {
    private static final String PATH = Api.ROOT + "/varieties";

    private final BenchFacts facts;

    VarietiesApi(BenchFacts facts) {
        this.facts = facts;
    }

    void addTo(RoutesConfig routes) {
        routes.get(PATH, this::json);
        routes.get(PATH + ".csv", this::csv);
    }

    private List<VarietyCount> counts() {
        List<JournalEntry> entries = facts.journal().stream()
                .filter(KeptEntry::counts)
                .map(KeptEntry::entry)
                .toList();
        return VarietyCounts.of(facts.site(), Growing.of(facts.site(), facts.crops(), entries), entries);
    }

    private void json(Context context) {
        new Query(context);
        ArrayNode varieties = Json.array();
        for (VarietyCount count : counts()) {
            ObjectNode json = varieties.addObject();
            json.put("crop", count.crop());
            json.put("variety", count.variety());
            json.put("seeds", count.seeds());
            json.put("emerged", count.emerged());
            json.put("thinned", count.thinned());
            json.put("lost", count.lost());
            json.put("pottedUp", count.pottedUp());
            json.put("plantedOut", count.plantedOut());
        }
        Api.answer(context, varieties);
    }

    private void csv(Context context) {
        new Query(context);
        var text = new StringBuilder();
        try (var csv = new CSVPrinter(
                text, CSVFormat.RFC4180.builder().setRecordSeparator('\n').get())) {
            csv.printRecord("crop", "variety", "seeds", "emerged", "thinned", "lost", "potted-up", "planted-out");
            for (VarietyCount count : counts()) {
                csv.printRecord(
                        count.crop(),
                        count.variety(),
                        count.seeds(),
                        count.emerged(),
                        count.thinned(),
                        count.lost(),
                        count.pottedUp(),
                        count.plantedOut());
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        context.contentType("text/csv; charset=utf-8")
                .header("Content-Disposition", "attachment; filename=\"varieties.csv\"")
                .result(text.toString());
    }
}
