package traytender.ingest.nursery.score;

import java.util.ArrayList;
import java.util.List;

/** Counts of one kind of alert. {@code required = found + late + missed}; every alert is good, grey or wrong. <b>Not thread-safe.</b> */
final class Tally {
    int required;
    int found;
    int late;
    int missed;
    int good;
    int grey;
    int wrong;
    int reopened;
    /** Minutes from when it was plain to its alert, of those found after that. */
    final List<Double> delays = new ArrayList<>();

    void add(Tally other) {
        required += other.required;
        found += other.found;
        late += other.late;
        missed += other.missed;
        good += other.good;
        grey += other.grey;
        wrong += other.wrong;
        reopened += other.reopened;
        delays.addAll(other.delays);
    }
}
