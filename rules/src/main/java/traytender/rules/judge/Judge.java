package traytender.rules.judge;

import org.kie.api.runtime.KieSession;
import org.kie.api.runtime.rule.FactHandle;

/**
 * Shows facts to the rules, one at a time: put in, fired, taken out again, so that the session never holds anything from one
 * question to the next and the order of questions cannot matter. <b>Not thread-safe</b>; close it.
 */
public final class Judge implements AutoCloseable {
    /** More rules than there are could never fire on one fact: a rule that wakes itself would stop here. */
    private static final int MOST_FIRINGS = 1000;

    private final KieSession session = RuleBase.session();
    private final Findings findings = new Findings();

    /** A judge with an own session. */
    public Judge() {
        session.setGlobal("findings", findings);
    }

    /** Forgets what was found. */
    public void begin() {
        findings.clear();
    }

    /** Asks the rules about a fact: one of the fact types of this package. */
    public void ask(Object fact) {
        FactHandle handle = session.insert(fact);
        try {
            session.fireAllRules(MOST_FIRINGS);
        } finally {
            session.delete(handle);
        }
    }

    /** What was found since {@link #begin()}. */
    public Findings findings() {
        return findings;
    }

    @Override
    public void close() {
        session.dispose();
    }
}
