package traytender.config.crop;

import java.util.Map;
import java.util.Optional;

/** Every crop of a site by its name: the built-in ones, with the site's own files laid over them. Immutable. */
public record Crops(Map<String, Crop> byName) {
    public Crops {
        byName = Map.copyOf(byName);
    }

    public Optional<Crop> find(String name) {
        return Optional.ofNullable(byName.get(name));
    }

    /**
     * The crop of a sowing.
     *
     * @throws IllegalArgumentException when there is none of that name, which the site reader does not let happen
     */
    public Crop get(String name) {
        return find(name).orElseThrow(() -> new IllegalArgumentException("no crop named " + name));
    }
}
