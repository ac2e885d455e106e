package traytender.config.folder;

import java.math.BigDecimal;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.api.lowlevel.Compose;
import org.snakeyaml.engine.v2.common.FlowStyle;
import org.snakeyaml.engine.v2.exceptions.Mark;
import org.snakeyaml.engine.v2.exceptions.YamlEngineException;
import org.snakeyaml.engine.v2.nodes.MappingNode;
import org.snakeyaml.engine.v2.nodes.Node;
import org.snakeyaml.engine.v2.nodes.NodeTuple;
import org.snakeyaml.engine.v2.nodes.ScalarNode;
import org.snakeyaml.engine.v2.nodes.SequenceNode;
import org.snakeyaml.engine.v2.schema.CoreSchema;
import traytender.config.crop.Crop;
import traytender.config.crop.LimitKey;
import traytender.config.crop.Stage;

/**
 * Changes single limits in a crop file's text and leaves every other character as it was, comments and layout included. What
 * comes out is to be read and compared before it is used: a file may be laid out in a way (aliases, several documents) in which
 * one number cannot be changed alone.
 */
public final class CropFileEdit {
    private CropFileEdit() {}

    /**
     * The text with limits of a crop set.
     *
     * @param text the crop's file; empty where there is none yet
     * @param crop with the limits in force, for the other half of a pair that stands in no file yet
     * @param changes new values by stage
     * @throws UneditableException when the text is not laid out as a crop file is
     */
    public static String set(String text, Crop crop, Map<Stage, Map<LimitKey, Double>> changes) {
        String edited = text.isBlank() ? "crop: " + crop.name() + "\n" : text;
        // What is new is put at the head, so the last comes first.
        for (var ofStage : new TreeMap<>(changes).descendingMap().entrySet()) {
            for (var change : new TreeMap<>(ofStage.getValue()).descendingMap().entrySet()) {
                edited = set(edited, crop, ofStage.getKey(), change.getKey(), change.getValue());
            }
        }
        return edited;
    }

    private static String set(String text, Crop crop, Stage stage, LimitKey key, double value) {
        MappingNode root = root(text);
        Optional<Node> stages = find(root, "stages");
        if (stages.isEmpty()) {
            String block = "stages:\n  " + stage.word() + ":\n    " + line(crop, stage, key, value) + "\n";
            return (text.endsWith("\n") ? text : text + "\n") + block;
        }
        if (!(stages.get() instanceof MappingNode mapping)) {
            throw new UneditableException("stages holds no block of keys in the file; write it by hand");
        }
        Optional<Node> ofStage = find(mapping, stage.word());
        if (ofStage.isEmpty()) {
            String line = line(crop, stage, key, value);
            return insert(
                    text,
                    mapping,
                    stage.word(),
                    mapping.getFlowStyle() == FlowStyle.FLOW ? "{" + line + "}" : "\n" + line);
        }
        if (!(ofStage.get() instanceof MappingNode limits)) {
            throw new UneditableException(stage.word() + " holds no block of keys in the file; write it by hand");
        }
        String word = CropReading.wordInFile(key);
        Optional<Node> given = find(limits, word);
        if (given.isEmpty()) {
            return insert(text, limits, word, whole(crop, stage, key, value));
        }
        return replace(text, leaf(given.get(), key), number(value));
    }

    private static Node leaf(Node given, LimitKey key) {
        if (given instanceof SequenceNode pair && pair.getValue().size() == 2) {
            return pair.getValue().get(key == LimitKey.ROOT_TARGET_LOW ? 0 : 1);
        }
        if (given instanceof MappingNode map) {
            String part = key == LimitKey.DAMP_AIR_HUMIDITY ? "humidity" : "hours";
            return find(map, part)
                    .orElseThrow(() -> new UneditableException("damp-air names no " + part + "; write it by hand"));
        }
        return given;
    }

    private static String line(Crop crop, Stage stage, LimitKey key, double value) {
        return CropReading.wordInFile(key) + ": " + whole(crop, stage, key, value);
    }

    /** What stands in a file for a limit: pairs stand as a whole. */
    private static String whole(Crop crop, Stage stage, LimitKey key, double value) {
        var now = crop.limits(stage).with(Map.of(key, value));
        return switch (key) {
            case ROOT_TARGET_LOW, ROOT_TARGET_HIGH ->
                "[" + number(now.rootTargetLow()) + ", " + number(now.rootTargetHigh()) + "]";
            case DAMP_AIR_HUMIDITY, DAMP_AIR_HOURS ->
                "{humidity: " + number(now.dampAirHumidity()) + ", hours: " + number(now.dampAirHours()) + "}";
            default -> number(value);
        };
    }

    private static String number(double value) {
        String plain = BigDecimal.valueOf(value).stripTrailingZeros().toPlainString();
        return plain.equals("-0") ? "0" : plain;
    }

    private static MappingNode root(String text) {
        var settings = LoadSettings.builder()
                .setSchema(new CoreSchema())
                .setLabel("crop file")
                .build();
        try {
            if (new Compose(settings).composeString(text).orElse(null) instanceof MappingNode root
                    && root.getFlowStyle() == FlowStyle.BLOCK) {
                return root;
            }
        } catch (YamlEngineException e) {
            throw new UneditableException("the file is no YAML: " + e.getMessage());
        }
        throw new UneditableException("the file does not hold one block of keys; write it by hand");
    }

    private static Optional<Node> find(MappingNode mapping, String key) {
        return tuple(mapping, key).map(NodeTuple::getValueNode);
    }

    private static Optional<NodeTuple> tuple(MappingNode mapping, String key) {
        return mapping.getValue().stream()
                .filter(tuple -> tuple.getKeyNode() instanceof ScalarNode scalar
                        && scalar.getValue().equals(key))
                .findFirst();
    }

    private static String replace(String text, Node node, String value) {
        if (!(node instanceof ScalarNode)) {
            throw new UneditableException("a limit is not one number in the file; write it by hand");
        }
        return text.substring(0, offset(text, node.getStartMark()))
                + value
                + text.substring(offset(text, node.getEndMark().or(node::getStartMark)));
    }

    /** Puts a key at the head of a mapping, in the mapping's own layout; a value that begins with a line break goes beneath its key. */
    private static String insert(String text, MappingNode mapping, String key, String value) {
        if (mapping.getFlowStyle() == FlowStyle.FLOW) {
            int at = offset(text, mapping.getStartMark()) + 1;
            return text.substring(0, at) + key + ": " + value
                    + (mapping.getValue().isEmpty() ? "" : ", ") + text.substring(at);
        }
        Mark first = mark(mapping.getValue().get(0).getKeyNode().getStartMark());
        int lineStart = offset(text, first) - first.getColumn();
        String indent = " ".repeat(first.getColumn());
        String put = value.startsWith("\n") ? ":\n" + indent + "  " + value.substring(1) : ": " + value;
        return text.substring(0, lineStart) + indent + key + put + "\n" + text.substring(lineStart);
    }

    private static Mark mark(Optional<Mark> mark) {
        return mark.orElseThrow(() -> new UneditableException("the file cannot be changed from here"));
    }

    /** Marks count code points. */
    private static int offset(String text, Optional<Mark> mark) {
        return offset(text, mark(mark));
    }

    private static int offset(String text, Mark mark) {
        return text.offsetByCodePoints(0, mark.getIndex());
    }
}
