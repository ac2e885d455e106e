package traytender.rules.bench;

import java.time.Instant;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import traytender.config.crop.Crops;
import traytender.config.folder.SiteFolder;
import traytender.config.journal.EntryKind;
import traytender.config.journal.Growing;
import traytender.config.journal.JournalEntry;
import traytender.config.journal.TrayNow;
import traytender.config.site.Dated;
import traytender.config.site.Place;
import traytender.config.site.Probe;
import traytender.config.site.Quantity;
import traytender.config.site.Room;
import traytender.config.site.RoomKind;
import traytender.config.site.Site;
import traytender.config.site.Tray;
import traytender.rules.drying.DailyLight;
import traytender.rules.drying.LightPlan;

/**
 * What every unit of a site shares: the site, its crops, who stands where, the journal of each tray, the sun. Replaced as a
 * whole when the journal grows. <b>Not thread-safe</b>, because sun and round remember their last answers.
 */
public final class Bench {
    private final Site site;
    private final Crops crops;
    private final Growing growing;
    private final SunTimes sun;
    private final MorningRound round;
    private final Map<String, List<JournalEntry>> journal = new HashMap<>();
    private static final Map<EntryKind, List<JournalEntry>> NOTHING = Map.of();
    private final Map<String, Map<EntryKind, List<JournalEntry>>> byKind = new HashMap<>();
    private final Map<String, LightPlan> light = new HashMap<>();
    private final long[] changesMs;

    /** The bench as site file and journal have it. */
    public Bench(SiteFolder folder, Crops crops, List<JournalEntry> entries, Instant firstReading) {
        this.site = folder.site();
        this.crops = crops;
        this.growing = Growing.of(site, crops, entries, firstReading);
        this.sun = new SunTimes(site.location(), site.timezone());
        this.round = new MorningRound(site.morningRound(), site.timezone());
        for (Room room : site.rooms()) {
            light.put(room.id(), DailyLight.of(room, site.timezone(), site.location()));
        }
        entries.stream()
                .sorted(java.util.Comparator.comparing(JournalEntry::time))
                .forEach(entry -> journal.computeIfAbsent(entry.tray(), tray -> new ArrayList<>())
                        .add(entry));
        journal.forEach((tray, own) -> byKind.put(
                tray,
                own.stream()
                        .collect(Collectors.groupingBy(
                                JournalEntry::kind, () -> new EnumMap<>(EntryKind.class), Collectors.toList()))));
        this.changesMs = Stream.concat(
                        site.trays().stream()
                                .flatMap(tray -> growing.changes(tray.id()).stream())
                                .map(now -> now.since()),
                        site.probes().stream()
                                .flatMap(probe -> probe.at().values().stream())
                                .map(Dated.From::since))
                .filter(since -> !since.equals(Instant.MIN))
                .mapToLong(Instant::toEpochMilli)
                .sorted()
                .distinct()
                .toArray();
    }

    public Site site() {
        return site;
    }

    public Crops crops() {
        return crops;
    }

    public Growing growing() {
        return growing;
    }

    public SunTimes sun() {
        return sun;
    }

    /** When the grower goes round next, this minute included. */
    long nextRoundMs(long timeMs) {
        return round.nextMs(timeMs);
    }

    /** A tray's entries from a time on, up to another, in order. */
    List<JournalEntry> journal(String tray, long fromMs, long toMs) {
        List<JournalEntry> all = journal.getOrDefault(tray, List.of());
        return all.subList(firstNotBefore(all, fromMs), firstNotBefore(all, toMs));
    }

    private static int firstNotBefore(List<JournalEntry> entries, long timeMs) {
        int low = 0;
        int high = entries.size();
        while (low < high) {
            int middle = (low + high) >>> 1;
            if (entries.get(middle).time().toEpochMilli() < timeMs) {
                low = middle + 1;
            } else {
                high = middle;
            }
        }
        return low;
    }

    /** A tray's newest entry of a kind not after a time; null when there is none. */
    public @Nullable JournalEntry newest(String tray, EntryKind kind, long timeMs) {
        List<JournalEntry> entries = byKind.getOrDefault(tray, NOTHING).getOrDefault(kind, List.of());
        for (int i = entries.size() - 1; i >= 0; i--) {
            if (entries.get(i).time().toEpochMilli() <= timeMs) {
                return entries.get(i);
            }
        }
        return null;
    }

    /** Other trays that lie on the same mat at a time; empty without a mat. */
    List<String> neighbours(TrayNow here, Instant time) {
        if (here.mat() == null) {
            return List.of();
        }
        return site.trays().stream()
                .map(Tray::id)
                .filter(tray -> !tray.equals(here.tray())
                        && here.mat().equals(growing.at(tray, time).mat()))
                .toList();
    }

    /** Whether a tray is the first in the site file of those on its mat: what concerns the mat is told there. */
    boolean isFirstOnMat(TrayNow here, Instant time) {
        return here.mat() != null
                && site.trays().stream()
                        .map(Tray::id)
                        .filter(tray -> here.mat().equals(growing.at(tray, time).mat()))
                        .findFirst()
                        .filter(here.tray()::equals)
                        .isPresent();
    }

    /** When plants in a room have light. */
    public LightPlan light(String room) {
        return light.getOrDefault(room, LightPlan.ALWAYS);
    }

    /** Whether a room is an outdoor hardening area. */
    boolean isOutdoors(String room) {
        return site.room(room).map(where -> where.kind() == RoomKind.OUTDOORS).orElse(false);
    }

    /** Whether no sun can warm what stands in a room: it is night, or the room is indoors under lamps. */
    boolean isSunless(String room, long timeMs) {
        boolean indoors =
                site.room(room).map(where -> where.kind() == RoomKind.INDOORS).orElse(false);
        return indoors || sun.isNight(timeMs);
    }

    /** How many changes of who stands where have come by a time: while it stays the same, so does everything. */
    int changesBy(long timeMs) {
        int low = 0;
        int high = changesMs.length;
        while (low < high) {
            int middle = (low + high) >>> 1;
            if (changesMs[middle] > timeMs) {
                high = middle;
            } else {
                low = middle + 1;
            }
        }
        return low;
    }

    /** Probes that ever are in a cell of this tray or at it, in the order of the site file. */
    List<Probe> probesOfTray(String tray) {
        return site.probes().stream()
                .filter(probe -> places(probe).stream().anyMatch(place -> isIn(place, tray)))
                .toList();
    }

    private static boolean isIn(Place place, String tray) {
        if (place instanceof Place.InCell cell) {
            return cell.tray().equals(tray);
        }
        return place instanceof Place.AtTray at && at.tray().equals(tray);
    }

    /** Whether a temperature probe is ever in a cell of this tray. */
    boolean hasRootProbe(String tray) {
        return probesOfTray(tray).stream().anyMatch(probe -> probe.measures() == Quantity.TEMPERATURE);
    }

    /** Probes that are in a room's air and measure this. */
    List<Probe> probesOfRoom(String room, Quantity quantity) {
        return site.probes().stream()
                .filter(probe -> probe.measures() == quantity
                        && places(probe).stream()
                                .anyMatch(place -> place instanceof Place.InRoom in
                                        && in.room().equals(room)))
                .toList();
    }

    /** Probes that are at a mat. */
    List<Probe> probesOfMat(String mat) {
        return site.probes().stream()
                .filter(probe -> places(probe).stream()
                        .anyMatch(place ->
                                place instanceof Place.AtMat at && at.mat().equals(mat)))
                .toList();
    }

    /** Every mat this tray ever lies on. */
    Set<String> matsOfTray(String tray) {
        var mats = new LinkedHashSet<String>();
        site.tray(tray).map(own -> own.mat()).ifPresent(mats::add);
        growing.changes(tray).forEach(now -> {
            if (now.mat() != null) {
                mats.add(now.mat());
            }
        });
        return mats;
    }

    private static List<Place> places(Probe probe) {
        return probe.at().values().stream().map(Dated.From::value).toList();
    }
}
