package traytender.ingest.store;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.type.TypeReference;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Types;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import traytender.config.alert.Alert;
import traytender.config.alert.AlertKind;
import traytender.config.alert.ShutOffReason;
import traytender.config.alert.Urgency;
import traytender.config.site.Zone;
import traytender.ingest.store.StoreException.Trouble;

/** Alerts as rows. Words are those of the alert record; NaN is NULL. */
final class AlertRows {
    private static final ObjectMapper JSON = new ObjectMapper();
    private static final TypeReference<List<String>> PROBES = new TypeReference<>() {};
    private static final String COLUMNS = "id, kind, tray, room, zone, urgency, opened_ns, closed_ns, reason, value,"
            + " threshold, unit, probes, sowing, says, does, expected_ns, earliest_ns, latest_ns";

    private AlertRows() {}

    static int save(Connection connection, Alert alert) throws SQLException {
        try (var upsert = connection.prepareStatement("INSERT INTO alert (" + COLUMNS
                + ") VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?) ON CONFLICT (id) DO UPDATE SET"
                + " kind = excluded.kind, tray = excluded.tray, room = excluded.room, zone = excluded.zone,"
                + " urgency = excluded.urgency, opened_ns = excluded.opened_ns, closed_ns = excluded.closed_ns,"
                + " reason = excluded.reason, value = excluded.value, threshold = excluded.threshold,"
                + " unit = excluded.unit, probes = excluded.probes, sowing = excluded.sowing, says = excluded.says,"
                + " does = excluded.does, expected_ns = excluded.expected_ns, earliest_ns = excluded.earliest_ns,"
                + " latest_ns = excluded.latest_ns, withdrawn = 0")) {
            bind(upsert, alert);
            return upsert.executeUpdate();
        }
    }

    private static void bind(PreparedStatement upsert, Alert alert) throws SQLException {
        upsert.setString(1, alert.id());
        upsert.setString(2, alert.kind().word());
        upsert.setString(3, alert.tray());
        upsert.setString(4, alert.room());
        upsert.setString(5, alert.zone() == null ? null : alert.zone().word());
        upsert.setString(6, alert.urgency().word());
        setTime(upsert, 7, alert.opened());
        setTime(upsert, 8, alert.closed());
        upsert.setString(9, alert.reason() == null ? null : alert.reason().word());
        upsert.setDouble(10, alert.value());
        upsert.setDouble(11, alert.limit());
        upsert.setString(12, alert.unit());
        upsert.setString(13, probes(alert));
        upsert.setString(14, alert.sowing());
        upsert.setString(15, alert.says());
        upsert.setString(16, alert.does());
        var forecast = alert.forecast();
        setTime(upsert, 17, forecast == null ? null : forecast.expected());
        setTime(upsert, 18, forecast == null ? null : forecast.earliest());
        setTime(upsert, 19, forecast == null ? null : forecast.latest());
    }

    private static void setTime(PreparedStatement statement, int column, @Nullable Instant time) throws SQLException {
        if (time == null) {
            statement.setNull(column, Types.INTEGER);
        } else {
            statement.setLong(column, Times.nanos(time));
        }
    }

    private static String probes(Alert alert) {
        try {
            return JSON.writeValueAsString(alert.probes());
        } catch (JsonProcessingException e) {
            throw new IllegalArgumentException(alert + " cannot be written", e);
        }
    }

    static int update(Connection connection, String sql, String id) throws SQLException {
        try (var update = connection.prepareStatement(sql)) {
            update.setString(1, id);
            return update.executeUpdate();
        }
    }

    static List<Alert> select(Connection connection, String which) throws SQLException {
        try (var statement = connection.createStatement();
                var rows = statement.executeQuery(
                        "SELECT " + COLUMNS + " FROM alert WHERE " + which + " ORDER BY opened_ns, id")) {
            var alerts = new ArrayList<Alert>();
            while (rows.next()) {
                alerts.add(alert(rows));
            }
            return alerts;
        }
    }

    private static Alert alert(ResultSet row) throws SQLException {
        var zone = row.getString(5);
        var reason = row.getString(9);
        try {
            return new Alert(
                    row.getString(1),
                    word(AlertKind.class, row.getString(2)),
                    row.getString(3),
                    row.getString(4),
                    zone == null ? null : word(Zone.class, zone),
                    word(Urgency.class, row.getString(6)),
                    Times.ofNanos(row.getLong(7)),
                    time(row, 8),
                    reason == null ? null : word(ShutOffReason.class, reason),
                    number(row, 10),
                    number(row, 11),
                    row.getString(12),
                    JSON.readValue(row.getString(13), PROBES),
                    row.getString(14),
                    row.getString(15),
                    row.getString(16),
                    forecast(row));
        } catch (JsonProcessingException | IllegalArgumentException e) {
            throw new StoreException(Trouble.DAMAGED, "journal.db: alert " + row.getString(1) + " cannot be read", e);
        }
    }

    /** Every one of these enums writes its words as its names in small letters with hyphens. */
    private static <E extends Enum<E>> E word(Class<E> type, String word) {
        return Enum.valueOf(type, word.toUpperCase(Locale.ROOT).replace('-', '_'));
    }

    private static Alert.@Nullable Forecast forecast(ResultSet row) throws SQLException {
        var expected = time(row, 17);
        var earliest = time(row, 18);
        var latest = time(row, 19);
        return expected == null || earliest == null || latest == null
                ? null
                : new Alert.Forecast(expected, earliest, latest);
    }

    private static @Nullable Instant time(ResultSet row, int column) throws SQLException {
        var nanos = row.getLong(column);
        return row.wasNull() ? null : Times.ofNanos(nanos);
    }

    private static double number(ResultSet row, int column) throws SQLException {
        var number = row.getDouble(column);
        return row.wasNull() ? Double.NaN : number;
    }
}
