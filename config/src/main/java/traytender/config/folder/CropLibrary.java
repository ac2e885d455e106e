package traytender.config.folder;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Collectors;
import org.snakeyaml.engine.v2.nodes.Node;
import traytender.config.crop.Crop;

/**
 * The crops that come with the program, from the files beside this class: {@code common.yaml} holds what is the same for all
 * of them, each crop's own file the rest, and {@code sources.yaml} what the source ids stand for. Read once.
 */
final class CropLibrary {
    private static final String FOLDER = "library/";

    /** Names of the built-in crops. */
    static final List<String> NAMES = List.of(
            "asparagus",
            "basil",
            "beet",
            "broccoli",
            "brussels-sprouts",
            "cabbage",
            "cauliflower",
            "celery",
            "chard",
            "cucumber",
            "eggplant",
            "endive",
            "kale",
            "kohlrabi",
            "leek",
            "lettuce",
            "melon",
            "okra",
            "onion",
            "parsley",
            "pepper",
            "pumpkin",
            "spinach",
            "squash",
            "sweet-corn",
            "tomato",
            "watermelon");

    /** A crop as drafted, to lay a site's own file over, and whole. */
    record BuiltIn(CropDraft draft, Crop crop) {}

    private CropLibrary() {}

    /** By name. */
    static Map<String, BuiltIn> all() {
        return Loaded.ALL;
    }

    private static final class Loaded {
        static final Map<String, BuiltIn> ALL = load();
    }

    /** On every processor, since a start waits for it. */
    private static Map<String, BuiltIn> load() {
        CropDraft common = draft("common");
        return NAMES.parallelStream()
                .map(name -> whole(draft(name).over(common)))
                .collect(Collectors.toUnmodifiableMap(builtIn -> builtIn.crop().name(), builtIn -> builtIn));
    }

    private static BuiltIn whole(CropDraft draft) {
        return new BuiltIn(draft, Objects.requireNonNull(draft.finish(), "a built-in crop lacks limits"));
    }

    private static CropDraft draft(String name) {
        var problems = new Problems();
        String file = FOLDER + name + ".yaml";
        try (InputStream in = CropLibrary.class.getResourceAsStream(file)) {
            if (in == null) {
                throw new IllegalStateException("the program lacks its file " + file);
            }
            Node root = YamlFile.read(in, file, problems);
            CropDraft draft = root == null
                    ? null
                    : CropReading.read(root, file, name, problems, like -> like.wrong("like", "leave it out"));
            if (draft == null || problems.any()) {
                throw new SiteFolderException(problems.inOrder());
            }
            return draft;
        } catch (IOException broken) {
            throw new UncheckedIOException(broken);
        }
    }
}
