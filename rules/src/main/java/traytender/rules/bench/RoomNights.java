package traytender.rules.bench;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.function.Function;
import traytender.config.reading.Reading;
import traytender.config.site.Probe;
import traytender.config.site.Quantity;
import traytender.config.site.Room;
import traytender.config.site.RoomKind;
import traytender.config.site.Site;
import traytender.rules.night.NightAhead;
import traytender.rules.night.NightForecast;
import traytender.rules.night.NightReport;
import traytender.rules.night.NightSpan;

/** What was foretold of past nights, worked out again from stored readings just as it was while they came. */
public final class RoomNights {
    /** How many nights before one are read, so that the forecast has learnt from them; our choice, for speed. */
    public static final int LEARNT_FROM = 14;

    private static final long MINUTE_MS = 60_000;

    private RoomNights() {}

    /** From when on readings are needed to tell of the night that begins on a date. */
    public static Instant neededFrom(Site site, LocalDate date) {
        return NightSpan.of(site, date.minusDays(LEARNT_FROM)).sunriseBefore();
    }

    /**
     * The forecasts for the night that begins on a date, for each outdoor room with a probe in its air.
     *
     * @param readings an air probe's readings from {@link #neededFrom} to {@code to}, in order
     * @param to as far as readings have come
     */
    public static List<NightReport.RoomNight> of(
            Bench bench, LocalDate date, Instant to, Function<Probe, List<Reading>> readings) {
        var span = NightSpan.of(bench.site(), date);
        var nights = new ArrayList<NightReport.RoomNight>();
        for (Room room : bench.site().rooms()) {
            if (room.kind() == RoomKind.OUTDOORS) {
                NightForecast forecast = forecast(bench, room.id(), span, to, readings);
                if (forecast != null) {
                    nights.add(new NightReport.RoomNight(room.id(), forecast));
                }
            }
        }
        return nights;
    }

    private static @org.jspecify.annotations.Nullable NightForecast forecast(
            Bench bench, String room, NightSpan span, Instant to, Function<Probe, List<Reading>> readings) {
        var air = new RoomAir(bench, room);
        List<Slot> slots = slots(air, readings);
        if (slots.isEmpty()) {
            return null;
        }
        slots.sort(Comparator.comparingLong((Slot slot) -> slot.reading.timeMs()));
        var night = new NightAhead();
        long end = Math.min(to.toEpochMilli(), span.sunrise().toEpochMilli() + 2 * MINUTE_MS);
        long minuteMs = slots.get(0).reading.timeMs() / MINUTE_MS * MINUTE_MS + MINUTE_MS;
        int next = 0;
        for (long listened = 1; minuteMs <= end; minuteMs += MINUTE_MS, listened++) {
            while (next < slots.size() && slots.get(next).reading.timeMs() < minuteMs) {
                Slot slot = slots.get(next++);
                air.take(slot.index, slot.reading, listened - 1);
            }
            double celsius = air.mean(Quantity.AIR_TEMPERATURE, listened);
            double dew = air.dewPointC(listened);
            night.minute(
                    minuteMs,
                    celsius,
                    dew,
                    bench.sun().sunsetMs(minuteMs),
                    bench.sun().sunriseMs(minuteMs));
        }
        return ofNight(night, span);
    }

    private record Slot(int index, Reading reading) {}

    private static List<Slot> slots(RoomAir air, Function<Probe, List<Reading>> readings) {
        var slots = new ArrayList<Slot>();
        List<Probe> probes = air.probes();
        for (int i = 0; i < probes.size(); i++) {
            int index = i;
            if (probes.get(i).measures() != Quantity.LIGHT) {
                readings.apply(probes.get(i)).forEach(reading -> slots.add(new Slot(index, reading)));
            }
        }
        return slots;
    }

    private static @org.jspecify.annotations.Nullable NightForecast ofNight(NightAhead night, NightSpan span) {
        NightForecast present = night.present();
        if (present != null && isOf(present, span)) {
            return present;
        }
        return night.passed().stream()
                .filter(passed -> isOf(passed, span))
                .findFirst()
                .orElse(null);
    }

    private static boolean isOf(NightForecast forecast, NightSpan span) {
        var apart = Duration.between(Instant.ofEpochMilli(forecast.sunsetMs()), span.sunset());
        return apart.abs().toHours() < 6;
    }
}
