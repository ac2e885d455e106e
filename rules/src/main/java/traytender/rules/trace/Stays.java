package traytender.rules.trace;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.TreeSet;
import traytender.config.crop.Limits;
import traytender.config.journal.Growing;
import traytender.config.journal.SowingNow;
import traytender.config.journal.TrayNow;
import traytender.config.reading.Reading;
import traytender.config.site.Cell;
import traytender.config.site.Dated;
import traytender.config.site.Place;
import traytender.config.site.Probe;
import traytender.config.site.Quantity;
import traytender.config.site.Site;
import traytender.config.site.Zone;

/** Cuts the readings of a probe in a cell at every change of what stands there, and holds each piece to its own limits. */
public final class Stays {
    private final Growing growing;
    private final Probe probe;

    private Stays(Growing growing, Probe probe) {
        this.growing = growing;
        this.probe = probe;
    }

    /** Probes whose readings can be held to a crop's limits: moisture and temperature. */
    public static List<Probe> probes(Site site) {
        return site.probes().stream()
                .filter(probe -> probe.measures() == Quantity.MOISTURE || probe.measures() == Quantity.TEMPERATURE)
                .toList();
    }

    /**
     * A probe's stays in a time, in order of it; one without a reading is left out.
     *
     * @param growing by the limits that are asked about
     * @param probe one of {@link #probes}
     * @param readings at least those of that time
     * @param to exclusive
     */
    public static List<Stay> of(Growing growing, Probe probe, List<Reading> readings, Instant from, Instant to) {
        var stays = new Stays(growing, probe);
        List<Instant> cuts = stays.cuts(from, to);
        Duration longest = Trace.longestPause(probe);
        var found = new ArrayList<Stay>();
        for (int i = 0; i < cuts.size(); i++) {
            Instant since = cuts.get(i);
            Instant until = i + 1 < cuts.size() ? cuts.get(i + 1) : to;
            growing.sowing(probe, since)
                    .filter(SowingNow::isWatched)
                    .flatMap(sowing -> stays.stay(sowing, since, until, new Trace(readings, since, until, longest)))
                    .ifPresent(found::add);
        }
        return List.copyOf(found);
    }

    /** The beginning, and every time at which the probe, or what stands round it, may have changed. */
    private List<Instant> cuts(Instant from, Instant to) {
        var cuts = new TreeSet<Instant>();
        for (Dated.From<Place> placed : probe.at().values()) {
            cuts.add(placed.since());
            if (placed.value() instanceof Place.InCell place) {
                growing.changes(place.tray()).stream().map(TrayNow::since).forEach(cuts::add);
            }
        }
        cuts.removeIf(cut -> !cut.isAfter(from) || !cut.isBefore(to));
        cuts.add(from);
        return List.copyOf(cuts);
    }

    private Optional<Stay> stay(SowingNow sowing, Instant since, Instant until, Trace trace) {
        Reading lowest = trace.lowest();
        Reading highest = trace.highest();
        if (lowest == null || highest == null) {
            return Optional.empty();
        }
        String tray = ((Place.InCell) probe.at().at(since).orElseThrow()).tray();
        Cell cell = growing.cell(probe, since).orElseThrow();
        Limits limits = sowing.limits();
        boolean moisture = probe.measures() == Quantity.MOISTURE;
        return Optional.of(new Stay(
                probe,
                tray,
                Zone.of(cell, growing.at(tray, since).cells()),
                sowing.sowing().crop(),
                sowing.stage(),
                since,
                until,
                lowest.value(),
                highest.value(),
                trace.beyond(moisture ? limits.dryLine() : limits.rootCold(), false),
                trace.beyond(moisture ? limits.wetLine() : limits.rootHot(), true)));
    }
}
