package traytender.ingest.nursery.truth;

import java.util.List;
import traytender.config.alert.AlertKind;
import traytender.config.site.Tray;
import traytender.ingest.nursery.probe.SimulatedProbe;
import traytender.ingest.nursery.truth.Trace.Course;
import traytender.ingest.nursery.truth.Trace.Spell;
import traytender.ingest.nursery.truth.Truth.Where;

/**
 * {@code missed-watering}: required with a rise under 4 points where 25 were wanting and another zone rose by 20; allowed with little taken up.
 */
final class WateringTruth {
    private static final int LOOK = 40;
    private static final int FOUND_WITHIN = 180;
    private static final int GREY_FOR = 750;

    private WateringTruth() {}

    static void judge(Case found, Tray tray) {
        List<SimulatedProbe> probes = found.trace().moistureOf(tray.id());
        for (Spell spell : found.trace().spells(tray.id())) {
            if (spell.watered() && spell.from() > 0) {
                probes.forEach(probe -> judge(found, tray, spell, probe, probes));
            }
        }
    }

    private static void judge(Case found, Tray tray, Spell spell, SimulatedProbe probe, List<SimulatedProbe> all) {
        int after = Math.min(spell.from() + LOOK, found.trace().minutes() - 1);
        double wanting = 1 - course(found, probe).truth()[spell.from() - 1];
        double rise = rise(found, probe, spell.from(), after);
        double others = all.stream()
                .filter(other -> !other.equals(probe))
                .mapToDouble(other -> rise(found, other, spell.from(), after))
                .max()
                .orElse(0);
        Where where = Where.in(tray.id(), found.zone(probe, tray));
        if (rise < Math.max(0.1, 0.45 * wanting) && others > 0.06) {
            found.may(
                    List.of(AlertKind.MISSED_WATERING),
                    where,
                    spell.from() - 2,
                    spell.from() + GREY_FOR,
                    List.of(),
                    "took up little");
        }
        boolean plain = rise < 0.04 && wanting >= 0.25 && others >= 0.2;
        if (plain && !found.trace().ails(probe, spell.from()) && !found.trace().ails(probe, after)) {
            found.must(
                    List.of(AlertKind.MISSED_WATERING),
                    where,
                    new Stretch(spell.from(), spell.to()),
                    spell.from() - 2,
                    spell.from() + FOUND_WITHIN + found.trace().lateMinutes(probe),
                    List.of(),
                    true);
        }
    }

    private static double rise(Case found, SimulatedProbe probe, int from, int after) {
        Course course = course(found, probe);
        return course.truth()[after] - course.truth()[from - 1];
    }

    private static Course course(Case found, SimulatedProbe probe) {
        return found.trace().course(probe);
    }
}
