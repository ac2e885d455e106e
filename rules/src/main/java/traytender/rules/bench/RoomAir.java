package traytender.rules.bench;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import traytender.config.reading.Reading;
import traytender.config.site.Probe;
import traytender.config.site.Quantity;
import traytender.rules.air.MoistAir;

/** One room's air through its probes: the mean of those that are well. <b>Not thread-safe.</b> */
final class RoomAir {
    private final String room;
    private final List<Spot> spots;

    /** One probe in the air. */
    private static final class Spot {
        private final ProbeTrack track;
        private final Median median;

        Spot(ProbeTrack track, Median median) {
            this.track = track;
            this.median = median;
        }
    }

    RoomAir(Bench bench, String room) {
        this(room, new ArrayList<>());
        for (Quantity quantity : List.of(Quantity.AIR_TEMPERATURE, Quantity.HUMIDITY, Quantity.LIGHT)) {
            for (Probe probe : bench.probesOfRoom(room, quantity)) {
                spots.add(new Spot(new ProbeTrack(probe), new Median(3)));
            }
        }
    }

    private RoomAir(String room, List<Spot> spots) {
        this.room = room;
        this.spots = spots;
    }

    RoomAir copy() {
        var copied = new ArrayList<Spot>();
        for (Spot spot : spots) {
            copied.add(new Spot(spot.track.copy(), spot.median.copy()));
        }
        return new RoomAir(room, copied);
    }

    String room() {
        return room;
    }

    List<Probe> probes() {
        return spots.stream().map(spot -> spot.track.probe()).toList();
    }

    List<ProbeTrack> tracks() {
        return spots.stream().map(spot -> spot.track).toList();
    }

    /** Takes a reading of one of its probes. */
    void take(int index, Reading reading, long listenedMinutes) {
        Spot spot = spots.get(index);
        spot.track.take(reading, listenedMinutes);
        if (!spot.track.isOutOfRange()) {
            spot.median.add(spot.track.value());
        }
    }

    /** The mean over the well and fresh probes of a quantity; NaN without one. */
    double mean(Quantity quantity, long listenedMinutes) {
        double sum = 0;
        int count = 0;
        for (int i = 0; i < spots.size(); i++) {
            Spot spot = spots.get(i);
            if (spot.track.probe().measures() == quantity && isWell(spot.track, listenedMinutes)) {
                sum += quantity == Quantity.LIGHT ? lit(spot) : spot.median.get();
                count++;
            }
        }
        return count == 0 ? Double.NaN : sum / count;
    }

    /** What the room's air could still take up, kPa; NaN without a well probe of temperature and one of humidity. */
    double deficitKpa(long listenedMinutes) {
        return MoistAir.deficitKpa(
                mean(Quantity.AIR_TEMPERATURE, listenedMinutes), mean(Quantity.HUMIDITY, listenedMinutes));
    }

    /** Dew point of the room's air, C; NaN as above. */
    double dewPointC(long listenedMinutes) {
        return MoistAir.dewPoint(
                mean(Quantity.AIR_TEMPERATURE, listenedMinutes), mean(Quantity.HUMIDITY, listenedMinutes));
    }

    /** Light as a share: a word is 1 or 0, lux count as lit from 200 on (our choice: a lit bench has thousands). */
    private static double lit(Spot spot) {
        double value = spot.median.get();
        return value <= 1 ? value : Math.min(1, value / 200);
    }

    private static boolean isWell(ProbeTrack track, long listenedMinutes) {
        return track.isFresh(listenedMinutes) && !track.isOutOfRange() && !track.isStuck() && !track.isJumping();
    }

    /** Ids of the probes of a quantity. */
    List<String> ids(Quantity quantity) {
        return spots.stream()
                .map(spot -> spot.track.probe())
                .filter(probe -> probe.measures() == quantity)
                .map(Probe::id)
                .toList();
    }

    @Nullable
    ProbeTrack track(String probe) {
        return spots.stream()
                .map(spot -> spot.track)
                .filter(track -> track.probe().id().equals(probe))
                .findFirst()
                .orElse(null);
    }
}
