package traytender.dashboard.page;

import io.javalin.config.JavalinConfig;
import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.staticfiles.Location;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Map;

/** The page's own files. Every view of the page has an address of its own, so that it can be kept, sent or printed. */
final class WebFiles {
    private static final String FOLDER = "/traytender/dashboard/page/web";
    private static final String UPLOT = "/META-INF/resources/webjars/uplot/1.6.30/dist";
    /** Addresses of views; all are the same document, which draws what its address names. */
    private static final List<String> VIEWS =
            List.of("/", "/trays", "/trays/{id}", "/nights", "/nights/{date}", "/probes", "/alerts", "/messages");

    private WebFiles() {}

    static void addTo(JavalinConfig config) {
        add(config, "/web", FOLDER);
        add(config, "/web/uplot", UPLOT);
    }

    private static void add(JavalinConfig config, String path, String folder) {
        config.staticFiles.add(files -> {
            files.hostedPath = path;
            files.directory = folder;
            files.location = Location.CLASSPATH;
            files.headers = Map.of();
        });
    }

    static void addTo(RoutesConfig routes) {
        for (String view : VIEWS) {
            routes.get(view, context -> answer(context, "index.html"));
        }
        routes.get("/favicon.ico", context -> context.redirect("/web/icon.svg"));
    }

    /** Answers with one of the page's documents. */
    static void answer(Context context, String file) {
        try (InputStream in = WebFiles.class.getResourceAsStream("web/" + file)) {
            if (in == null) {
                throw new IllegalStateException(file + " is missing among the page's files");
            }
            context.contentType("text/html; charset=utf-8").result(in.readAllBytes());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
