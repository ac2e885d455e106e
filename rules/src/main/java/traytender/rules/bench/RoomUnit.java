package traytender.rules.bench;

import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import traytender.config.alert.AlertKind;
import traytender.config.crop.Limits;
import traytender.config.journal.SowingNow;
import traytender.config.journal.TrayNow;
import traytender.config.reading.Reading;
import traytender.config.site.LampHours;
import traytender.config.site.Probe;
import traytender.config.site.Quantity;
import traytender.config.site.Room;
import traytender.config.site.RoomKind;
import traytender.config.site.Tray;
import traytender.config.site.Zone;
import traytender.rules.book.AlertBook;
import traytender.rules.judge.Judge;
import traytender.rules.judge.RoomFacts;
import traytender.rules.view.ProbeView;
import traytender.rules.view.RoomView;
import traytender.rules.words.Words;

/** One room with the probes in its air and the sowings that stand in it. <b>Not thread-safe.</b> */
public final class RoomUnit implements Unit {
    /** How far a temperature must come back past its line to close; our choice. */
    private static final double MARGIN_C = 0.5;

    private final Room room;
    private final Map<String, Integer> slots;
    private final List<ProbeTrack> batteries;
    private final RoomAir air;
    private final AlertBook book;
    private final FrostAhead frost;
    private final RoomFacts facts = new RoomFacts();
    private Bench bench;
    private long listenedMinutes;
    private int arrangedAt = -1;
    private double minutesDamp;
    private double minutesDark;
    private boolean heardAir;

    /** A room of which nothing has been heard. */
    public RoomUnit(Bench bench, Room room) {
        this.bench = bench;
        this.room = room;
        air = new RoomAir(bench, room.id());
        slots = new LinkedHashMap<>();
        List<Probe> probes = air.probes();
        for (int i = 0; i < probes.size(); i++) {
            slots.put(probes.get(i).id(), i);
        }
        batteries = new ArrayList<>();
        for (Probe probe : bench.probesOfRoom(room.id(), Quantity.BATTERY)) {
            slots.put(probe.id(), -1 - batteries.size());
            batteries.add(new ProbeTrack(probe));
        }
        book = new AlertBook(room.id(), true);
        frost = new FrostAhead();
    }

    private RoomUnit(RoomUnit other) {
        bench = other.bench;
        room = other.room;
        slots = other.slots;
        batteries =
                new ArrayList<>(other.batteries.stream().map(ProbeTrack::copy).toList());
        air = other.air.copy();
        book = other.book.copy();
        frost = other.frost.copy();
        listenedMinutes = other.listenedMinutes;
        minutesDamp = other.minutesDamp;
        minutesDark = other.minutesDark;
        heardAir = other.heardAir;
    }

    @Override
    public String place() {
        return room.id();
    }

    @Override
    public Set<String> probes() {
        return slots.keySet();
    }

    @Override
    public AlertBook book() {
        return book;
    }

    @Override
    public Unit copy() {
        return new RoomUnit(this);
    }

    @Override
    public void setBench(Bench bench) {
        this.bench = bench;
        arrangedAt = -1;
    }

    @Override
    public void take(Reading reading) {
        Integer slot = slots.get(reading.probe());
        if (slot == null) {
            return;
        }
        ProbeTrack track = slot >= 0 ? air.tracks().get(slot) : batteries.get(-1 - slot);
        if (reading.timeMs() <= track.lastMs()) {
            return;
        }
        if (slot < 0) {
            track.take(reading, listenedMinutes);
            return;
        }
        air.take(slot, reading, listenedMinutes);
        if (track.probe().measures() == Quantity.AIR_TEMPERATURE) {
            heardAir = true;
        }
    }

    @Override
    public void look(long minuteMs, Judge judge) {
        listenedMinutes++;
        arrange(minuteMs - 1);
        judge.begin();
        fill(minuteMs);
        judge.ask(facts);
        for (ProbeTrack track : air.tracks()) {
            ProbeWatch.ask(track, Zone.TRAY, false, listenedMinutes, judge);
        }
        for (ProbeTrack track : batteries) {
            ProbeWatch.ask(track, Zone.TRAY, false, listenedMinutes, judge);
        }
        book.judge(minuteMs, judge.findings().list(), this::isUntold, new Words(bench.site(), judge.findings()));
    }

    private boolean isUntold(AlertKind kind, @Nullable Zone zone) {
        boolean aboutAir = switch (kind) {
            case NIGHT_COLD, AIR_HOT, FROST_RISK -> Double.isNaN(facts.air);
            case DAMP_AIR -> Double.isNaN(facts.humidity);
            default -> false;
        };
        return aboutAir && heardAir && air.tracks().stream().noneMatch(track -> track.isSilent(listenedMinutes));
    }

    private void arrange(long timeMs) {
        int changes = bench.changesBy(timeMs);
        if (changes == arrangedAt) {
            return;
        }
        arrangedAt = changes;
        facts.room = room.id();
        facts.outdoors = room.kind() == RoomKind.OUTDOORS;
        facts.airProbes = air.ids(Quantity.AIR_TEMPERATURE);
        facts.humidityProbes = air.ids(Quantity.HUMIDITY);
        facts.lightProbes = air.ids(Quantity.LIGHT);
        facts.planted = false;
        facts.covered = true;
        facts.sowing = null;
        facts.lastingMinutes = 0;
        facts.nightCold = Double.NEGATIVE_INFINITY;
        facts.airHot = Double.POSITIVE_INFINITY;
        facts.frost = Double.NEGATIVE_INFINITY;
        facts.dampHumidity = Double.POSITIVE_INFINITY;
        facts.dampHours = Double.POSITIVE_INFINITY;
        var trays = new ArrayList<String>();
        Instant time = Instant.ofEpochMilli(timeMs);
        for (Tray tray : bench.site().trays()) {
            TrayNow now = bench.growing().find(tray.id(), time).orElse(null);
            if (now != null && now.room().equals(room.id()) && now.isWatched()) {
                trays.add(tray.id());
                facts.covered &= now.covered();
                now.sowings().stream().filter(SowingNow::isWatched).forEach(sowing -> add(sowing, now.covered()));
            }
        }
        facts.planted = !trays.isEmpty();
        facts.trays = trays;
    }

    private void add(SowingNow sowing, boolean covered) {
        Limits limits = sowing.limits();
        facts.lastingMinutes = Math.max(facts.lastingMinutes, limits.lastingMinutes());
        if (limits.airNightCold() > facts.nightCold) {
            facts.nightCold = limits.airNightCold();
            facts.sowing = sowing.sowing().variety();
        }
        facts.airHot = Math.min(facts.airHot, limits.airHot());
        facts.frost = Math.max(facts.frost, limits.frost());
        if (!covered) {
            facts.dampHumidity = Math.min(facts.dampHumidity, limits.dampAirHumidity());
            facts.dampHours = Math.min(facts.dampHours, limits.dampAirHours());
        }
    }

    private void fill(long minuteMs) {
        facts.air = air.mean(Quantity.AIR_TEMPERATURE, listenedMinutes);
        facts.humidity = air.mean(Quantity.HUMIDITY, listenedMinutes);
        facts.night = bench.sun().isNight(minuteMs);
        facts.nightColdBelow = facts.nightCold + (book.isOpen(AlertKind.NIGHT_COLD, null, null) ? MARGIN_C : 0);
        facts.airHotFrom = facts.airHot - (book.isOpen(AlertKind.AIR_HOT, null, null) ? MARGIN_C : 0);
        minutesDamp = damp();
        facts.hoursDamp = minutesDamp / 60;
        minutesDark = dark(minuteMs);
        facts.minutesDark = minutesDark;
        if (facts.outdoors) {
            boolean told = book.isOpen(AlertKind.FROST_RISK, null, null);
            frost.fill(facts, air.dewPointC(listenedMinutes), minuteMs, bench.sun(), told);
        }
    }

    /** Humidity a little below the limit does not end the stretch: a probe's own error is larger. */
    private double damp() {
        if (Double.isNaN(facts.humidity)) {
            return minutesDamp;
        }
        double from = facts.dampHumidity - (minutesDamp > 0 ? 2 : 0);
        return facts.humidity >= from ? minutesDamp + 1 : 0;
    }

    private double dark(long minuteMs) {
        LampHours lamps = room.light();
        double lit = air.mean(Quantity.LIGHT, listenedMinutes);
        if (lamps == null || Double.isNaN(lit)) {
            return 0;
        }
        var local = Instant.ofEpochMilli(minuteMs - 1).atZone(bench.site().timezone());
        return lamps.contains(local.toLocalTime()) && lit < 0.5 ? minutesDark + 1 : 0;
    }

    /** Its air now, for the page. */
    public RoomView view() {
        return new RoomView(
                room.id(),
                air.mean(Quantity.AIR_TEMPERATURE, listenedMinutes),
                air.mean(Quantity.HUMIDITY, listenedMinutes),
                air.mean(Quantity.LIGHT, listenedMinutes),
                air.deficitKpa(listenedMinutes),
                facts.outdoors ? frost.view(facts) : null);
    }

    /** How its own probes are, by id. */
    public void probes(Map<String, ProbeView> into) {
        air.tracks().forEach(track -> into.put(track.probe().id(), track.view(listenedMinutes)));
        batteries.forEach(track -> into.put(track.probe().id(), track.view(listenedMinutes)));
    }
}
