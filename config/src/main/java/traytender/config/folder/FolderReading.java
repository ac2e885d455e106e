package traytender.config.folder;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import traytender.config.crop.Crops;

/** Reads a folder's files. */
final class FolderReading {
    private FolderReading() {}

    @SuppressWarnings("DoNotCallSuggester") // until the reader lands
    static SiteFolder read(Path folder, @Nullable Path crops) {
        throw new SiteFolderException(List.of(new SiteError(folder + " " + crops, 1, 1, "", "")));
    }

    static Crops crops(@Nullable Path siteFolder, @Nullable Path override) {
        return new Crops(Map.of());
    }
}
