package traytender.config.folder;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.snakeyaml.engine.v2.exceptions.Mark;
import org.snakeyaml.engine.v2.nodes.Node;

/** Every error found so far in a folder, and what can only be checked once all of it is read. <b>Not threadsafe.</b> */
final class Problems {
    /** Beyond this a file is another file, and a list of its errors helps nobody. */
    static final int MOST = 10_000;

    private static final Comparator<SiteError> IN_ORDER = Comparator.comparing(SiteError::file)
            .thenComparingInt(SiteError::line)
            .thenComparingInt(SiteError::column)
            .thenComparing(SiteError::wrong);

    private final Set<SiteError> errors = new LinkedHashSet<>();
    private final List<Runnable> checks = new ArrayList<>();

    void add(String file, int line, int column, String wrong, String right) {
        if (errors.size() < MOST) {
            errors.add(new SiteError(file, line, column, wrong, right));
        }
    }

    void add(String file, Mark mark, String wrong, String right) {
        add(file, mark.getLine() + 1, mark.getColumn() + 1, wrong, right);
    }

    void add(String file, Node node, String wrong, String right) {
        node.getStartMark().ifPresentOrElse(mark -> add(file, mark, wrong, right), () -> add(file, 1, 1, wrong, right));
    }

    /** Notes a check that needs the rest of the folder. */
    void later(Runnable check) {
        checks.add(check);
    }

    /** Runs the noted checks, and those that they note. */
    void runChecks() {
        for (int i = 0; i < checks.size(); i++) {
            checks.get(i).run();
        }
        checks.clear();
    }

    boolean any() {
        return !errors.isEmpty();
    }

    /** In order of file and place. */
    List<SiteError> inOrder() {
        return errors.stream().sorted(IN_ORDER).toList();
    }
}
