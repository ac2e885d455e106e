package traytender.config.folder;

import java.util.HashMap;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.snakeyaml.engine.v2.exceptions.Mark;

/** The names a file gives to things of one kind, each once, and the references to them. */
final class Names<T> {
    private final String kind;
    private final Map<String, Field> places = new HashMap<>();
    private final Map<String, T> things = new HashMap<>();

    Names(String kind) {
        this.kind = kind;
    }

    /** Notes a name, or the error that it stands twice. */
    void add(String name, Field place) {
        Field first = places.putIfAbsent(name, place);
        if (first != null) {
            int line = first.node().getStartMark().map(Mark::getLine).orElse(0) + 1;
            place.wrong(
                    "the " + kind + " " + place.shown() + " is there already, in line " + line,
                    "give each " + kind + " a name of its own");
        }
    }

    /** Notes what the name stands for, once it is read. */
    void define(String name, T thing) {
        things.putIfAbsent(name, thing);
    }

    Map<String, T> things() {
        return things;
    }

    Set<String> all() {
        return places.keySet();
    }

    /** Checks a reference once the whole file is read. */
    void refer(String name, Field place) {
        place.problems().later(() -> {
            if (!places.containsKey(name)) {
                place.wrong(
                        "there is no " + kind + " " + place.shown(),
                        Nearest.to(name, places.keySet())
                                .map(near -> "did you mean \"" + near + "\"?")
                                .orElseGet(() -> places.isEmpty()
                                        ? "the file names no " + kind
                                        : "right are "
                                                + places.keySet().stream()
                                                        .sorted()
                                                        .limit(10)
                                                        .collect(Collectors.joining(", "))));
            }
        });
    }
}
