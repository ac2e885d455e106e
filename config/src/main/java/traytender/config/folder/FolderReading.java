package traytender.config.folder;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.snakeyaml.engine.v2.nodes.Node;
import traytender.config.crop.Crops;
import traytender.config.site.Site;

/** Reads a folder's files together, since they refer to each other. */
final class FolderReading {
    static final String SITE = "site.yaml";
    private static final String CROPS = "crops";

    private FolderReading() {}

    static SiteFolder read(Path folder, @Nullable Path override) {
        return read(folder, override, problems -> siteFile(folder, problems));
    }

    /** The folder as it would be with another {@code site.yaml}. */
    static SiteFolder readWith(Path folder, String siteYaml) {
        return read(folder, null, problems -> YamlFile.read(siteYaml, SITE, problems));
    }

    private static SiteFolder read(Path folder, @Nullable Path override, Function<Problems, @Nullable Node> siteFile) {
        var problems = new Problems();
        var cropFiles = cropFiles(folder, override, problems);
        Site site = site(siteFile.apply(problems), cropFiles, problems);
        problems.runChecks();
        if (site == null || problems.any()) {
            throw new SiteFolderException(problems.inOrder());
        }
        return new SiteFolder(folder, site, cropFiles.crops());
    }

    static Crops crops(@Nullable Path siteFolder, @Nullable Path override) {
        var problems = new Problems();
        var cropFiles = cropFiles(siteFolder, override, problems);
        problems.runChecks();
        if (problems.any()) {
            throw new SiteFolderException(problems.inOrder());
        }
        return cropFiles.crops();
    }

    private static @Nullable Node siteFile(Path folder, Problems problems) {
        if (!Files.isDirectory(folder)) {
            problems.add(
                    SITE,
                    1,
                    1,
                    "there is no folder " + folder,
                    "name the folder that holds site.yaml, or make one: \"traytender new DIR\"");
            return null;
        }
        return YamlFile.read(folder.resolve(SITE), SITE, problems);
    }

    private static @Nullable Site site(@Nullable Node root, CropFiles cropFiles, Problems problems) {
        if (root == null) {
            return null;
        }
        var names = new SiteNames();
        cropFiles.name(names, new Field(root, SITE, "a crop", problems));
        return SiteDocument.read(root, SITE, names, problems);
    }

    private static CropFiles cropFiles(@Nullable Path siteFolder, @Nullable Path override, Problems problems) {
        var files = new CropFiles(problems);
        if (siteFolder != null) {
            files.lay(siteFolder.resolve(CROPS), CROPS + "/");
        }
        if (override != null) {
            layOverride(files, override, problems);
        }
        return files;
    }

    /** The folder itself holds the files, or it is laid out as a site folder is. */
    private static void layOverride(CropFiles files, Path override, Problems problems) {
        if (!Files.isDirectory(override)) {
            problems.add(override.toString(), 1, 1, "there is no such folder", "name a folder with crop files");
            return;
        }
        files.lay(override, override + "/");
        files.lay(override.resolve(CROPS), override + "/" + CROPS + "/");
    }
}
