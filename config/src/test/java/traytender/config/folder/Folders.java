package traytender.config.folder;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

/** Site folders for tests. */
final class Folders {
    /** The least a site can say. */
    static final String LEAST = """
            site: Alder Lane Nursery
            timezone: Europe/Dublin
            rooms:
              - {id: propagation, kind: indoors}
            """;

    /** A tray in that room, without its sowings. */
    static final String TRAY = """
            trays:
              - id: T01
                room: propagation
                cells: {rows: 8, columns: 16}
            """;

    private Folders() {}

    static Path write(Path folder, String file, String text) {
        try {
            Path target = folder.resolve(file);
            Files.createDirectories(target.getParent());
            return Files.writeString(target, text);
        } catch (IOException broken) {
            throw new UncheckedIOException(broken);
        }
    }

    static SiteFolder read(Path folder, String siteYaml) {
        write(folder, "site.yaml", siteYaml);
        return SiteReader.read(folder);
    }

    /** The errors of a folder as they are printed; empty when it has none. */
    static List<String> errors(Path folder) {
        try {
            SiteReader.read(folder);
            return List.of();
        } catch (SiteFolderException wrong) {
            return wrong.errors().stream().map(SiteError::toString).toList();
        }
    }

    static List<String> errors(Path folder, String siteYaml) {
        write(folder, "site.yaml", siteYaml);
        return errors(folder);
    }
}
