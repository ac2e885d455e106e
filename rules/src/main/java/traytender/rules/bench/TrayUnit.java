package traytender.rules.bench;

import java.time.Duration;
import java.time.Instant;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import traytender.config.alert.AlertKind;
import traytender.config.journal.TrayNow;
import traytender.config.reading.Reading;
import traytender.config.site.Quantity;
import traytender.config.site.Zone;
import traytender.rules.book.AlertBook;
import traytender.rules.drying.AirPull;
import traytender.rules.drying.FullReading;
import traytender.rules.drying.LightPlan;
import traytender.rules.drying.WateringDetector.Step;
import traytender.rules.judge.Judge;
import traytender.rules.view.MatView;
import traytender.rules.view.ProbeView;
import traytender.rules.view.TrayView;
import traytender.rules.words.Words;

/** One tray with its probes, its mat's probes and the air of every room it ever stands in. <b>Not thread-safe.</b> */
public final class TrayUnit implements Unit {
    /** Cold water poured on a plug cools it for about so long; our choice. */
    private static final Duration COLD_WATER = Duration.ofMinutes(75);

    private final String tray;
    private final TrayProbes probes;
    private final AlertBook book;
    private final Watering watering;
    private final TrayHeat heat;
    private final TrayCalendar calendar;
    private final TrayEmergence emergence;
    private final TrayAir pull;
    private final ProbeWatch probeWatch = new ProbeWatch();
    private final EnumSet<Zone> staleZones = EnumSet.noneOf(Zone.class);
    private boolean staleRoots;
    private Bench bench;
    private long listenedMinutes;
    private int arrangedAt = -1;
    private @Nullable TrayNow now;
    private List<String> neighbours = List.of();
    private boolean firstOnMat;
    private double airC = Double.NaN;
    private double deficitKpa = Double.NaN;

    /** A tray of which nothing has been heard. */
    public TrayUnit(Bench bench, String tray) {
        this.bench = bench;
        this.tray = tray;
        probes = new TrayProbes(bench, tray);
        book = new AlertBook(tray, false);
        watering = new Watering();
        heat = new TrayHeat();
        calendar = new TrayCalendar();
        emergence = new TrayEmergence();
        pull = new TrayAir(probes.roots().size());
    }

    private TrayUnit(TrayUnit other) {
        bench = other.bench;
        tray = other.tray;
        probes = other.probes.copy();
        book = other.book.copy();
        watering = other.watering.copy();
        heat = other.heat.copy();
        calendar = other.calendar.copy();
        emergence = other.emergence.copy();
        pull = other.pull.copy();
        listenedMinutes = other.listenedMinutes;
        arrangedAt = other.arrangedAt;
        now = other.now;
        neighbours = other.neighbours;
        firstOnMat = other.firstOnMat;
        airC = other.airC;
        deficitKpa = other.deficitKpa;
    }

    @Override
    public String place() {
        return tray;
    }

    @Override
    public Set<String> probes() {
        return probes.ids();
    }

    @Override
    public AlertBook book() {
        return book;
    }

    @Override
    public Unit copy() {
        return new TrayUnit(this);
    }

    @Override
    public void setBench(Bench bench) {
        this.bench = bench;
        arrangedAt = -1;
    }

    @Override
    public void take(Reading reading) {
        arrange(reading.timeMs());
        MoistureSpot spot = probes.moistureOf(reading.probe());
        if (spot == null) {
            probes.take(reading, listenedMinutes);
        } else if (spot.placed && TrayProbes.isNewer(spot.track(), reading)) {
            takeMoisture(spot, reading);
        }
    }

    private void takeMoisture(MoistureSpot spot, Reading reading) {
        double temperature = spot.root >= 0 ? roots().get(spot.root).value() : Double.NaN;
        LightPlan light = now == null ? LightPlan.ALWAYS : bench.light(now.room());
        Step step = spot.take(reading, listenedMinutes, temperature, light, pull.at(spot.root));
        if (step == Step.RISING) {
            watering.seen(spot, moisture());
        }
    }

    /** Finds out anew who stands where when something has changed. */
    private void arrange(long timeMs) {
        int changes = bench.changesBy(timeMs);
        if (changes == arrangedAt) {
            return;
        }
        arrangedAt = changes;
        Instant time = Instant.ofEpochMilli(timeMs);
        now = bench.growing().find(tray, time).orElse(null);
        neighbours = now == null ? List.of() : bench.neighbours(now, time);
        firstOnMat = now != null && bench.isFirstOnMat(now, time);
        probes.arrange(bench, now, time);
    }

    @Override
    public void look(long minuteMs, Judge judge) {
        listenedMinutes++;
        arrange(minuteMs - 1);
        judge.begin();
        TrayNow here = now;
        if (here != null) {
            ask(minuteMs, here, judge);
        }
        noteStale();
        book.judge(minuteMs, judge.findings().list(), this::isUntold, new Words(bench.site(), judge.findings()));
    }

    private void ask(long minuteMs, TrayNow here, Judge judge) {
        RoomAir air = probes.air(here.room());
        airC = air == null ? Double.NaN : air.mean(Quantity.AIR_TEMPERATURE, listenedMinutes);
        deficitKpa = air == null ? Double.NaN : air.deficitKpa(listenedMinutes);
        double humidity = air == null ? Double.NaN : air.mean(Quantity.HUMIDITY, listenedMinutes);
        pull.note(minuteMs, airC, humidity, roots(), listenedMinutes);
        watering.look(minuteMs, bench, tray, moisture());
        for (RootSpot root : roots()) {
            root.watch(minuteMs, airC, watering.isRecent(minuteMs, COLD_WATER), heat.model());
        }
        for (MoistureSpot spot : moisture()) {
            if (watering.wasDisturbed(minuteMs)) {
                spot.explainFall();
            }
            spot.watchTrouble(minuteMs, listenedMinutes);
        }
        if (here.isWatched()) {
            askWater(minuteMs, here, judge);
            heat.ask(minuteMs, listenedMinutes, this, here, airC, judge);
            emergence.look(minuteMs, this, here);
            double dewPointC = air == null ? Double.NaN : air.dewPointC(listenedMinutes);
            calendar.ask(minuteMs, this, here, dewPointC, judge);
        }
        probeWatch.ask(listenedMinutes, this, here, judge);
    }

    private void askWater(long minuteMs, TrayNow here, Judge judge) {
        watering.compare(minuteMs, moisture(), listenedMinutes, book);
        for (MoistureSpot spot : moisture()) {
            if (spot.placed && spot.sowing != null && spot.sowing.isWatched()) {
                WaterFacts.fill(spot, minuteMs, listenedMinutes, this, here, watering);
                judge.ask(spot.facts);
            }
        }
    }

    /** Plants' alerts of a zone stay as they are while its probe is late but not yet said to be silent. */
    private boolean isUntold(AlertKind kind, @Nullable Zone zone) {
        if (kind.isAboutProbe()) {
            return false;
        }
        return switch (kind) {
            case DRY, DRYING_SOON, UNEVEN_DRYING, MISSED_WATERING, STAYING_WET -> staleZones.contains(zone);
            case CENTRE_OVERHEATING, UNEVEN_HEAT, ROOT_COLD, MAT_NOT_HEATING, MAT_NOT_STOPPING -> staleRoots;
            default -> false;
        };
    }

    private void noteStale() {
        staleZones.clear();
        for (MoistureSpot spot : moisture()) {
            if (spot.placed
                    && spot.track().last() != null
                    && !spot.track().isFresh(listenedMinutes)
                    && !spot.track().isSilent(listenedMinutes)) {
                staleZones.add(spot.zone);
            }
        }
        staleRoots = roots().stream()
                .anyMatch(root -> root.placed
                        && root.track().last() != null
                        && !root.track().isFresh(listenedMinutes)
                        && !root.track().isSilent(listenedMinutes));
    }

    /** What is known of it now, for the page. */
    public TrayView view(@Nullable Instant asOf) {
        return TrayViews.of(this, asOf);
    }

    /** How its own probes are, by id. */
    public void probes(Map<String, ProbeView> into) {
        probes.views(into, listenedMinutes);
    }

    /** What a mat under it is doing, as far as this tray can tell. */
    public MatView mat(String mat) {
        for (MatTrack track : mats()) {
            if (track.mat().equals(mat) && track.isKnown(listenedMinutes)) {
                MatView.State state = track.isHeating() ? MatView.State.HEATING : MatView.State.RESTING;
                boolean mine = now != null && mat.equals(now.mat());
                return new MatView(mat, state, false, mine ? heat.shown() : null);
            }
        }
        return heat.inferred(mat, now);
    }

    Bench bench() {
        return bench;
    }

    TrayEmergence emergence() {
        return emergence;
    }

    /** Air of the room it stands in at the last minute looked at, C; NaN when unknown. */
    double airC() {
        return airC;
    }

    /** What that air could still take up then, kPa (FAO-56 equation 11); NaN without temperature and humidity. */
    double deficitKpa() {
        return deficitKpa;
    }

    List<MoistureSpot> moisture() {
        return probes.moisture();
    }

    List<RootSpot> roots() {
        return probes.roots();
    }

    List<ProbeTrack> others() {
        return probes.others();
    }

    List<MatTrack> mats() {
        return probes.mats();
    }

    List<String> neighbours() {
        return neighbours;
    }

    /** How hard the air draws water at a place. */
    AirPull pull(MoistureSpot spot) {
        return pull.at(spot.root);
    }

    /** Standard deviation of the errors of probes like this tray's, at full. */
    double probeSpread() {
        return FullReading.spread(
                moisture().stream().map(spot -> spot.drying().full()).toList());
    }

    boolean isFirstOnMat() {
        return firstOnMat;
    }

    Watering watering() {
        return watering;
    }

    long listenedMinutes() {
        return listenedMinutes;
    }

    @Nullable
    TrayNow now() {
        return now;
    }
}
