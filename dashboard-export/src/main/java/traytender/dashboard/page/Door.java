package traytender.dashboard.page;

import io.javalin.config.RoutesConfig;
import io.javalin.http.Context;
import io.javalin.http.Cookie;
import io.javalin.http.HttpStatus;
import io.javalin.http.SameSite;
import java.time.Clock;
import java.time.Duration;
import java.util.function.Supplier;

/** Lets in only who has given the page's password, on an address that others on the network can reach. */
final class Door {
    static final String COOKIE = "traytender-session";
    private static final String LOGIN = "/login";

    private final PagePassword password;
    private final Supplier<BenchFacts.Health> health;
    private final Sessions sessions;
    private final Throttle throttle;
    private final MetricsToken metricsToken;

    Door(PagePassword password, MetricsToken metricsToken, Supplier<BenchFacts.Health> health, Clock clock) {
        this.password = password;
        this.metricsToken = metricsToken;
        this.health = health;
        this.sessions = new Sessions(clock);
        this.throttle = new Throttle(clock);
    }

    void addTo(RoutesConfig routes) {
        routes.before(this::check);
        routes.get(LOGIN, context -> ask(context, Word.WELCOME));
        routes.post(LOGIN, this::login);
        routes.post("/logout", this::logout);
    }

    private void check(Context context) {
        if (isOpenToAll(context.path()) || sessions.knows(context.cookie(COOKIE)) || metricsToken.opens(context)) {
            return;
        }
        if (context.path().equals("/health")) {
            // Whoever watches the watcher needs no password for it; why it is unwell is for those who have one.
            boolean isWell = health.get().isWell();
            context.status(isWell ? 200 : 503).contentType("application/json").result("{\"well\":" + isWell + "}");
        } else if (context.path().startsWith("/api/") || context.path().equals("/metrics")) {
            context.status(401).contentType("application/json").result("{\"error\":\"log in first\"}");
        } else {
            context.redirect(LOGIN, HttpStatus.SEE_OTHER);
        }
        context.skipRemainingHandlers();
    }

    /** The login itself and the page's own files, which hold nothing of the grower's. */
    private static boolean isOpenToAll(String path) {
        return path.equals(LOGIN) || (path.startsWith("/web/") && !path.contains(".."));
    }

    private void login(Context context) {
        String asker = context.ip();
        Duration wait = throttle.wait(asker);
        if (!wait.isZero()) {
            context.header("Retry-After", Long.toString(wait.toSeconds() + 1));
            ask(context.status(429), Word.WAIT);
            return;
        }
        String given = context.formParam("password");
        if (given == null || !password.matches(given)) {
            throttle.failed(asker);
            ask(context.status(401), Word.WRONG);
            return;
        }
        throttle.succeeded(asker);
        context.cookie(new Cookie(
                COOKIE, sessions.open(), "/", (int) Sessions.LASTING.toSeconds(), false, true, null, SameSite.STRICT));
        context.redirect("/", HttpStatus.SEE_OTHER);
    }

    private void logout(Context context) {
        sessions.end(context.cookie(COOKIE));
        context.removeCookie(COOKIE, "/");
        context.redirect(LOGIN, HttpStatus.SEE_OTHER);
    }

    private static void ask(Context context, Word word) {
        String page = WebFiles.text("login.html")
                .replace("${tone}", word.isRefusal ? "class=\"wrong\" role=\"alert\"" : "")
                .replace("${words}", word.text);
        context.html(page);
    }

    /** What the login says. */
    private enum Word {
        WELCOME(false, "This page can be reached over the network, so it asks who you are."),
        WRONG(true, "That is not the password."),
        WAIT(true, "Too many wrong tries. Wait a while, then try again.");

        private final boolean isRefusal;
        private final String text;

        Word(boolean isRefusal, String text) {
            this.isRefusal = isRefusal;
            this.text = text;
        }
    }
}
