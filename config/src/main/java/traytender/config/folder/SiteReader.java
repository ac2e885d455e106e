package traytender.config.folder;

import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import traytender.config.crop.Crops;
import traytender.config.notice.NoticeSettings;

/** Reads a site folder. */
public final class SiteReader {
    private SiteReader() {}

    /**
     * Reads {@code site.yaml} and {@code crops/*.yaml} of a folder.
     *
     * @throws SiteFolderException with every error found
     */
    public static SiteFolder read(Path folder) {
        return FolderReading.read(folder, null);
    }

    /**
     * Reads a folder with the crops of another folder in place of its own, as {@code replay --crops} does.
     *
     * @throws SiteFolderException with every error found
     */
    public static SiteFolder read(Path folder, @Nullable Path crops) {
        return FolderReading.read(folder, crops);
    }

    /**
     * Reads a folder as it would be with another {@code site.yaml}; nothing is written.
     *
     * @throws SiteFolderException with every error found
     */
    public static SiteFolder readWith(Path folder, String siteYaml) {
        return FolderReading.readWith(folder, siteYaml);
    }

    /**
     * Reads {@code notices.yaml} of a folder; without that file nobody hears of anything.
     *
     * @throws SiteFolderException with every error found
     */
    public static NoticeSettings notices(Path folder) {
        return NoticesReading.read(folder);
    }

    /**
     * The built-in crops with a site's own laid over them, key by key, and over these the files of yet another folder.
     *
     * @param siteFolder the site folder, whose {@code crops/*.yaml} are read; null for none
     * @param override a folder with crop files of its own directly in it; null for none
     * @throws SiteFolderException with every error found
     */
    public static Crops crops(@Nullable Path siteFolder, @Nullable Path override) {
        return FolderReading.crops(siteFolder, override);
    }
}
