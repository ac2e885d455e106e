package traytender.dashboard.program;

import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.function.Consumer;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import traytender.dashboard.page.BenchFacts.Change;
import traytender.dashboard.page.BenchFacts.Subscription;

/** Everybody who wants to hear of changes. <b>Safe from any thread.</b> */
final class Listeners {
    private static final Logger log = LoggerFactory.getLogger(Listeners.class);

    private final List<Consumer<Change>> listeners = new CopyOnWriteArrayList<>();

    Subscription add(Consumer<Change> listener) {
        listeners.add(listener);
        return () -> listeners.remove(listener);
    }

    void tell(Change change) {
        for (Consumer<Change> listener : listeners) {
            try {
                listener.accept(change);
            } catch (RuntimeException e) {
                log.warn("A listener failed", e);
            }
        }
    }
}
