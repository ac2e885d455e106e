package traytender.ingest.nursery.probe;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.function.Consumer;
import traytender.config.site.Probe;
import traytender.config.site.Quantity;
import traytender.ingest.nursery.probe.ProbeFault.Kind;
import traytender.ingest.nursery.world.Noise;
import traytender.ingest.nursery.world.World;

/**
 * A sending device: one topic, one clock, one or more probes that report together.
 *
 * <p>Reports come every interval from a start of its own, each moved by up to {@code jitter} of the interval; a share is lost on the way, a share
 * comes twice. A probe's faults are those of {@link ProbeFault}; silence, wrong clock and late delivery of its first probe are the whole device's.
 *
 * <p><b>Not thread-safe.</b>
 */
public final class SimulatedNode {
    private final List<SimulatedProbe> probes;
    private final Duration every;
    private final Habits habits;
    private final Noise noise;
    private final Map<String, Double> stuckAt = new HashMap<>();
    private final Instant firstReport;
    private long report;

    /**
     * How a device sends.
     *
     * @param jitter share of the interval a report may come early or late
     * @param lost share of reports that never arrive
     * @param twice share of reports that arrive twice
     */
    public record Habits(double jitter, double lost, double twice) {}

    public SimulatedNode(List<SimulatedProbe> probes, Duration every, Habits habits, Instant start, Noise noise) {
        this.probes = List.copyOf(probes);
        this.every = every;
        this.habits = habits;
        this.noise = noise.of(probes.get(0).probe().id());
        this.firstReport = start.plusSeconds(Math.round(this.noise.even(-7) * every.toSeconds()));
    }

    public List<SimulatedProbe> probes() {
        return probes;
    }

    /** Gives every message whose readings are taken in the world's minute. */
    void report(World world, Consumer<SimulatedMessage> out) {
        Instant end = world.time().plusSeconds(60);
        for (Instant at = reportTime(); at.isBefore(end); at = reportTime()) {
            if (!at.isBefore(world.time())) {
                send(world, at, out);
            }
            report++;
        }
    }

    private Instant reportTime() {
        long shift = Math.round((2 * noise.even(100 + 5 * report) - 1) * habits.jitter() * every.toSeconds());
        return firstReport.plusSeconds(report * every.toSeconds() + shift);
    }

    private void send(World world, Instant at, Consumer<SimulatedMessage> out) {
        SimulatedProbe first = probes.get(0);
        if (noise.even(101 + 5 * report) < habits.lost()
                || first.fault(Kind.SILENT, at).isPresent()) {
            return;
        }
        Instant told = first.fault(Kind.CLOCK, at)
                .map(fault -> at.plusSeconds((long) fault.size()))
                .orElse(at);
        var senders = new ArrayList<Probe>();
        var values = new ArrayList<String>();
        for (SimulatedProbe probe : probes) {
            value(probe, world, at).ifPresent(raw -> {
                senders.add(probe.probe());
                values.add(Payloads.form(probe.probe(), raw));
            });
        }
        if (!senders.isEmpty()) {
            deliver(message(senders, values, told, arrival(first, at)), out);
        }
    }

    private static SimulatedMessage message(List<Probe> senders, List<String> values, Instant told, Instant arrival) {
        boolean own = Payloads.tellsTime(senders.get(0).binding());
        var readings = new ArrayList<SimulatedReading>();
        for (int i = 0; i < senders.size(); i++) {
            readings.add(new SimulatedReading(senders.get(i).id(), told, values.get(i)));
        }
        String text = Payloads.write(senders, values, told);
        // What tells no time of its own is dated by its arrival, so it must not be put off.
        return new SimulatedMessage(
                own || arrival.isAfter(told) ? arrival : told,
                senders.get(0).binding().topic(),
                text,
                readings);
    }

    private void deliver(SimulatedMessage message, Consumer<SimulatedMessage> out) {
        out.accept(message);
        if (noise.even(102 + 5 * report) < habits.twice()) {
            Instant again = message.time().plusSeconds(1 + (long) (40 * noise.even(103 + 5 * report)));
            out.accept(new SimulatedMessage(again, message.topic(), message.text(), message.readings()));
        }
    }

    private Instant arrival(SimulatedProbe first, Instant at) {
        return first.fault(Kind.LATE, at)
                .map(fault -> {
                    long batch = (long) (fault.size() * 3600);
                    long since = Duration.between(fault.from(), at).toSeconds();
                    long due = (since / batch + 1) * batch;
                    return fault.from().plusSeconds(due + (long) (60 * noise.even(104 + 5 * report)));
                })
                .orElse(at);
    }

    private OptionalDouble value(SimulatedProbe probe, World world, Instant at) {
        var own = noise.of(probe.probe().measures().word());
        double seen = probe.fault(Kind.LIFTED, at).isPresent() ? probe.lifted(world) : probe.seen(world);
        double value = seen + probe.traits().noise() * own.normal(10 * report);
        value += probe.fault(Kind.SHIFTED, at).map(ProbeFault::size).orElse(0.0);
        value += leap(probe, at, own);
        if (probe.probe().measures() == Quantity.HUMIDITY || probe.probe().measures() == Quantity.BATTERY) {
            value = Math.min(100, Math.max(0, value));
        }
        double raw = probe.fault(Kind.RANGE, at).map(ProbeFault::size).orElse(probe.raw(value));
        if (probe.fault(Kind.STUCK, at).isEmpty()) {
            stuckAt.put(probe.probe().id(), raw);
            return OptionalDouble.of(raw);
        }
        return OptionalDouble.of(stuckAt.computeIfAbsent(probe.probe().id(), id -> raw));
    }

    private double leap(SimulatedProbe probe, Instant at, Noise own) {
        double jumps = probe.fault(Kind.JUMPING, at).map(ProbeFault::size).orElse(0.0);
        double spikes = probe.fault(Kind.SPIKES, at).map(ProbeFault::size).orElse(0.0);
        boolean spike = own.even(10 * report + 4) < spikes && own.even(10 * (report - 1) + 4) >= spikes;
        if (own.even(10 * report + 4) >= jumps && !spike) {
            return 0;
        }
        double far = probe.probe().measures() == Quantity.MOISTURE ? 0.4 : 15;
        return far * (own.even(10 * report + 5) < 0.5 ? -1 : 1) * own.between(10 * report + 6, 0.5, 1);
    }
}
