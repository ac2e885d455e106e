package traytender.dashboard.page;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.io.IOException;
import java.net.URI;
import java.util.List;
import org.jspecify.annotations.Nullable;
import traytender.config.notice.NoticeSettings;
import traytender.dashboard.report.LabelsHtml;
import traytender.rules.view.SowingView;
import traytender.rules.view.TrayView;

/** Labels for trays and rows, as a PDF to print. */
final class LabelsApi {
    private final BenchFacts facts;
    private final NoticeSettings notices;

    LabelsApi(BenchFacts facts, NoticeSettings notices) {
        this.facts = facts;
        this.notices = notices;
    }

    void addTo(RoutesConfig routes) {
        routes.get(Api.ROOT + "/labels.pdf", this::labels);
    }

    private void labels(Context context) throws IOException {
        String tray = new Query(context, "tray").word("tray").orElse(null);
        List<LabelsHtml.Tray> trays = facts.trays().stream()
                .filter(view -> tray == null || view.id().equals(tray))
                .map(LabelsApi::label)
                .toList();
        if (trays.isEmpty()) {
            throw Answer.unknown(tray == null ? "there are no trays" : "no tray " + tray);
        }
        context.contentType("application/pdf")
                .header("Content-Disposition", "attachment; filename=\"labels.pdf\"")
                .result(LabelsHtml.pdf(trays, page(context, notices.page())));
    }

    private static LabelsHtml.Tray label(TrayView view) {
        return new LabelsHtml.Tray(
                view.id(),
                view.cells(),
                view.sowings().stream().map(SowingView::sowing).toList());
    }

    /** Where the grower says the page is, else where it was asked from. */
    private static URI page(Context context, @Nullable String said) {
        return URI.create(said != null ? said : context.scheme() + "://" + context.host() + "/");
    }
}
