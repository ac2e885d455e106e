package traytender.dashboard.page;

import java.util.EnumMap;
import java.util.Map;
import java.util.TreeMap;
import traytender.config.alert.Alert;
import traytender.config.alert.Urgency;
import traytender.dashboard.page.BenchFacts.AlertChoice;
import traytender.rules.view.ProbeHealth;
import traytender.rules.view.ProbeView;
import traytender.rules.view.TrayView;
import traytender.rules.view.ZoneView;

/** The bench as OpenMetrics text (https://prometheus.io/docs/specs/om/open_metrics_spec/, version 1.0). */
final class Metrics {
    static final String CONTENT_TYPE = "application/openmetrics-text; version=1.0.0; charset=utf-8";

    private final StringBuilder text = new StringBuilder();

    private Metrics() {}

    static String of(BenchFacts facts) {
        var metrics = new Metrics();
        metrics.counts(facts.counts());
        metrics.alerts(facts);
        metrics.probes(facts);
        metrics.zones(facts);
        facts.longTerm().ifPresent(metrics::longTerm);
        metrics.family("traytender_well", "gauge", "Whether nothing keeps the program from its work.");
        metrics.sample("traytender_well", "", facts.health().isWell() ? 1 : 0);
        return metrics.text.append("# EOF\n").toString();
    }

    private void counts(BenchFacts.MessageCounts counts) {
        counter("traytender_readings_received", "Readings that came in.", counts.received());
        counter("traytender_readings_stored", "Readings new on disk.", counts.stored());
        counter("traytender_readings_repeated", "Readings that were on disk already.", counts.repeated());
        counter("traytender_messages_unassigned", "Messages on topics no probe names.", counts.unassigned());
        family("traytender_readings_refused", "counter", "Readings that could not be used.");
        new TreeMap<>(counts.refusals())
                .forEach((cause, count) ->
                        sample("traytender_readings_refused_total", label("cause", cause), (double) count));
    }

    private void longTerm(BenchFacts.LongTerm longTerm) {
        family("traytender_influxdb_waiting", "gauge", "Readings on disk that InfluxDB is still to get.");
        sample("traytender_influxdb_waiting", "", (double) longTerm.waiting());
        counter("traytender_influxdb_sent", "Readings that InfluxDB took.", longTerm.sent());
        family("traytender_influxdb_refused", "gauge", "Readings that InfluxDB refused for good.");
        sample("traytender_influxdb_refused", "", (double) longTerm.refused());
        family("traytender_influxdb_taking", "gauge", "Whether InfluxDB takes readings at the moment.");
        sample("traytender_influxdb_taking", "", longTerm.isTaking() ? 1 : 0);
    }

    private void alerts(BenchFacts facts) {
        Map<Urgency, Integer> byUrgency = new EnumMap<>(Urgency.class);
        for (Alert alert : facts.alerts(AlertChoice.OPEN)) {
            byUrgency.merge(alert.urgency(), 1, Integer::sum);
        }
        family("traytender_alerts_open", "gauge", "Open alerts.");
        for (Urgency urgency : Urgency.values()) {
            sample("traytender_alerts_open", label("urgency", urgency.word()), byUrgency.getOrDefault(urgency, 0));
        }
    }

    private void probes(BenchFacts facts) {
        Map<ProbeHealth, Integer> byHealth = new EnumMap<>(ProbeHealth.class);
        for (ProbeView probe : facts.probes()) {
            byHealth.merge(probe.health(), 1, Integer::sum);
        }
        family("traytender_probes", "gauge", "Probes by how they are.");
        for (ProbeHealth health : ProbeHealth.values()) {
            sample("traytender_probes", label("health", health.word()), byHealth.getOrDefault(health, 0));
        }
    }

    private void zones(BenchFacts facts) {
        family("traytender_moisture_ratio", "gauge", "Water in a zone as a fraction of container capacity.");
        for (TrayView tray : facts.trays()) {
            for (ZoneView zone : tray.zones()) {
                sample("traytender_moisture_ratio", place(tray, zone), zone.moisture());
            }
        }
        family("traytender_root_temperature_celsius", "gauge", "Temperature of a zone's root zone.");
        for (TrayView tray : facts.trays()) {
            for (ZoneView zone : tray.zones()) {
                sample("traytender_root_temperature_celsius", place(tray, zone), zone.temperature());
            }
        }
    }

    private static String place(TrayView tray, ZoneView zone) {
        return label("tray", tray.id()) + "," + label("zone", zone.zone().word());
    }

    private void counter(String name, String help, long count) {
        family(name, "counter", help);
        sample(name + "_total", "", (double) count);
    }

    private void family(String name, String type, String help) {
        text.append("# TYPE ").append(name).append(' ').append(type).append('\n');
        text.append("# HELP ").append(name).append(' ').append(help).append('\n');
    }

    /** One line; what is not known is left out. */
    private void sample(String name, String labels, double value) {
        if (!Double.isFinite(value)) {
            return;
        }
        text.append(name);
        if (!labels.isEmpty()) {
            text.append('{').append(labels).append('}');
        }
        text.append(' ');
        if (value == Math.rint(value) && Math.abs(value) < 1e15) {
            text.append((long) value);
        } else {
            text.append(value);
        }
        text.append('\n');
    }

    static String label(String name, String value) {
        String escaped = value.replace("\\", "\\\\").replace("\"", "\\\"").replace("\n", "\\n");
        return name + "=\"" + escaped + "\"";
    }
}
