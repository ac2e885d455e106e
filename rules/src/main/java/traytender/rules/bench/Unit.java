package traytender.rules.bench;

import java.util.Set;
import traytender.config.reading.Reading;
import traytender.rules.book.AlertBook;
import traytender.rules.judge.Judge;

/**
 * What is looked at as one: a tray with all that bears on it, or a room. Takes readings in order of time and probe, looks at
 * the end of each minute in which the program listened, and can be copied, so that a late reading can take it back and run
 * it forward again. <b>Not thread-safe.</b>
 */
public interface Unit {
    /** The tray's or room's id. */
    String place();

    /** Ids of the probes whose readings it wants. */
    Set<String> probes();

    /** Takes a reading of one of its probes; one not newer than that probe's last changes nothing. */
    void take(Reading reading);

    /** Looks at the end of a minute. */
    void look(long minuteMs, Judge judge);

    /** Its alerts. */
    AlertBook book();

    /** A copy that goes on by itself. */
    Unit copy();

    /** Lets it know of another bench: the journal has grown. */
    void setBench(Bench bench);
}
