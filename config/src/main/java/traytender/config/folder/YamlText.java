package traytender.config.folder;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.api.lowlevel.Compose;
import org.snakeyaml.engine.v2.common.FlowStyle;
import org.snakeyaml.engine.v2.common.ScalarStyle;
import org.snakeyaml.engine.v2.exceptions.Mark;
import org.snakeyaml.engine.v2.exceptions.YamlEngineException;
import org.snakeyaml.engine.v2.nodes.CollectionNode;
import org.snakeyaml.engine.v2.nodes.MappingNode;
import org.snakeyaml.engine.v2.nodes.Node;
import org.snakeyaml.engine.v2.nodes.NodeTuple;
import org.snakeyaml.engine.v2.nodes.ScalarNode;
import org.snakeyaml.engine.v2.nodes.SequenceNode;
import org.snakeyaml.engine.v2.schema.CoreSchema;

/**
 * A YAML text that is changed in single places, every other character left as it was. Each change is read back: when the text
 * would not mean exactly what was meant (it has references, say), it is refused. Immutable; a change gives a new one.
 *
 * <p>A path is keys of maps and numbers of list items, from 0.
 */
final class YamlText {
    private static final String MARK = "\uFEFF";

    private final String text;
    private final String newline;
    private final Node root;

    private YamlText(String text) {
        this.text = text;
        this.newline = text.contains("\r\n") ? "\r\n" : "\n";
        this.root = compose(text);
    }

    /**
     * A text that holds one map of keys.
     *
     * @throws UneditableException when it does not
     */
    static YamlText of(String text) {
        var read = new YamlText(text.startsWith(MARK) ? text.substring(1) : text);
        if (!(read.root instanceof MappingNode map) || map.getFlowStyle() == FlowStyle.FLOW) {
            throw new UneditableException("the file does not hold one block of keys; write it by hand");
        }
        return read;
    }

    private static Node compose(String text) {
        var settings = LoadSettings.builder()
                .setSchema(new CoreSchema())
                .setCodePointLimit(YamlFile.MOST_BYTES)
                .setMaxAliasesForCollections(Integer.MAX_VALUE)
                .build();
        try {
            Node root = new Compose(settings)
                    .composeString(text)
                    .orElseThrow(() -> new UneditableException("the file is empty"));
            if (Aliases.tooMany(root)) {
                throw new UneditableException("the file's aliases unfold to more than it can mean");
            }
            return root;
        } catch (YamlEngineException e) {
            throw new UneditableException("the file is no YAML: " + e.getMessage());
        }
    }

    String text() {
        return text;
    }

    /** What it means. */
    Object tree() {
        return YamlTree.of(root);
    }

    /** The text with another value at a path. A new key goes behind those that stand before it in the order. */
    YamlText set(List<?> path, Object value, List<String> order) {
        Optional<Node> found = node(path);
        Object meant = YamlTree.set(tree(), path, value);
        if (found.isPresent()) {
            return changed(replaced(found.get(), value), meant);
        }
        Object key = path.get(path.size() - 1);
        if (!(node(path.subList(0, path.size() - 1)).orElse(null) instanceof MappingNode parent)) {
            throw new UneditableException("there is no block of keys to put " + key + " into; write it by hand");
        }
        return changed(withKey(parent, String.valueOf(key), value, order), meant);
    }

    private String replaced(Node node, Object value) {
        int start = start(node);
        int end = end(node);
        // A block may stand as far left as its key; what stands in brackets may not, so it goes behind the key, if
        // nothing is there.
        int key = isBlock(node) || start == end
                ? text.substring(0, start).stripTrailing().length()
                : start;
        boolean isBehindKey = key > 0 && key <= start && text.charAt(key - 1) == ':';
        String head =
                isBehindKey ? text.substring(0, key) + " " : text.substring(0, start) + (isBlock(node) ? "  " : "");
        return head + YamlValue.flow(value) + text.substring(end);
    }

    private String withKey(MappingNode parent, String key, Object value, List<String> order) {
        List<NodeTuple> pairs = parent.getValue();
        if (parent.getFlowStyle() == FlowStyle.FLOW) {
            String pair = YamlValue.flow(Map.of(key, value));
            String bare = pair.substring(1, pair.length() - 1);
            int at = pairs.isEmpty()
                    ? start(parent) + 1
                    : end(before(pairs, key, order).getValueNode());
            return text.substring(0, at) + (pairs.isEmpty() ? "" : ", ") + bare + text.substring(at);
        }
        int column = mark(pairs.get(0).getKeyNode()).getColumn();
        String line = " ".repeat(column) + key + ":" + YamlValue.afterKey(value, column, newline);
        return withLines(end(before(pairs, key, order).getValueNode()), line);
    }

    /** The pair behind which a new key goes. */
    private static NodeTuple before(List<NodeTuple> pairs, String key, List<String> order) {
        int rank = order.indexOf(key);
        NodeTuple last = pairs.get(pairs.size() - 1);
        if (rank < 0) {
            return last;
        }
        return pairs.stream()
                .filter(pair -> pair.getKeyNode() instanceof ScalarNode name
                        && order.indexOf(name.getValue()) >= 0
                        && order.indexOf(name.getValue()) < rank)
                .reduce((one, other) -> other)
                .orElse(last);
    }

    /** The text with more items at the end of a list, which is made where there is none. */
    YamlText append(List<?> path, List<?> values, List<String> order) {
        Node found = node(path).orElse(null);
        if (!(found instanceof SequenceNode list) || list.getValue().isEmpty()) {
            if (found == null) {
                return set(path, values, order);
            }
            return remove(path).set(path, values, order);
        }
        var all = new ArrayList<Object>((List<?>) YamlTree.at(tree(), path));
        all.addAll(values);
        Node last = list.getValue().get(list.getValue().size() - 1);
        if (list.getFlowStyle() == FlowStyle.FLOW) {
            String flow = YamlValue.flow(values);
            int at = end(last);
            String put = ", " + flow.substring(1, flow.length() - 1);
            return changed(text.substring(0, at) + put + text.substring(at), YamlTree.set(tree(), path, all));
        }
        int column = mark(list).getColumn();
        String lines = String.join(
                newline,
                values.stream()
                        .map(value -> " ".repeat(column) + YamlValue.item(value, column, newline))
                        .toList());
        return changed(withLines(end(last), lines), YamlTree.set(tree(), path, all));
    }

    /** The text in which what stands at a path has become the first item of a list. */
    YamlText wrapped(List<?> path) {
        Node node = node(path).orElseThrow(() -> new UneditableException("there is no " + path));
        Object meant = YamlTree.set(tree(), path, List.of(YamlTree.at(tree(), path)));
        int start = start(node);
        int end = end(node);
        if (!isBlock(node)) {
            return changed(
                    text.substring(0, start) + "[" + text.substring(start, end) + "]" + text.substring(end), meant);
        }
        String inner = text.substring(start, end).replace("\n", "\n  ");
        return changed(text.substring(0, start) + "- " + inner + text.substring(end), meant);
    }

    /** The text without what stands at a path. */
    YamlText remove(List<?> path) {
        Object meant = YamlTree.remove(tree(), path);
        Node parent = node(path.subList(0, path.size() - 1)).orElseThrow();
        List<? extends Part> parts = parts(parent);
        int index = path.get(path.size() - 1) instanceof Integer number
                ? number
                : IntStream.range(0, parts.size())
                        .filter(i -> parts.get(i).isNamed(path.get(path.size() - 1)))
                        .findFirst()
                        .orElseThrow(() -> new UneditableException("there is no " + path));
        if (parts.size() == 1 && !parent.equals(root)) {
            Object empty = parent instanceof SequenceNode ? List.of() : Map.of();
            return changed(replaced(parent, empty), meant);
        }
        return changed(isBlock(parent) ? lessLines(parts, index) : lessFlow(parts, index), meant);
    }

    private String lessFlow(List<? extends Part> parts, int index) {
        boolean isLast = index == parts.size() - 1;
        int from = isLast ? parts.get(index - 1).end() : parts.get(index).start();
        int to = isLast ? parts.get(index).end() : parts.get(index + 1).start();
        return text.substring(0, from) + text.substring(to);
    }

    private String lessLines(List<? extends Part> parts, int index) {
        int start = parts.get(index).start();
        int line = lineStart(start);
        if (text.substring(line, start).isBlank()) {
            return text.substring(0, line)
                    + text.substring(lineEnd(parts.get(index).end()));
        }
        // The first key of an item, behind the item's dash.
        return text.substring(0, start) + text.substring(parts.get(index + 1).start());
    }

    /**
     * The text with the items of a list in another order, each with the comments that stand above it.
     *
     * @param order the present places of the items, from 0, in their new order
     */
    YamlText reordered(List<?> path, List<Integer> order) {
        if (!(node(path).orElse(null) instanceof SequenceNode list)) {
            throw new UneditableException("there is no list to be ordered");
        }
        List<?> values = (List<?>) YamlTree.at(tree(), path);
        Object meant =
                YamlTree.set(tree(), path, order.stream().map(values::get).toList());
        List<? extends Part> parts = parts(list);
        boolean isBlock = isBlock(list);
        var chunks = new ArrayList<String>();
        int first = isBlock ? lineStart(parts.get(0).start()) : parts.get(0).start();
        int from = first;
        for (Part part : parts) {
            int to = isBlock ? lineEnd(part.end()) : part.end();
            chunks.add(text.substring(from, to));
            from = to;
        }
        String separator = isBlock && !text.substring(0, from).endsWith("\n") ? newline : "";
        if (!isBlock) {
            return set(path, order.stream().map(values::get).toList(), List.of());
        }
        var ordered = new StringBuilder();
        for (int place : order) {
            String chunk = chunks.get(place);
            ordered.append(chunk).append(chunk.endsWith("\n") ? "" : separator);
        }
        String lines =
                separator.isEmpty() ? ordered.toString() : ordered.substring(0, ordered.length() - separator.length());
        return changed(text.substring(0, first) + lines + text.substring(from), meant);
    }

    /** A key with its value, or an item of a list with its dash: where it starts and ends. */
    private record Part(Object name, int start, int end) {
        boolean isNamed(Object other) {
            return name.equals(other);
        }
    }

    private List<Part> parts(Node parent) {
        if (parent instanceof MappingNode map) {
            return map.getValue().stream()
                    .map(pair -> new Part(
                            YamlTree.of(pair.getKeyNode()), start(pair.getKeyNode()), end(pair.getValueNode())))
                    .toList();
        }
        List<Node> items = ((SequenceNode) parent).getValue();
        return IntStream.range(0, items.size())
                .mapToObj(
                        i -> new Part(i, isBlock(parent) ? dash(items.get(i)) : start(items.get(i)), end(items.get(i))))
                .toList();
    }

    private int dash(Node item) {
        int at = text.lastIndexOf('-', start(item) - 1);
        if (at < 0 || !text.substring(at + 1, start(item)).isBlank()) {
            throw new UneditableException("a list is laid out with notes behind its dashes; write it by hand");
        }
        return at;
    }

    private YamlText changed(String after, Object meant) {
        var read = new YamlText(after);
        if (!read.tree().equals(meant)) {
            throw new UneditableException(
                    "the file is laid out so that this cannot be changed alone (with references, perhaps); write it by hand");
        }
        return read;
    }

    private Optional<Node> node(List<?> path) {
        Node found = root;
        for (Object step : path) {
            Node next = null;
            if (found instanceof MappingNode map) {
                next = map.getValue().stream()
                        .filter(pair -> YamlTree.of(pair.getKeyNode()).equals(step))
                        .map(NodeTuple::getValueNode)
                        .findFirst()
                        .orElse(null);
            } else if (found instanceof SequenceNode list && step instanceof Integer index) {
                next = list.getValue().get(index);
            }
            if (next == null) {
                return Optional.empty();
            }
            found = next;
        }
        return Optional.of(found);
    }

    /** Puts whole lines beneath the line in which a place lies. */
    private String withLines(int place, String lines) {
        int at = lineEnd(place);
        boolean isOpen = at == text.length() && !text.endsWith("\n");
        return text.substring(0, at) + (isOpen ? newline + lines : lines + newline) + text.substring(at);
    }

    private int lineStart(int place) {
        return text.lastIndexOf('\n', place - 1) + 1;
    }

    /** Behind the line break. */
    private int lineEnd(int place) {
        int end = text.indexOf('\n', place);
        return end < 0 ? text.length() : end + 1;
    }

    private static boolean isBlock(Node node) {
        return node instanceof CollectionNode<?> collection && collection.getFlowStyle() != FlowStyle.FLOW;
    }

    private int start(Node node) {
        return text.offsetByCodePoints(0, mark(node).getIndex());
    }

    /** Behind the last character that belongs to it; YAML's own end of a block lies behind the comments that follow. */
    private int end(Node node) {
        if (isBlock(node) && node instanceof MappingNode map) {
            return end(map.getValue().get(map.getValue().size() - 1).getValueNode());
        }
        if (isBlock(node) && node instanceof SequenceNode list) {
            return end(list.getValue().get(list.getValue().size() - 1));
        }
        int end = text.offsetByCodePoints(
                0, node.getEndMark().orElseThrow(YamlText::unplaced).getIndex());
        boolean isLines = node instanceof ScalarNode scalar
                && (scalar.getScalarStyle() == ScalarStyle.LITERAL || scalar.getScalarStyle() == ScalarStyle.FOLDED);
        while (isLines && Character.isWhitespace(text.charAt(end - 1))) {
            end--;
        }
        return end;
    }

    private static Mark mark(Node node) {
        return node.getStartMark().orElseThrow(YamlText::unplaced);
    }

    private static UneditableException unplaced() {
        return new UneditableException("the file cannot be changed from here");
    }
}
