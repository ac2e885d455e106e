package traytender.dashboard.page;

import io.javalin.config.JavalinConfig;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.staticfiles.Location;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;

/** The page's own files. Every view of the page has an address of its own, so that it can be kept, sent or printed. */
final class WebFiles {
    private static final String FOLDER = "/traytender/dashboard/page/web";
    private static final String UPLOT = "/META-INF/resources/webjars/uplot/1.6.30/dist/";
    /** The chart library's files; one by one, since its jar has no folder entries to serve a folder from. */
    private static final Map<String, String> UPLOT_FILES =
            Map.of("uPlot.iife.min.js", "text/javascript; charset=utf-8", "uPlot.min.css", "text/css; charset=utf-8");

    /** Addresses of views; all are the same document, which draws what its address names. */
    private static final List<String> VIEWS = List.of(
            "/",
            "/trays",
            "/trays/{id}",
            "/nights",
            "/nights/{date}",
            "/journal",
            "/limits",
            "/probes",
            "/alerts",
            "/messages",
            "/setup",
            "/setup/trays",
            "/setup/sensors",
            "/setup/calibrate/{id}",
            "/setup/devices",
            "/setup/placing");

    private WebFiles() {}

    static void addTo(JavalinConfig config) {
        config.staticFiles.add(files -> {
            files.hostedPath = "/web";
            files.directory = FOLDER;
            files.location = Location.CLASSPATH;
            files.headers = Map.of();
        });
    }

    static void addTo(RoutesConfig routes) {
        for (String view : VIEWS) {
            routes.get(view, context -> answer(context, "index.html"));
        }
        UPLOT_FILES.forEach(
                (file, type) -> routes.get("/web/uplot/" + file, context -> answer(context, UPLOT + file, type)));
        routes.get("/favicon.ico", context -> context.redirect("/web/icon.svg"));
    }

    /** The text of one of the page's documents. */
    static String text(String file) {
        return new String(bytes(FOLDER + "/" + file), StandardCharsets.UTF_8);
    }

    /** Answers with one of the page's documents. */
    static void answer(Context context, String file) {
        answer(context, FOLDER + "/" + file, "text/html; charset=utf-8");
    }

    private static void answer(Context context, String resource, String type) {
        context.contentType(type).result(bytes(resource));
    }

    private static byte[] bytes(String resource) {
        try (InputStream in = WebFiles.class.getResourceAsStream(resource)) {
            if (in == null) {
                throw new IllegalStateException(resource + " is missing among the page's files");
            }
            return in.readAllBytes();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
