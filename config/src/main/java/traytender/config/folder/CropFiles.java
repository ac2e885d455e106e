package traytender.config.folder;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.snakeyaml.engine.v2.nodes.Node;
import traytender.config.crop.Crop;
import traytender.config.crop.Crops;

/** Lays crop files over the built-in crops, folder by folder. <b>Not threadsafe.</b> */
final class CropFiles {
    private final Problems problems;
    private final Map<String, CropDraft> drafts = new LinkedHashMap<>();
    private final Map<String, Crop> finished = new HashMap<>();

    CropFiles(Problems problems) {
        this.problems = problems;
        CropLibrary.all().forEach((name, builtIn) -> {
            drafts.put(name, builtIn.draft());
            finished.put(name, builtIn.crop());
        });
    }

    /**
     * Lays a folder's files over what there is; a folder that does not exist has none.
     *
     * @param shownAs the folder's name in errors, empty or ending in a slash
     */
    void lay(Path folder, String shownAs) {
        var files = new LinkedHashMap<String, Path>();
        for (Path file : yamlFiles(folder, shownAs)) {
            String name = file.getFileName().toString().replaceFirst("\\.ya?ml$", "");
            if (files.putIfAbsent(name, file) != null) {
                problems.add(
                        shownAs + file.getFileName(), 1, 1, "the crop " + name + " has two files", "keep one of them");
            }
        }
        var likes = new LinkedHashMap<String, Field>();
        var read = new LinkedHashMap<String, CropDraft>();
        files.forEach((name, file) -> {
            CropDraft draft = draft(file, shownAs + file.getFileName(), name, like -> likes.put(name, like));
            if (draft != null) {
                read.put(name, draft);
            }
        });
        var before = Map.copyOf(drafts);
        read.forEach((name, draft) -> lay(name, draft, likes.get(name), before));
    }

    private @Nullable CropDraft draft(Path file, String shown, String name, Consumer<Field> like) {
        Node root = YamlFile.read(file, shown, problems);
        if (root == null) {
            return null;
        }
        CropDraft draft = CropReading.read(root, shown, name, problems, like);
        if (draft != null) {
            ownSources(draft, shown);
        }
        return draft;
    }

    /** A number that a site's own file gives rests on that file, unless it names a source itself. */
    private static void ownSources(CropDraft draft, String shown) {
        draft.stages.forEach((stage, limits) ->
                limits.keySet().forEach(key -> draft.sources.putIfAbsent(stage.word() + "/" + key.word(), shown)));
        if (draft.pottedUp != null) {
            draft.sources.putIfAbsent("potted-up", shown);
        }
        if (draft.plantOutWeeks != null) {
            draft.sources.putIfAbsent("plant-out-weeks", shown);
        }
        if (draft.emergence != null) {
            draft.sources.putIfAbsent("emergence", shown);
        }
        if (draft.trueLeafDegreeDays != null) {
            draft.sources.putIfAbsent("true-leaf-degree-days", shown);
        }
    }

    private void lay(String name, CropDraft draft, @Nullable Field like, Map<String, CropDraft> before) {
        CropDraft base = before.get(name);
        if (like != null) {
            String likeName = like.text();
            base = likeName == null ? base : before.get(likeName);
            if (likeName != null && base == null) {
                like.wrong(
                        "there is no built-in crop " + like.shown() + " to begin with",
                        Nearest.to(likeName, before.keySet())
                                .map(near -> "did you mean \"" + near + "\"?")
                                .orElse("right are " + String.join(", ", CropLibrary.NAMES)));
                drafts.putIfAbsent(name, draft);
                return;
            }
        }
        CropDraft whole = base == null ? draft : draft.over(base);
        drafts.put(name, whole);
        Crop crop = whole.finish();
        if (crop != null) {
            finished.put(name, crop);
        }
    }

    private List<Path> yamlFiles(Path folder, String shownAs) {
        if (!Files.isDirectory(folder)) {
            return List.of();
        }
        try (Stream<Path> files = Files.list(folder)) {
            return files.filter(file -> file.getFileName().toString().matches("(?!\\.).*\\.ya?ml"))
                    .sorted()
                    .toList();
        } catch (IOException broken) {
            problems.add(shownAs, 1, 1, "cannot be listed: " + broken.getMessage(), "make it readable");
            return List.of();
        }
    }

    /** Every name that stands for a crop, those with errors too: a reference to one of them is no further error. */
    void name(SiteNames names, Field place) {
        drafts.keySet().forEach(name -> names.crops.add(name, place));
    }

    Crops crops() {
        return new Crops(finished);
    }
}
