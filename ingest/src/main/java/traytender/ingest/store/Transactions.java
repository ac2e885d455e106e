package traytender.ingest.store;

import java.sql.Connection;
import java.sql.SQLException;

/**
 * One transaction on a connection in auto-commit mode. By SQLite's own words, not JDBC's: on a full disk SQLite rolls back by
 * itself, and JDBC's switch back to auto-commit then fails and hides why.
 */
final class Transactions {
    private Transactions() {}

    static <T> T run(Connection connection, Database.Work<T> work) throws SQLException {
        return run(connection, "BEGIN IMMEDIATE", work);
    }

    /** One that only reads, and sees the same moment from its first question to its last. */
    static <T> T runReading(Connection connection, Database.Work<T> work) throws SQLException {
        return run(connection, "BEGIN", work);
    }

    private static <T> T run(Connection connection, String begin, Database.Work<T> work) throws SQLException {
        execute(connection, begin);
        try {
            var answer = work.on(connection);
            execute(connection, "COMMIT");
            return answer;
        } catch (SQLException | RuntimeException e) {
            rollback(connection, e);
            throw e;
        }
    }

    private static void rollback(Connection connection, Exception first) {
        try {
            execute(connection, "ROLLBACK");
        } catch (SQLException e) {
            first.addSuppressed(e);
        }
    }

    private static void execute(Connection connection, String sql) throws SQLException {
        try (var statement = connection.createStatement()) {
            statement.execute(sql);
        }
    }
}
