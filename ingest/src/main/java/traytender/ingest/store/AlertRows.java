package traytender.ingest.store;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.type.TypeReference;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.DateTimeException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
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
    private static final String COLUMNS = "id, kind, tray, room, zone, urgency, opened, closed, reason, value,"
            + " threshold, unit, probes, sowing, says, does, expected, earliest, latest";

    private AlertRows() {}

    static int save(Connection connection, Alert alert) throws SQLException {
        try (var upsert = connection.prepareStatement("INSERT INTO alert (" + COLUMNS
                + ") VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?) ON CONFLICT (id) DO UPDATE SET"
                + " kind = excluded.kind, tray = excluded.tray, room = excluded.room, zone = excluded.zone,"
                + " urgency = excluded.urgency, opened = excluded.opened, closed = excluded.closed,"
                + " reason = excluded.reason, value = excluded.value, threshold = excluded.threshold,"
                + " unit = excluded.unit, probes = excluded.probes, sowing = excluded.sowing, says = excluded.says,"
                + " does = excluded.does, expected = excluded.expected, earliest = excluded.earliest,"
                + " latest = excluded.latest, withdrawn = 0")) {
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
        upsert.setString(7, text(alert.opened()));
        upsert.setString(8, text(alert.closed()));
        upsert.setString(9, alert.reason() == null ? null : alert.reason().word());
        upsert.setDouble(10, alert.value());
        upsert.setDouble(11, alert.limit());
        upsert.setString(12, alert.unit());
        upsert.setString(13, probes(alert));
        upsert.setString(14, alert.sowing());
        upsert.setString(15, alert.says());
        upsert.setString(16, alert.does());
        var forecast = alert.forecast();
        upsert.setString(17, text(forecast == null ? null : forecast.expected()));
        upsert.setString(18, text(forecast == null ? null : forecast.earliest()));
        upsert.setString(19, text(forecast == null ? null : forecast.latest()));
    }

    private static @Nullable String text(@Nullable Instant time) {
        return time == null ? null : time.toString();
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
                var rows = statement.executeQuery("SELECT " + COLUMNS + " FROM alert WHERE " + which)) {
            var alerts = new ArrayList<Alert>();
            while (rows.next()) {
                alerts.add(alert(rows));
            }
            alerts.sort(Comparator.comparing(Alert::opened).thenComparing(Alert::id));
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
                    Instant.parse(row.getString(7)),
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
        } catch (JsonProcessingException | IllegalArgumentException | DateTimeException e) {
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
        var text = row.getString(column);
        return text == null ? null : Instant.parse(text);
    }

    private static double number(ResultSet row, int column) throws SQLException {
        var number = row.getDouble(column);
        return row.wasNull() ? Double.NaN : number;
    }
}
