package traytender.ingest.nursery.truth;

import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import java.util.function.ToDoubleFunction;
import org.shredzone.commons.suncalc.SunTimes;
import traytender.config.alert.AlertKind;
import traytender.config.crop.Limits;
import traytender.config.site.LampHours;
import traytender.config.site.Location;
import traytender.config.site.Quantity;
import traytender.config.site.Room;
import traytender.config.site.RoomKind;
import traytender.config.site.Site;
import traytender.config.site.Tray;
import traytender.ingest.nursery.probe.SimulatedProbe;
import traytender.ingest.nursery.truth.Trace.Course;
import traytender.ingest.nursery.truth.Truth.Where;

/** {@code night-cold}, {@code air-hot}, {@code frost-risk}, {@code damp-air} and {@code light-out} of a room, by its most demanding tray. */
final class RoomTruth {
    private static final double MARGIN = 0.3;

    private final Case found;
    private final Room room;
    private final List<Limits> limits;
    private final Where where;
    private final int hold;

    private RoomTruth(Case found, Room room, List<Tray> trays) {
        this.found = found;
        this.room = room;
        limits = trays.stream().map(found::limits).toList();
        hold = (int) most(Limits::lastingMinutes);
        var places = new ArrayList<String>();
        places.add("room:" + room.id());
        trays.forEach(tray -> places.add("tray:" + tray.id()));
        where = new Where(places, List.of());
    }

    static void judge(Case found, Room room) {
        List<Tray> trays = found.folder().site().trays().stream()
                .filter(tray -> tray.room().equals(room.id()))
                .toList();
        if (trays.isEmpty()) {
            return;
        }
        var truth = new RoomTruth(found, room, trays);
        found.trace()
                .inRoom(room.id(), Quantity.AIR_TEMPERATURE)
                .map(found.trace()::course)
                .ifPresent(truth::air);
        found.trace()
                .inRoom(room.id(), Quantity.HUMIDITY)
                .map(found.trace()::course)
                .ifPresent(truth::damp);
        Optional<SimulatedProbe> light = found.trace().inRoom(room.id(), Quantity.LIGHT);
        light.map(found.trace()::course).ifPresent(truth::dark);
    }

    private void air(Course air) {
        double cold = most(Limits::airNightCold);
        found.lasting(
                AlertKind.NIGHT_COLD,
                where,
                List.of(),
                minute -> air.low(minute) < cold + MARGIN && isNight(minute, 10),
                minute -> air.high(minute) < cold - MARGIN && isNight(minute, -10),
                hold,
                0,
                true);
        double hot = -most(limit -> -limit.airHot());
        found.lasting(
                AlertKind.AIR_HOT,
                where,
                List.of(),
                minute -> air.high(minute) > hot - MARGIN,
                minute -> air.low(minute) > hot + MARGIN,
                hold,
                0,
                true);
        if (room.kind() == RoomKind.OUTDOORS) {
            frost(air);
        }
    }

    /** Nights that go 2 K or more under the frost limit are required; any that comes near is grey. */
    private void frost(Course air) {
        double limit = most(Limits::frost);
        LocalDate first = local(0).minusDays(1);
        for (LocalDate day = first; !day.isAfter(local(found.trace().minutes())); day = day.plusDays(1)) {
            int set = clamp(sun(day, true));
            int rise = clamp(sun(day.plusDays(1), false));
            if (rise - set < 60) {
                continue;
            }
            double lowest = lowest(air, set, rise);
            double early = air.low(Math.min(set + 120, rise - 1));
            if (lowest < limit + 4 || early < limit + 13) {
                found.may(
                        List.of(AlertKind.FROST_RISK),
                        where,
                        set - 600,
                        rise,
                        List.of(),
                        String.format(Locale.ROOT, "night minimum %.1f, %.1f two hours after sunset", lowest, early));
            }
            if (lowest < limit - 2 && rise - set > 360) {
                found.must(
                        List.of(AlertKind.FROST_RISK),
                        where,
                        new Stretch(set, rise),
                        set - 600,
                        set + nearFrost(air, set, limit),
                        List.of(),
                        true);
            }
        }
    }

    /** Minutes after sunset by which it must be known: four hours, or when it nears frost, not before two and three quarters. */
    private static int nearFrost(Course air, int set, double limit) {
        for (int minute = 165; minute < 240; minute++) {
            if (air.low(set + minute) < limit + 1) {
                return minute;
            }
        }
        return 240;
    }

    private static double lowest(Course air, int from, int to) {
        double lowest = Double.POSITIVE_INFINITY;
        for (int minute = from; minute < to; minute++) {
            lowest = Math.min(lowest, air.low(minute));
        }
        return lowest;
    }

    /** Required two hours after it has plainly lasted; grey from an hour and a half above 80 percent on. */
    private void damp(Course humidity) {
        double limit = -most(each -> -each.dampAirHumidity());
        int hours = (int) (60 * -most(each -> -each.dampAirHours()));
        for (Stretch humid : Stretch.where(0, found.trace().minutes(), minute -> humidity.high(minute) > 80)) {
            if (humid.minutes() > 90) {
                found.may(List.of(AlertKind.DAMP_AIR), where, humid.from() + 90, humid.to() + 60, List.of(), "humid");
            }
            Stretch.where(humid.from(), humid.to(), minute -> humidity.low(minute) > limit + 2).stream()
                    .filter(plain -> plain.minutes() > hours + 120)
                    .findFirst()
                    .ifPresent(plain -> found.must(
                            List.of(AlertKind.DAMP_AIR),
                            where,
                            plain,
                            humid.from() + 90,
                            plain.from() + hours + 120,
                            List.of(),
                            true));
        }
    }

    private void dark(Course light) {
        LampHours lamps = room.light();
        if (lamps == null) {
            return;
        }
        found.lasting(
                AlertKind.LIGHT_OUT,
                where,
                List.of(),
                minute -> light.truth()[minute] < 0.5 && lamps.contains(clock(minute)),
                minute -> light.truth()[minute] < 0.5 && lamps.contains(clock(minute)),
                hold,
                0,
                true);
    }

    private boolean isNight(int minute, int wider) {
        LocalDate day = local(minute);
        return (minute >= sun(day, true) - wider) || (minute < sun(day, false) + wider);
    }

    private double most(ToDoubleFunction<Limits> limit) {
        return limits.stream().mapToDouble(limit).max().orElse(0);
    }

    private java.time.LocalTime clock(int minute) {
        return found.trace()
                .time(minute)
                .atZone(found.folder().site().timezone())
                .toLocalTime();
    }

    private LocalDate local(int minute) {
        return found.trace()
                .time(minute)
                .atZone(found.folder().site().timezone())
                .toLocalDate();
    }

    private int clamp(int minute) {
        return Math.max(0, Math.min(found.trace().minutes() - 1, minute));
    }

    private int sun(LocalDate day, boolean set) {
        Site site = found.folder().site();
        Location at = Objects.requireNonNull(site.location());
        var midnight = day.atStartOfDay(site.timezone());
        SunTimes times = SunTimes.compute()
                .at(at.latitude(), at.longitude())
                .on(midnight)
                .execute();
        var sun = set ? times.getSet() : times.getRise();
        Instant time = Objects.requireNonNullElse(sun, midnight.plusHours(set ? 18 : 6))
                .toInstant();
        return found.trace().minuteOf(time);
    }
}
