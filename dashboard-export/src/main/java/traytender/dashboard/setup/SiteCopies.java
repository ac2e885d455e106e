package traytender.dashboard.setup;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import traytender.dashboard.record.Json;
import traytender.ingest.file.AtomicFile;

/**
 * Copies of the site folder's files from before each change, with who changed what: {@code data/site-copies/NUMBER-TIME/} holds
 * {@code site.yaml}, {@code notices.yaml}, {@code crops/} and {@code change.json}. Passwords and keys are not copied, so that none
 * lives on that was taken away. A copy without its {@code change.json} was not finished and does not count.
 */
final class SiteCopies {
    private static final ObjectMapper MAPPER = new ObjectMapper();
    private static final DateTimeFormatter NAME =
            DateTimeFormatter.ofPattern("uuuuMMdd'T'HHmmss'Z'", Locale.ROOT).withZone(ZoneOffset.UTC);
    private static final String CHANGE = "change.json";
    /** The oldest go beyond this; our choice. */
    private static final int MOST = 1_000;

    private final Path site;
    private final Path copies;

    SiteCopies(Path site, Path data) {
        this.site = site;
        this.copies = data.resolve("site-copies");
    }

    /** Every change, the oldest first. */
    List<SiteChange> changes(String version) {
        var changes = new ArrayList<SiteChange>();
        for (Path copy : folders()) {
            read(copy, version, changes);
        }
        return changes;
    }

    private static void read(Path copy, String version, List<SiteChange> changes) {
        Path file = copy.resolve(CHANGE);
        if (!Files.exists(file)) {
            return;
        }
        try {
            JsonNode json = MAPPER.readTree(file.toFile());
            String after = json.path("after").asText();
            changes.add(new SiteChange(
                    json.path("number").asInt(),
                    Instant.parse(json.path("at").asText()),
                    json.path("who").asText(),
                    json.path("what").asText(),
                    after,
                    after.equals(version) && Files.exists(copy.resolve(SiteDesk.SITE))));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** The site's file as it was before a change; empty when there was none. */
    String siteBefore(int number) throws IOException {
        for (Path copy : folders()) {
            if (numberOf(copy) == number) {
                Path file = copy.resolve(SiteDesk.SITE);
                return Files.exists(file) ? Files.readString(file) : "";
            }
        }
        return "";
    }

    /** Copies the files as they are now, before they change. */
    void keep(Instant at, String who, String what, String after) throws IOException {
        List<Path> before = folders();
        int number = before.isEmpty() ? 1 : numberOf(before.get(before.size() - 1)) + 1;
        Path copy = Files.createDirectories(copies.resolve(String.format("%06d-%s", number, NAME.format(at))));
        for (Path file : files()) {
            Path to = copy.resolve(site.relativize(file).toString());
            Files.createDirectories(to.getParent());
            Files.copy(file, to);
        }
        var json = Json.object();
        json.put("number", number)
                .put("at", Json.text(at))
                .put("who", who)
                .put("what", what)
                .put("after", after);
        AtomicFile.write(copy.resolve(CHANGE), out -> out.write(Json.write(json) + "\n"));
        for (Path old : before.subList(0, Math.max(0, before.size() + 1 - MOST))) {
            remove(old);
        }
    }

    private List<Path> files() throws IOException {
        var files = new ArrayList<Path>();
        for (String name : List.of(SiteDesk.SITE, "notices.yaml")) {
            if (Files.isRegularFile(site.resolve(name))) {
                files.add(site.resolve(name));
            }
        }
        if (Files.isDirectory(site.resolve("crops"))) {
            try (Stream<Path> crops = Files.list(site.resolve("crops"))) {
                files.addAll(crops.filter(Files::isRegularFile).toList());
            }
        }
        return files;
    }

    private List<Path> folders() {
        if (!Files.isDirectory(copies)) {
            return List.of();
        }
        try (Stream<Path> all = Files.list(copies)) {
            return all.filter(copy -> numberOf(copy) > 0).sorted().toList();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static int numberOf(Path copy) {
        String name = copy.getFileName().toString();
        return name.matches("\\d{6}-.*") ? Integer.parseInt(name.substring(0, 6)) : 0;
    }

    private static void remove(Path copy) throws IOException {
        try (Stream<Path> all = Files.walk(copy)) {
            for (Path one : all.sorted((a, b) -> b.compareTo(a)).toList()) {
                Files.delete(one);
            }
        }
    }
}
