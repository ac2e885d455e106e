package traytender.rules.bench;

import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import traytender.config.crop.Crops;
import traytender.config.folder.SiteFolder;
import traytender.config.journal.EntryKind;
import traytender.config.journal.Growing;
import traytender.config.journal.JournalEntry;
import traytender.config.site.Dated;
import traytender.config.site.Place;
import traytender.config.site.Probe;
import traytender.config.site.Quantity;
import traytender.config.site.Room;
import traytender.config.site.Site;
import traytender.rules.drying.DailyLight;
import traytender.rules.drying.LightPlan;

/**
 * What every unit of a site shares: the site, its crops, who stands where, the journal of each tray, the sun. Replaced as a
 * whole when the journal grows. <b>Not thread-safe</b>, because the sun remembers its last answer.
 */
public final class Bench {
    private final Site site;
    private final Crops crops;
    private final Growing growing;
    private final SunTimes sun;
    private final Map<String, List<JournalEntry>> journal = new HashMap<>();
    private final Map<String, LightPlan> light = new HashMap<>();
    private final long[] changesMs;

    /** The bench as site file and journal have it. */
    public Bench(SiteFolder folder, Crops crops, List<JournalEntry> entries, Instant firstReading) {
        this.site = folder.site();
        this.crops = crops;
        this.growing = Growing.of(site, crops, entries, firstReading);
        this.sun = new SunTimes(site.location(), site.timezone());
        for (Room room : site.rooms()) {
            light.put(room.id(), DailyLight.of(room, site.timezone()));
        }
        entries.stream()
                .sorted(java.util.Comparator.comparing(JournalEntry::time))
                .forEach(entry -> journal.computeIfAbsent(entry.tray(), tray -> new ArrayList<>())
                        .add(entry));
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

    /** A tray's entries in order of time. */
    public List<JournalEntry> journal(String tray) {
        return journal.getOrDefault(tray, List.of());
    }

    /** A tray's newest entry of a kind not after a time; null when there is none. */
    public @org.jspecify.annotations.Nullable JournalEntry newest(String tray, EntryKind kind, long timeMs) {
        JournalEntry found = null;
        for (JournalEntry entry : journal(tray)) {
            if (entry.time().toEpochMilli() > timeMs) {
                break;
            }
            if (entry.kind() == kind) {
                found = entry;
            }
        }
        return found;
    }

    /** When plants in a room have light. */
    public LightPlan light(String room) {
        return light.getOrDefault(room, LightPlan.ALWAYS);
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
