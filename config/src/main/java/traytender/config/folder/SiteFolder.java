package traytender.config.folder;

import java.nio.file.Path;
import traytender.config.crop.Crops;
import traytender.config.site.Site;

/**
 * A site folder that was read without an error.
 *
 * @param path the folder
 * @param site what {@code site.yaml} says
 * @param crops the built-in crops with the folder's {@code crops/*.yaml} laid over them
 */
public record SiteFolder(Path path, Site site, Crops crops) {
    /** Where the program keeps what it makes. */
    public Path data() {
        return path.resolve("data");
    }
}
