package traytender.dashboard.setup;

import com.google.gson.JsonArray;
import com.google.gson.JsonObject;
import com.microsoft.playwright.CDPSession;
import com.microsoft.playwright.Page;

/** A finger on a phone's screen, as the browser itself hears of one (Touch events over the browser's own protocol). */
final class Finger {
    private static final int STEPS = 12;

    private final CDPSession session;
    private double x;
    private double y;

    Finger(Page page) {
        session = page.context().newCDPSession(page);
    }

    /** Puts it down on a point of the window, px. */
    void down(double atX, double atY) {
        x = atX;
        y = atY;
        send("touchStart");
    }

    /** Moves it there over a few points in between, as a finger does. */
    void moveTo(double toX, double toY) {
        double fromX = x;
        double fromY = y;
        for (int step = 1; step <= STEPS; step++) {
            x = fromX + (toX - fromX) * step / STEPS;
            y = fromY + (toY - fromY) * step / STEPS;
            send("touchMove");
        }
    }

    /** Lifts it. */
    void up() {
        send("touchEnd");
    }

    private void send(String type) {
        var points = new JsonArray();
        if (!type.equals("touchEnd")) {
            var point = new JsonObject();
            point.addProperty("x", x);
            point.addProperty("y", y);
            points.add(point);
        }
        var event = new JsonObject();
        event.addProperty("type", type);
        event.add("touchPoints", points);
        session.send("Input.dispatchTouchEvent", event);
    }
}
