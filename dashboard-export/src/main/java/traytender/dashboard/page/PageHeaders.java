package traytender.dashboard.page;

import io.javalin.http.Context;

/** What every answer tells the browser to allow: nothing from elsewhere, nothing inline, in nobody's frame. */
final class PageHeaders {
    private static final String POLICY = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; "
            + "connect-src 'self'; manifest-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

    private PageHeaders() {}

    static void set(Context context) {
        context.header("Content-Security-Policy", POLICY);
        context.header("X-Content-Type-Options", "nosniff");
        context.header("Referrer-Policy", "no-referrer");
        context.header("Cross-Origin-Resource-Policy", "same-origin");
        context.header("Cross-Origin-Opener-Policy", "same-origin");
        // Checked again each time, so that a newer program is never met by an older page's scripts.
        context.header("Cache-Control", "no-cache");
    }
}
