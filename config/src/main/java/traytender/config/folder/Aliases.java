package traytender.config.folder;

import java.util.IdentityHashMap;
import java.util.stream.Stream;
import org.snakeyaml.engine.v2.nodes.MappingNode;
import org.snakeyaml.engine.v2.nodes.Node;
import org.snakeyaml.engine.v2.nodes.SequenceNode;

/**
 * How large a document becomes once its aliases are followed. A few lines of nested aliases can unfold to billions of nodes,
 * or to themselves; reading those would never end.
 */
final class Aliases {
    private static final long MOST_NODES = 2_000_000;

    private final IdentityHashMap<Node, Long> sizes = new IdentityHashMap<>();

    private Aliases() {}

    static boolean tooMany(Node root) {
        return new Aliases().size(root) > MOST_NODES;
    }

    private long size(Node node) {
        Long known = sizes.get(node);
        if (known != null) {
            return known;
        }
        // Found again below itself: endless.
        sizes.put(node, MOST_NODES + 1);
        long size = 1
                + Math.min(MOST_NODES + 1, children(node).mapToLong(this::size).sum());
        sizes.put(node, size);
        return size;
    }

    private static Stream<Node> children(Node node) {
        if (node instanceof MappingNode mapping) {
            return mapping.getValue().stream().flatMap(pair -> Stream.of(pair.getKeyNode(), pair.getValueNode()));
        }
        return node instanceof SequenceNode sequence ? sequence.getValue().stream() : Stream.empty();
    }
}
