package traytender.config.folder;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.snakeyaml.engine.v2.api.Load;
import org.snakeyaml.engine.v2.api.LoadSettings;

/** What the source ids of the built-in crops stand for. */
public final class CropSources {
    private CropSources() {}

    /**
     * A citation on one line by source id, such as {@code S06}, and by the words {@code our choice}, {@code practice}, {@code
     * computed from} and {@code memory}; in the order of the file.
     */
    public static Map<String, String> citations() {
        try (InputStream in = CropSources.class.getResourceAsStream("library/sources.yaml")) {
            Object loaded = new Load(LoadSettings.builder().build()).loadFromInputStream(Objects.requireNonNull(in));
            var citations = new LinkedHashMap<String, String>();
            ((Map<?, ?>) loaded).forEach((id, entry) -> citations.put(String.valueOf(id), cite((Map<?, ?>) entry)));
            return Collections.unmodifiableMap(citations);
        } catch (IOException broken) {
            throw new UncheckedIOException(broken);
        }
    }

    private static String cite(Map<?, ?> entry) {
        return Stream.of("who", "title", "year", "table", "address", "means")
                .map(entry::get)
                .filter(Objects::nonNull)
                .map(String::valueOf)
                .collect(Collectors.joining("; "));
    }
}
