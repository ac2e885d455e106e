package traytender.dashboard.page;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import traytender.dashboard.record.NightJson;
import traytender.dashboard.report.NightWriter;
import traytender.rules.night.NightReport;

/** A night by HTTP: as JSON, or as a file to keep. */
final class NightsApi {
    private static final String PATH = Api.ROOT + "/nights/{date}";

    private final BenchFacts facts;

    NightsApi(BenchFacts facts) {
        this.facts = facts;
    }

    void addTo(RoutesConfig routes) {
        routes.get(PATH, context -> Api.answer(context, NightJson.of(night(context))));
        routes.get(PATH + "/report.html", context -> {
            // It stands by itself and shows in the browser: only the saved name is suggested.
            file(context, "text/html; charset=utf-8", "html", NightWriter.html(facts.site(), night(context)));
        });
        routes.get(
                PATH + "/report.pdf",
                context -> file(context, "application/pdf", "pdf", NightWriter.pdf(facts.site(), night(context))));
        routes.get(PATH + "/report.csv", this::csv);
    }

    private void csv(Context context) throws IOException {
        byte[] csv = NightWriter.csv(night(context)).getBytes(StandardCharsets.UTF_8);
        file(context, "text/csv; charset=utf-8", "csv", csv);
    }

    private NightReport night(Context context) {
        new Query(context);
        return facts.night(date(context));
    }

    private static LocalDate date(Context context) {
        return Query.date(context.pathParam("date"));
    }

    private static void file(Context context, String type, String ending, byte[] bytes) {
        context.contentType(type)
                .header("Content-Disposition", "attachment; filename=\"night-" + date(context) + "." + ending + "\"")
                .result(bytes);
    }
}
