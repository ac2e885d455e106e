package traytender.dashboard.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/** What a browser needs for the start page is named in the page itself: none of it waits for another file to ask for it. */
class WebFilesTest {
    private static final Pattern IMPORT = Pattern.compile("^import [^;]*? from \"([^\"]+)\";", Pattern.MULTILINE);
    private static final Pattern PRELOAD = Pattern.compile("<link rel=\"modulepreload\" href=\"/web/([^\"]+)\">");

    @Test
    void startPage_namesEveryModuleItNeedsAndNoOther() {
        List<String> named = PRELOAD.matcher(WebFiles.text("index.html"))
                .results()
                .map(found -> found.group(1))
                .toList();

        Set<String> needed = importedFrom("app.js", "views/todo.js");
        needed.remove("app.js");
        assertThat(named).containsExactlyInAnyOrderElementsOf(needed);
        assertThat(named).contains("words.js", "ramp.js").doesNotContain("views/limits.js");
    }

    /** These modules, and all they import, and what those import. */
    private static Set<String> importedFrom(String... modules) {
        var found = new TreeSet<String>();
        var toRead = new ArrayDeque<>(List.of(modules));
        while (!toRead.isEmpty()) {
            String module = toRead.poll();
            if (found.add(module)) {
                IMPORT.matcher(WebFiles.text(module))
                        .results()
                        .map((MatchResult line) -> Path.of(module)
                                .resolveSibling(line.group(1))
                                .normalize()
                                .toString())
                        .forEach(toRead::add);
            }
        }
        return found;
    }
}
