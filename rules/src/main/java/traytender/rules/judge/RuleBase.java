package traytender.rules.judge;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import org.drools.model.Model;
import org.drools.modelcompiler.KieBaseBuilder;
import org.kie.api.KieBase;
import org.kie.api.runtime.KieSession;

/**
 * The rules as the build compiled them, loaded directly: the only class that knows how Drools is started. Without a {@code
 * kmodule.xml} the start takes less than half as long and needs no XML parser.
 *
 * <p>Safe to use from any thread; a session belongs to the thread that asked for it.
 */
final class RuleBase {
    /** Written by the build: the names of the generated classes. */
    private static final String NAMES = "META-INF/kie/traytender/rules/drools-model";

    private RuleBase() {}

    /** A new session with nothing in it; close it with {@code dispose()}, or its rule base keeps it. */
    static KieSession session() {
        return Holder.BASE.newKieSession();
    }

    private static KieBase load() {
        ClassLoader loader = RuleBase.class.getClassLoader();
        Collection<Model> models = new ArrayList<>();
        for (String name : names(loader)) {
            try {
                models.add(Class.forName(name, true, loader)
                        .asSubclass(Model.class)
                        .getDeclaredConstructor()
                        .newInstance());
            } catch (ReflectiveOperationException e) {
                throw new IllegalStateException("generated rules " + name + " cannot be loaded", e);
            }
        }
        return KieBaseBuilder.createKieBaseFromModel(models);
    }

    private static List<String> names(ClassLoader loader) {
        try (InputStream in = loader.getResourceAsStream(NAMES)) {
            if (in == null) {
                throw new IllegalStateException(NAMES
                        + " is not on the class path.\nMaybe the rules module was compiled without its Maven build.");
            }
            try (var lines = new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8))) {
                return lines.lines()
                        .filter(line -> !line.isBlank() && !line.startsWith("Drools-Model-Version"))
                        .toList();
            }
        } catch (IOException e) {
            throw new UncheckedIOException(NAMES + " cannot be read", e);
        }
    }

    private static final class Holder {
        private static final KieBase BASE = load();
    }
}
