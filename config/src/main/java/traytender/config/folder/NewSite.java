package traytender.config.folder;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import traytender.config.site.Broker;
import traytender.config.site.Messages;
import traytender.config.site.Show;
import traytender.config.site.Site;
import traytender.config.site.StoreSettings;

/** A commented site folder to begin with. */
public final class NewSite {
    private static final String TIMEZONE = "timezone: UTC";
    /** What the program or its user puts beside the site's file. */
    private static final Set<String> OWN = Set.of("data", "passwords", "page.password", "schema", "lost+found");

    private NewSite() {}

    /** The commented {@code site.yaml}; read back, it has no error. */
    public static String siteYaml() {
        return resource("new/site.yaml");
    }

    /**
     * The commented {@code site.yaml} for a time zone.
     *
     * @param zone an IANA zone; one of another kind, such as an offset, is left out
     */
    public static String siteYaml(ZoneId zone) {
        return isNamed(zone) ? siteYaml().replace(TIMEZONE, "timezone: " + zone.getId()) : siteYaml();
    }

    private static boolean isNamed(ZoneId zone) {
        return ZoneId.getAvailableZoneIds().contains(zone.getId());
    }

    /** Every file of a new folder, by its path relative to it. */
    public static Map<String, String> files(ZoneId zone) {
        var files = new LinkedHashMap<String, String>();
        files.put(FolderReading.SITE, siteYaml(zone));
        files.put("crops/README.md", resource("new/crops.md"));
        files.put("schema/site.schema.json", resource("/schema/site.schema.json"));
        files.put("schema/crop.schema.json", resource("/schema/crop.schema.json"));
        return files;
    }

    /**
     * Writes a new folder.
     *
     * @return the files written
     * @throws FileAlreadyExistsException when the folder has a {@code site.yaml} already; nothing is written then
     * @throws IOException when it cannot be written
     */
    public static List<Path> write(Path folder, ZoneId zone) throws IOException {
        Path site = folder.resolve(FolderReading.SITE);
        if (Files.exists(site)) {
            throw new FileAlreadyExistsException(site.toString());
        }
        var written = new ArrayList<Path>();
        for (Map.Entry<String, String> file : files(zone).entrySet()) {
            Path target = folder.resolve(file.getKey());
            Files.createDirectories(target.toAbsolutePath().getParent());
            written.add(Files.writeString(target, file.getValue()));
        }
        return List.copyOf(written);
    }

    /**
     * Whether a folder is one to begin in: there is none yet, or nothing in it but what the program itself keeps there.
     */
    public static boolean isBeginning(Path folder) {
        if (!Files.exists(folder)) {
            return true;
        }
        if (!Files.isDirectory(folder)) {
            return false;
        }
        try (Stream<Path> all = Files.list(folder)) {
            return all.map(file -> file.getFileName().toString())
                    .allMatch(name -> name.startsWith(".") || OWN.contains(name));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /**
     * A site that no file describes yet, without rooms. It is all there is to run with until the grower has said more.
     *
     * @param zone the clock until then; UTC in place of a mere offset, which browsers do not know
     * @param port where the built-in broker takes messages, on this machine alone
     */
    public static SiteFolder unwritten(Path folder, ZoneId zone, int port) {
        var messages = new Messages(new Broker.BuiltIn("127.0.0.1", port), MessagesReading.BUILT_IN.prefix());
        var site = new Site(
                "Your site",
                isNamed(zone) ? zone : ZoneId.of("UTC"),
                null,
                Show.USUAL,
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                messages,
                new StoreSettings(null, null),
                null,
                SiteDocument.MORNING_ROUND);
        return new SiteFolder(folder, site, SiteReader.crops(null, null));
    }

    private static String resource(String name) {
        try (InputStream in = NewSite.class.getResourceAsStream(name)) {
            if (in == null) {
                throw new IllegalStateException("the program lacks its file " + name);
            }
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException broken) {
            throw new UncheckedIOException(broken);
        }
    }
}
