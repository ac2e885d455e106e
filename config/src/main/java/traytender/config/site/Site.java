package traytender.config.site;

import java.time.LocalTime;
import java.time.MonthDay;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * The whole site as its {@code site.yaml} describes it. Immutable; ids are unique and every reference resolves, since the
 * reader refuses anything else.
 *
 * @param location null when not given: then no sun, no frost forecast
 * @param show how people are shown numbers
 * @param lastFrost the usual day of the last frost; null when not given
 * @param morningRound when the grower first goes round, in the site's own time
 */
public record Site(
        String name,
        ZoneId timezone,
        @Nullable Location location,
        Show show,
        List<Room> rooms,
        List<Mat> mats,
        List<Tray> trays,
        List<Probe> probes,
        Messages messages,
        StoreSettings store,
        @Nullable MonthDay lastFrost,
        LocalTime morningRound) {
    public Site {
        rooms = List.copyOf(rooms);
        mats = List.copyOf(mats);
        trays = List.copyOf(trays);
        probes = List.copyOf(probes);
    }

    public Optional<Room> room(String id) {
        return rooms.stream().filter(room -> room.id().equals(id)).findFirst();
    }

    public Optional<Mat> mat(String id) {
        return mats.stream().filter(mat -> mat.id().equals(id)).findFirst();
    }

    public Optional<Tray> tray(String id) {
        return trays.stream().filter(tray -> tray.id().equals(id)).findFirst();
    }

    public Optional<Probe> probe(String id) {
        return probes.stream().filter(probe -> probe.id().equals(id)).findFirst();
    }
}
