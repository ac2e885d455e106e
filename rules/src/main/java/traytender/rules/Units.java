package traytender.rules;

import java.util.ArrayList;
import java.util.List;
import traytender.config.site.Room;
import traytender.config.site.Tray;
import traytender.rules.bench.Bench;
import traytender.rules.bench.RoomUnit;
import traytender.rules.bench.TrayUnit;
import traytender.rules.bench.Unit;

/** Makes the units of a site. */
final class Units {
    private Units() {}

    /** A unit for every tray and every room, trays first, in the order of the site file. */
    static List<Unit> of(Bench bench) {
        var units = new ArrayList<Unit>();
        for (Tray tray : bench.site().trays()) {
            units.add(new TrayUnit(bench, tray.id()));
        }
        for (Room room : bench.site().rooms()) {
            units.add(new RoomUnit(bench, room));
        }
        return units;
    }
}
