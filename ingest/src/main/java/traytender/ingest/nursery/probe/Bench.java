package traytender.ingest.nursery.probe;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.PriorityQueue;
import traytender.ingest.nursery.world.Happening;
import traytender.ingest.nursery.world.World;

/**
 * A world with its devices, run forward: gives messages in the order in which they arrive.
 *
 * <p><b>Not thread-safe.</b>
 */
public final class Bench {
    /** Somebody who sees the truth. */
    public interface Witness {
        /** Called before something happens. */
        void before(Happening happening, World world);

        /** Called at every minute, after what happened in it. */
        void minute(World world);

        /** Both of them. */
        default Witness and(Witness other) {
            Witness one = this;
            return new Witness() {
                @Override
                public void before(Happening happening, World world) {
                    one.before(happening, world);
                    other.before(happening, world);
                }

                @Override
                public void minute(World world) {
                    one.minute(world);
                    other.minute(world);
                }
            };
        }

        /** One that does not look. */
        static Witness none() {
            return new Witness() {
                @Override
                public void before(Happening happening, World world) {}

                @Override
                public void minute(World world) {}
            };
        }
    }

    private record Waiting(SimulatedMessage message, long number) {}

    private final World world;
    private final List<SimulatedNode> nodes;
    private final List<Happening> happenings;
    private final Witness witness;
    private final PriorityQueue<Waiting> underway = new PriorityQueue<>(
            Comparator.comparing((Waiting waiting) -> waiting.message().time()).thenComparingLong(Waiting::number));
    private int nextHappening;
    private long sent;

    /**
     * A bench from the world's present on.
     *
     * @param happenings in any order; those before the world's present are left out
     * @param witness sees all of it
     */
    public Bench(World world, List<SimulatedNode> nodes, List<Happening> happenings, Witness witness) {
        this.world = world;
        this.nodes = List.copyOf(nodes);
        this.happenings = happenings.stream()
                .filter(happening -> !happening.at().isBefore(world.time()))
                .sorted(Comparator.comparing(Happening::at))
                .toList();
        this.witness = witness;
    }

    /** Runs on to a time and gives what arrived since the last call and before it. */
    public List<SimulatedMessage> messagesUntil(Instant until) {
        while (world.time().isBefore(until)) {
            while (nextHappening < happenings.size()
                    && !happenings.get(nextHappening).at().isAfter(world.time())) {
                Happening happening = happenings.get(nextHappening++);
                witness.before(happening, world);
                happening.effect().accept(world);
            }
            witness.minute(world);
            nodes.forEach(node -> node.report(world, message -> underway.add(new Waiting(message, sent++))));
            world.step();
        }
        var arrived = new ArrayList<SimulatedMessage>();
        while (!underway.isEmpty() && underway.peek().message().time().isBefore(until)) {
            arrived.add(underway.remove().message());
        }
        return arrived;
    }
}
