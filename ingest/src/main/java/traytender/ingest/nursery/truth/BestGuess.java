package traytender.ingest.nursery.truth;

import java.util.List;
import traytender.config.site.Tray;
import traytender.ingest.nursery.probe.SimulatedProbe;
import traytender.ingest.nursery.truth.Trace.Course;
import traytender.ingest.nursery.truth.Trace.Spell;

/**
 * What nobody can know who has the water from one probe alone, however well the drying to come is known to him: how far the probe is off at
 * the dry line, after what it shows in a filled cell, where the true moisture is plain, has been taken out as well as can be. What is left of its
 * gain and offset is the least error a forecast can have on average.
 */
final class BestGuess {
    /** Minutes after which a watered cell has drained; it stands at the end of three of {@code Plugs}' draining times. */
    private static final int DRAINED = 60;

    private static final double FILLED = 0.93;
    /**
     * Share of the gain in the variance of a probe's error in a filled cell, the offset's is the rest: the middle of what the scenarios' instruments
     * are drawn from. Who guesses so knows them better than any program.
     */
    private static final double GAIN_SHARE = 0.7;

    private BestGuess() {}

    /**
     * How much more than the line a probe will be thought to read when its cell has come to it, less what it is thought to: positive when the
     * cell will be thought wetter than it is.
     *
     * @param crosses minute at which the cell comes to the line
     * @param seen what the probe reads then, without noise
     */
    static double left(Trace trace, Tray tray, SimulatedProbe probe, double line, int crosses, double seen) {
        Course course = trace.course(probe);
        double full = 0;
        List<Spell> spells = trace.spells(tray.id());
        for (Spell spell : spells) {
            int drained = spell.from() + DRAINED;
            if (spell.watered() && drained < Math.min(crosses, trace.minutes()) && course.truth()[drained] >= FILLED) {
                full = course.seen()[drained] - course.truth()[drained];
            }
        }
        return seen - line - (GAIN_SHARE * line + 1 - GAIN_SHARE) * full;
    }
}
