package traytender.dashboard.page;

import io.javalin.http.Context;
import io.javalin.http.HandlerType;
import java.net.URI;
import java.util.Locale;
import java.util.Set;

/**
 * Lets only the page itself, or a script of the grower's own, change anything. A web site elsewhere that makes the grower's
 * browser ask (cross-site request forgery) is told apart by what browsers say of themselves, and by a content type that they do
 * not send elsewhere without asking first.
 */
final class OriginGuard {
    private static final Set<HandlerType> ASKING = Set.of(HandlerType.GET, HandlerType.HEAD, HandlerType.OPTIONS);

    private OriginGuard() {}

    static void check(Context context) {
        if (ASKING.contains(context.method())) {
            return;
        }
        String site = context.header("Sec-Fetch-Site");
        String origin = context.header("Origin");
        boolean isOwn = (site == null || site.equals("same-origin") || site.equals("none"))
                && (origin == null || isOfHost(origin, context.header("Host")));
        if (!isOwn) {
            throw Answer.refused(403, "only this page itself may change anything here");
        }
        if (context.path().startsWith("/api/") && !context.method().equals(HandlerType.DELETE) && !isJson(context)) {
            throw Answer.refused(415, "right is Content-Type: application/json");
        }
    }

    private static boolean isJson(Context context) {
        String type = context.contentType();
        return type != null
                && type.split(";", 2)[0].strip().toLowerCase(Locale.ROOT).equals("application/json");
    }

    private static boolean isOfHost(String origin, String host) {
        try {
            String authority = URI.create(origin).getAuthority();
            return authority != null && authority.equalsIgnoreCase(host);
        } catch (IllegalArgumentException e) {
            return false;
        }
    }
}
