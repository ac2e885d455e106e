package traytender.config.folder;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
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

        private static Map<String, BuiltIn> load() {
            var problems = new Problems();
            CropDraft common = draft("common", problems);
            var all = new LinkedHashMap<String, BuiltIn>();
            for (String name : NAMES) {
                CropDraft draft = draft(name, problems).over(common);
                Crop crop = draft.finish();
                if (crop != null) {
                    all.put(name, new BuiltIn(draft, crop));
                }
            }
            if (problems.any()) {
                throw new SiteFolderException(problems.inOrder());
            }
            return Map.copyOf(all);
        }

        private static CropDraft draft(String name, Problems problems) {
            String file = FOLDER + name + ".yaml";
            try (InputStream in = CropLibrary.class.getResourceAsStream(file)) {
                if (in == null) {
                    throw new IllegalStateException("the program lacks its file " + file);
                }
                Node root = YamlFile.read(in, file, problems);
                CropDraft draft = root == null
                        ? null
                        : CropReading.read(root, file, name, problems, like -> like.wrong("like", "leave it out"));
                if (draft == null) {
                    throw new SiteFolderException(problems.inOrder());
                }
                return draft;
            } catch (IOException broken) {
                throw new UncheckedIOException(broken);
            }
        }
    }
}
