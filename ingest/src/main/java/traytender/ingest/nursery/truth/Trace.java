package traytender.ingest.nursery.truth;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import traytender.config.site.Place;
import traytender.config.site.Quantity;
import traytender.config.site.Zone;
import traytender.ingest.nursery.probe.Bench;
import traytender.ingest.nursery.probe.ProbeFault;
import traytender.ingest.nursery.probe.SimulatedProbe;
import traytender.ingest.nursery.world.Happening;
import traytender.ingest.nursery.world.World;

/**
 * The true and the seen (noise-free) value of every probe at every minute of a scenario, what the mats truly did, and, for every watering, what each
 * moisture probe's cell would have done without it for 30 hours.
 *
 * <p><b>Not thread-safe.</b>
 */
public final class Trace implements Bench.Witness {
    /** How far a course without the next watering is followed. */
    static final int THOUGHT_MINUTES = 30 * 60;

    /** Two values a minute; NaN where it was not looked at. */
    static final class Course {
        private final double[] truth;
        private final double[] seen;

        Course(int minutes) {
            truth = new double[minutes];
            seen = new double[minutes];
            Arrays.fill(truth, Double.NaN);
            Arrays.fill(seen, Double.NaN);
        }

        double[] truth() {
            return truth;
        }

        double[] seen() {
            return seen;
        }

        double low(int minute) {
            return Math.min(truth[minute], seen[minute]);
        }

        /** How far what is seen lies from the truth. */
        double off(int minute) {
            return Math.abs(truth[minute] - seen[minute]);
        }

        double high(int minute) {
            return Math.max(truth[minute], seen[minute]);
        }
    }

    /**
     * The time from one watering of a tray to the next.
     *
     * @param from minute of the watering, or 0
     * @param to minute of the next, or the end
     * @param watered whether it begins with a watering
     * @param thought each moisture probe's course from {@code to} on with the next watering thought away
     */
    record Spell(int from, int to, boolean watered, Map<String, Course> thought) {}

    private final Instant start;
    private final int minutes;
    private final List<SimulatedProbe> probes;
    private final List<Happening> happenings;
    private final Map<String, Course> courses = new HashMap<>();
    private final Map<String, boolean[]> heats = new HashMap<>();
    private final Map<String, boolean[]> reports = new HashMap<>();
    private final Map<String, List<Spell>> spells = new HashMap<>();
    private final Map<String, Integer> lastWatering = new HashMap<>();

    public Trace(Instant start, Instant end, List<SimulatedProbe> probes, List<Happening> happenings) {
        this.start = start;
        this.minutes = (int) Duration.between(start, end).toMinutes();
        this.probes = List.copyOf(probes);
        this.happenings =
                happenings.stream().sorted(Comparator.comparing(Happening::at)).toList();
        this.probes.forEach(probe -> courses.put(probe.probe().id(), new Course(minutes)));
    }

    @Override
    public void minute(World world) {
        int minute = minuteOf(world.time());
        for (SimulatedProbe probe : probes) {
            Course course = course(probe);
            course.truth()[minute] = probe.truth(world);
            course.seen()[minute] = probe.seen(world);
        }
        for (String mat : world.mats()) {
            heats.computeIfAbsent(mat, id -> new boolean[minutes])[minute] =
                    world.mat(mat).heats();
            reports.computeIfAbsent(mat, id -> new boolean[minutes])[minute] =
                    world.mat(mat).reportsHeating();
        }
        if (minute == minutes - 1) {
            traysWithMoisture().forEach(tray -> close(tray, minutes, world));
        }
    }

    @Override
    public void before(Happening happening, World world) {
        String tray = happening.waters();
        if (tray != null) {
            close(tray, minuteOf(world.time()), world);
            lastWatering.put(tray, minuteOf(world.time()));
        }
    }

    private void close(String tray, int to, World world) {
        Integer from = lastWatering.get(tray);
        var thought = to > 0 ? think(tray, to, world.copy()) : Map.<String, Course>of();
        spells.computeIfAbsent(tray, id -> new ArrayList<>())
                .add(new Spell(from == null ? 0 : from, to, from != null, thought));
    }

    /** Runs a copy on without watering this tray. */
    private Map<String, Course> think(String tray, int from, World copy) {
        List<SimulatedProbe> mine = moistureOf(tray);
        var thought = new HashMap<String, Course>();
        mine.forEach(probe -> thought.put(probe.probe().id(), new Course(THOUGHT_MINUTES)));
        int next = 0;
        Instant begin = start.plusSeconds(60L * from);
        while (next < happenings.size() && happenings.get(next).at().isBefore(begin)) {
            next++;
        }
        while (copy.time().isBefore(begin)) {
            copy.step();
        }
        for (int minute = 0; minute < THOUGHT_MINUTES; minute++) {
            while (next < happenings.size() && !happenings.get(next).at().isAfter(copy.time())) {
                Happening happening = happenings.get(next++);
                if (happening.waters() == null) {
                    happening.effect().accept(copy);
                }
            }
            for (SimulatedProbe probe : mine) {
                Course course = Objects.requireNonNull(thought.get(probe.probe().id()));
                course.truth()[minute] = probe.truth(copy);
                course.seen()[minute] = probe.seen(copy);
            }
            copy.step();
        }
        return thought;
    }

    Instant start() {
        return start;
    }

    int minutes() {
        return minutes;
    }

    Instant time(int minute) {
        return start.plusSeconds(60L * minute);
    }

    int minuteOf(Instant time) {
        return (int) Math.floorDiv(Duration.between(start, time).toSeconds(), 60L);
    }

    Course course(SimulatedProbe probe) {
        return Objects.requireNonNull(courses.get(probe.probe().id()));
    }

    List<SimulatedProbe> probes() {
        return probes;
    }

    List<SimulatedProbe> moistureOf(String tray) {
        return inTray(tray, Quantity.MOISTURE);
    }

    List<SimulatedProbe> inTray(String tray, Quantity quantity) {
        return probes.stream()
                .filter(probe -> probe.probe().measures() == quantity
                        && probe.probe().at().last() instanceof Place.InCell in
                        && in.tray().equals(tray))
                .toList();
    }

    Optional<SimulatedProbe> inRoom(String room, Quantity quantity) {
        return probes.stream()
                .filter(probe -> probe.probe().measures() == quantity
                        && probe.probe().at().last() instanceof Place.InRoom in
                        && in.room().equals(room))
                .findFirst();
    }

    private List<String> traysWithMoisture() {
        return probes.stream()
                .filter(probe -> probe.probe().measures() == Quantity.MOISTURE)
                .map(probe -> ((Place.InCell) probe.probe().at().last()).tray())
                .distinct()
                .toList();
    }

    List<Spell> spells(String tray) {
        return spells.getOrDefault(tray, List.of());
    }

    boolean heats(String mat, int minute) {
        return Objects.requireNonNull(heats.get(mat))[minute];
    }

    boolean reportsHeating(String mat, int minute) {
        return Objects.requireNonNull(reports.get(mat))[minute];
    }

    /** Whether a probe is at fault at a minute, or was within two hours before. */
    boolean ails(SimulatedProbe probe, int minute) {
        Instant time = time(minute);
        return probe.faults().stream()
                .filter(fault -> fault.kind() != ProbeFault.Kind.LATE && fault.kind() != ProbeFault.Kind.SPIKES)
                .anyMatch(fault -> !time.isBefore(fault.from())
                        && Duration.between(fault.to(), time).toHours() < 2);
    }

    /** By how many minutes its readings may come late. */
    int lateMinutes(SimulatedProbe probe) {
        return probe.faults().stream()
                .filter(fault -> fault.kind() == ProbeFault.Kind.LATE)
                .mapToInt(fault -> (int) (60 * fault.size()) + 20)
                .findFirst()
                .orElse(0);
    }

    static Zone zone(SimulatedProbe probe, traytender.config.site.Tray tray) {
        return Zone.of(probe.cell().orElseThrow(), tray.cells());
    }
}
