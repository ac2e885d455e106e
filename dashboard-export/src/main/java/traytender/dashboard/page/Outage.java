package traytender.dashboard.page;

import java.time.Instant;
import java.util.List;

/**
 * A time in which the program did not run.
 *
 * @param from time of the last reading before it
 * @param to when the program started again
 * @param wasCut whether it ended without being stopped, by a power cut or a kill
 * @param coldest the lowest temperatures known from meanwhile and just after, at most one a place, the lowest first
 * @param driest the lowest moistures known, likewise
 * @param probes ids of probes heard shortly before, and not since
 * @param mats ids of mats that were heating before, and have not since
 * @param lamps ids of rooms that were lit by their lamps before, and are dark in the lamps' hours since
 */
public record Outage(
        Instant from,
        Instant to,
        boolean wasCut,
        List<Low> coldest,
        List<Low> driest,
        List<String> probes,
        List<String> mats,
        List<String> lamps) {
    public Outage {
        coldest = List.copyOf(coldest);
        driest = List.copyOf(driest);
        probes = List.copyOf(probes);
        mats = List.copyOf(mats);
        lamps = List.copyOf(lamps);
    }

    /**
     * The lowest value of a probe.
     *
     * @param probe its id
     * @param value in C, or as a fraction of container capacity
     */
    public record Low(String probe, double value, Instant at) {}
}
