package traytender.ingest.nursery.truth;

import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;
import traytender.config.alert.AlertKind;
import traytender.config.alert.ShutOffReason;
import traytender.config.crop.Limits;
import traytender.config.site.Tray;
import traytender.config.site.Zone;
import traytender.ingest.nursery.probe.SimulatedProbe;
import traytender.ingest.nursery.truth.Trace.Spell;
import traytender.ingest.nursery.truth.Truth.Where;

/**
 * {@code uneven-drying} of a tray: losses since 45 minutes after the watering, zone by zone. Allowed from 0.85 of the ratio; required at 1.25 of it in truth and
 * 1.15 as seen, with 15 points lost, for three hours, after a watering that filled every zone to 80 percent.
 */
final class UnevenTruth {
    private static final int SETTLING = 45;
    private static final double NEAR_TIE = 0.88;

    private final Case found;
    private final Tray tray;
    private final Limits limits;
    private final List<SimulatedProbe> probes;

    private UnevenTruth(Case found, Tray tray) {
        this.found = found;
        this.tray = tray;
        this.limits = found.limits(tray);
        this.probes = found.trace().moistureOf(tray.id());
    }

    static void judge(Case found, Tray tray) {
        var truth = new UnevenTruth(found, tray);
        if (truth.probes.size() > 1) {
            found.trace().spells(tray.id()).forEach(truth::judge);
        }
    }

    private void judge(Spell spell) {
        int base = spell.watered() ? spell.from() + SETTLING : 0;
        if (base + 60 >= spell.to()) {
            return;
        }
        for (SimulatedProbe probe : probes) {
            Stretch.where(base + 60, spell.to(), minute -> ratio(probe, base, minute) >= 0.85 * limits.unevenRatio())
                    .forEach(near -> found.may(
                            List.of(AlertKind.UNEVEN_DRYING),
                            Where.in(tray.id(), zone(probe)),
                            near.from(),
                            near.to() + Case.GRACE,
                            List.of(),
                            "ratio reached or within the margin"));
        }
        overMat(spell, base);
        if (spell.watered() && full(base)) {
            required(spell, base);
        }
    }

    private void required(Spell spell, int base) {
        Stretch.where(base + 60, spell.to(), minute -> plain(base, minute)).stream()
                .filter(plain -> plain.minutes() >= 180)
                .findFirst()
                .ifPresent(plain -> found.must(
                        List.of(AlertKind.UNEVEN_DRYING),
                        new Where(List.of("tray:" + tray.id()), fastest(base, plain)),
                        new Stretch(plain.from(), spell.to()),
                        base,
                        plain.from() + 150,
                        List.of(),
                        true));
    }

    private boolean plain(int base, int minute) {
        double most = probes.stream()
                .mapToDouble(probe -> lost(probe, base, minute, true))
                .max()
                .orElse(0);
        boolean well = probes.stream().noneMatch(probe -> found.trace().ails(probe, minute));
        return well
                && most >= 0.15
                && spread(base, minute, true) >= 1.25 * limits.unevenRatio()
                && spread(base, minute, false) >= 1.15 * limits.unevenRatio();
    }

    private List<Zone> fastest(int base, Stretch plain) {
        int minute = Math.min(plain.from() + 150, plain.to() - 1);
        var zones = new ArrayList<Zone>();
        for (boolean truly : new boolean[] {true, false}) {
            double most = probes.stream()
                    .mapToDouble(probe -> lost(probe, base, minute, truly))
                    .max()
                    .orElse(0);
            probes.stream()
                    .filter(probe -> lost(probe, base, minute, truly) >= NEAR_TIE * most)
                    .map(this::zone)
                    .filter(zone -> !zones.contains(zone))
                    .forEach(zones::add);
        }
        return zones;
    }

    /** Over a mat, that the inside dries faster is allowed as a reason to turn it down. */
    private void overMat(Spell spell, int base) {
        if (tray.mat() == null) {
            return;
        }
        Stretch.where(base, spell.to(), minute -> inside(base, minute))
                .forEach(holds -> found.may(
                        List.of(AlertKind.MAT_SHUT_OFF),
                        Where.in(tray.id()),
                        holds.from(),
                        holds.to() + 60,
                        List.of(ShutOffReason.DRYING_PATTERN),
                        "inside dries faster over the mat"));
    }

    private boolean inside(int base, int minute) {
        ToDoubleFunction<Boolean> most = inner -> probes.stream()
                .filter(probe -> inner == (zone(probe) == Zone.CENTRE || zone(probe) == Zone.BETWEEN))
                .mapToDouble(probe -> Math.max(lost(probe, base, minute, true), lost(probe, base, minute, false)))
                .reduce(Double.NaN, (a, b) -> Double.isNaN(a) ? b : inner ? Math.max(a, b) : Math.min(a, b));
        return most.applyAsDouble(true) > 1.05 * most.applyAsDouble(false);
    }

    private boolean full(int base) {
        return probes.stream().allMatch(probe -> found.trace().course(probe).low(base) >= 0.8);
    }

    /** A zone's loss over the least loss, truly or as seen, whichever is more; 0 before two points are lost. */
    private double ratio(SimulatedProbe probe, int base, int minute) {
        double ratio = 0;
        for (boolean truly : new boolean[] {true, false}) {
            double mine = lost(probe, base, minute, truly);
            if (mine > 0.02) {
                ratio = Math.max(ratio, mine / Math.max(0.003, least(base, minute, truly)));
            }
        }
        return ratio;
    }

    private double spread(int base, int minute, boolean truly) {
        double most = probes.stream()
                .mapToDouble(probe -> lost(probe, base, minute, truly))
                .max()
                .orElse(0);
        return most / Math.max(0.003, least(base, minute, truly));
    }

    private double least(int base, int minute, boolean truly) {
        return probes.stream()
                .mapToDouble(probe -> lost(probe, base, minute, truly))
                .min()
                .orElse(0);
    }

    private double lost(SimulatedProbe probe, int base, int minute, boolean truly) {
        var course = found.trace().course(probe);
        double[] values = truly ? course.truth() : course.seen();
        return values[base] - values[minute];
    }

    private Zone zone(SimulatedProbe probe) {
        return found.zone(probe, tray);
    }
}
