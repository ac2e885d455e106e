package traytender.rules.night;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Objects;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import traytender.config.crop.Limits;
import traytender.config.journal.Growing;
import traytender.config.journal.SowingNow;
import traytender.config.journal.TrayNow;
import traytender.config.reading.Reading;
import traytender.config.site.Place;
import traytender.config.site.Probe;
import traytender.config.site.Quantity;
import traytender.config.site.Site;
import traytender.rules.trace.Trace;

/** Makes the report of a night from stored readings. */
public final class Nights {
    /** Base of the degree days of plants growing on; the usual base for warm-season crops (50 F). */
    public static final double BASE_C = 10;

    private Nights() {}

    /**
     * The report of the night that begins on a date.
     *
     * @param heardTo the newest reading of the site: a night that is not over is told as far as that, and what is still to
     *     come is no gap
     * @param readings a probe's readings, at least from {@link NightSpan#sunriseBefore} to {@link NightSpan#sunrise}, in any
     *     order
     */
    public static NightReport report(
            Site site, Growing growing, LocalDate date, Instant heardTo, Function<Probe, List<Reading>> readings) {
        NightSpan span = NightSpan.of(site, date);
        boolean complete = !heardTo.isBefore(span.sunrise());
        Instant end = complete ? span.sunrise() : heardTo;
        List<NightReport.ProbeNight> nights = site.probes().stream()
                .filter(probe -> isReported(probe.measures()))
                .map(probe -> night(site, growing, span, end, probe, readings.apply(probe)))
                .toList();
        return new NightReport(date, span.sunset(), span.sunrise(), span.bySun(), complete, nights, List.of());
    }

    private static boolean isReported(Quantity quantity) {
        return switch (quantity) {
            case MOISTURE, TEMPERATURE, MAT_SURFACE, AIR_TEMPERATURE, HUMIDITY -> true;
            case MAT_POWER, LIGHT, WEIGHT, BATTERY -> false;
        };
    }

    private static NightReport.ProbeNight night(
            Site site, Growing growing, NightSpan span, Instant end, Probe probe, List<Reading> readings) {
        Duration longest = Trace.longestPause(probe);
        var night = new Trace(readings, span.sunset(), end, longest);
        var day = new Trace(readings, span.sunriseBefore(), span.sunset(), longest);
        Place place = probe.at().at(span.sunset()).orElse(probe.at().last());
        String tray = trayOf(place);
        String room = roomOf(site, growing, place, span.sunset());
        List<Limits> limits = limits(site, growing, probe, room, span.sunset());
        Reading lowest = night.lowest();
        Reading highest = night.highest();
        double low = lowLimit(probe.measures(), limits);
        double high = highLimit(probe.measures(), limits);
        return new NightReport.ProbeNight(
                probe,
                tray,
                room,
                night.count(),
                night.mean(),
                lowest == null ? Double.NaN : lowest.value(),
                lowest == null ? null : lowest.time(),
                highest == null ? Double.NaN : highest.value(),
                highest == null ? null : highest.time(),
                Double.isNaN(low) ? null : night.beyond(low, false),
                Double.isNaN(high) ? null : night.beyond(high, true),
                night.gaps(),
                day.mean(),
                warmth(probe.measures(), readings, span, longest));
    }

    private static NightReport.@Nullable Warmth warmth(
            Quantity quantity, List<Reading> readings, NightSpan span, Duration longest) {
        if (quantity != Quantity.TEMPERATURE && quantity != Quantity.AIR_TEMPERATURE) {
            return null;
        }
        var both = new Trace(readings, span.sunriseBefore(), span.sunrise(), longest);
        Reading lowest = both.lowest();
        Reading highest = both.highest();
        if (lowest == null || highest == null) {
            return null;
        }
        return new NightReport.Warmth(
                BASE_C,
                DegreeDays.average(lowest.value(), highest.value(), BASE_C),
                DegreeDays.singleSine(lowest.value(), highest.value(), BASE_C));
    }

    private static @Nullable String trayOf(Place place) {
        if (place instanceof Place.InCell inCell) {
            return inCell.tray();
        }
        return place instanceof Place.AtTray atTray ? atTray.tray() : null;
    }

    private static @Nullable String roomOf(Site site, Growing growing, Place place, Instant time) {
        String tray = trayOf(place);
        if (tray != null) {
            return growing.find(tray, time).map(TrayNow::room).orElse(null);
        }
        if (place instanceof Place.InRoom inRoom) {
            return inRoom.room();
        }
        return place instanceof Place.AtMat atMat
                ? site.mat(atMat.mat()).map(mat -> mat.room()).orElse(null)
                : null;
    }

    private static List<Limits> limits(Site site, Growing growing, Probe probe, @Nullable String room, Instant time) {
        var own = growing.sowing(probe, time);
        if (own.isPresent()) {
            return List.of(own.get().limits());
        }
        return site.trays().stream()
                .flatMap(tray -> growing.find(tray.id(), time).stream())
                .filter(now -> Objects.equals(now.room(), room))
                .flatMap(now -> now.sowings().stream())
                .filter(SowingNow::isWatched)
                .map(SowingNow::limits)
                .toList();
    }

    private static double lowLimit(Quantity quantity, List<Limits> limits) {
        return switch (quantity) {
            case MOISTURE -> most(limits, Limits::dryLine);
            case TEMPERATURE -> most(limits, Limits::rootCold);
            case AIR_TEMPERATURE -> most(limits, Limits::airNightCold);
            default -> Double.NaN;
        };
    }

    private static double highLimit(Quantity quantity, List<Limits> limits) {
        return switch (quantity) {
            case MOISTURE -> least(limits, Limits::wetLine);
            case TEMPERATURE -> least(limits, Limits::rootHot);
            case AIR_TEMPERATURE -> least(limits, Limits::airHot);
            case HUMIDITY -> least(limits, Limits::dampAirHumidity);
            default -> Double.NaN;
        };
    }

    private static double most(List<Limits> limits, ToDoubleFunction<Limits> of) {
        return values(limits, of).boxed().reduce(Math::max).orElse(Double.NaN);
    }

    private static double least(List<Limits> limits, ToDoubleFunction<Limits> of) {
        return values(limits, of).boxed().reduce(Math::min).orElse(Double.NaN);
    }

    private static java.util.stream.DoubleStream values(List<Limits> limits, ToDoubleFunction<Limits> of) {
        return Stream.of(limits).flatMap(List::stream).mapToDouble(of);
    }
}
