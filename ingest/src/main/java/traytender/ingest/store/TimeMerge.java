package traytender.ingest.store;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.util.List;
import java.util.PriorityQueue;
import java.util.function.Consumer;
import traytender.config.reading.Reading;

/**
 * Merges the probes' readings into one order: time, then probe id. The table keeps each probe's readings together, so the
 * database itself would have to sort them all first.
 */
final class TimeMerge {
    private static final String PIECE = "SELECT time_ms, raw, marks FROM reading"
            + " WHERE probe = ? AND time_ms >= ? AND time_ms < ? ORDER BY time_ms LIMIT " + ProbeCursor.PIECE;

    private final Connection connection;
    private final Meaning meaning;
    private final List<ProbeCursor> cursors;
    private final long toMs;

    TimeMerge(Connection connection, Meaning meaning, List<ProbeCursor> cursors, long toMs) {
        this.connection = connection;
        this.meaning = meaning;
        this.cursors = cursors;
        this.toMs = toMs;
    }

    /** Gives every reading to the consumer and answers how many there were. */
    long giveTo(Consumer<Reading> consumer) throws SQLException {
        try (var select = connection.prepareStatement(PIECE)) {
            var next = first(select);
            var given = 0L;
            for (var cursor = next.poll(); cursor != null; cursor = next.poll()) {
                consumer.accept(meaning.of(cursor.probe(), cursor.take()));
                given++;
                if (cursor.fill(select, toMs)) {
                    next.add(cursor);
                }
            }
            return given;
        }
    }

    private PriorityQueue<ProbeCursor> first(PreparedStatement select) throws SQLException {
        var next = new PriorityQueue<ProbeCursor>();
        for (var cursor : cursors) {
            if (cursor.fill(select, toMs)) {
                next.add(cursor);
            }
        }
        return next;
    }
}
