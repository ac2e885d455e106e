package traytender.dashboard.page;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import java.io.IOException;
import java.net.URI;
import java.util.List;
import org.jspecify.annotations.Nullable;
import traytender.config.notice.NoticeSettings;
import traytender.dashboard.report.LabelPaper;
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
        var query = new Query(context, "tray", "paper");
        String tray = query.word("tray").orElse(null);
        LabelPaper paper = query.word("paper").map(LabelsApi::paper).orElse(LabelPaper.A4);
        List<LabelsHtml.Tray> trays = facts.trays().stream()
                .filter(view -> tray == null || view.id().equals(tray))
                .map(LabelsApi::label)
                .toList();
        if (trays.isEmpty()) {
            throw Answer.unknown(tray == null ? "there are no trays" : "no tray " + tray);
        }
        context.contentType("application/pdf")
                .header("Content-Disposition", "attachment; filename=\"labels.pdf\"")
                .result(LabelsHtml.pdf(trays, page(context, notices.page()), paper));
    }

    private static LabelPaper paper(String word) {
        return LabelPaper.of(word)
                .orElseThrow(
                        () -> Answer.wrong(
                                "paper=" + word
                                        + " is neither A4 nor Letter nor a label's width and height of 20 to 300 mm, the width first; right would be 62x29"));
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
