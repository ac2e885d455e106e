package traytender.dashboard.program;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.CopyOnWriteArrayList;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import traytender.config.alert.Alert;
import traytender.config.alert.AlertKind;
import traytender.config.alert.ShutOffReason;
import traytender.config.alert.Urgency;
import traytender.config.folder.SiteReader;
import traytender.config.site.Zone;
import traytender.rules.AlertChange;
import traytender.rules.AlertChange.What;

/** What goes out over MQTT about alerts. */
class AlertNoticesTest {
    private static final Instant OPENED = Instant.parse("2026-03-14T05:41:00Z");
    private static final String SITE = """
            site: Alder Lane Nursery
            timezone: Europe/Dublin
            rooms:
              - {id: propagation, kind: indoors}
            mats:
              - {id: mat-1, room: propagation, relay: {topic: alder/mat-1/relay, rest: "rest"}}
              - {id: mat-2, room: propagation}
            trays:
              - {id: T01, room: propagation, mat: mat-1, cells: {rows: 8, columns: 16}, medium: peat-perlite, stage: seedling}
              - {id: T02, room: propagation, mat: mat-2, cells: {rows: 8, columns: 16}, medium: peat-perlite, stage: seedling}
            """;

    @TempDir
    Path folder;

    private final List<String> sent = new CopyOnWriteArrayList<>();
    private final List<Alert> rested = new CopyOnWriteArrayList<>();
    private final Set<String> seen = ConcurrentHashMap.newKeySet();
    private final Notices notices = new Notices(this::record);
    private @Nullable AlertNotices alertNotices;

    @BeforeEach
    void read() throws IOException {
        Files.writeString(folder.resolve("site.yaml"), SITE);
        alertNotices = new AlertNotices(SiteReader.read(folder).site(), notices, () -> seen, rested::add);
    }

    private void record(String topic, byte[] payload, boolean isRetained) {
        String text = new String(payload, StandardCharsets.UTF_8);
        sent.add(topic + (isRetained ? " retained " : " once ") + (text.startsWith("{") ? "record" : text));
    }

    @Test
    void openAlert_isRetainedAtItsTopicAndClearedWhenItCloses() {
        Alert dry = alert("a", AlertKind.DRY, Urgency.NOW, null, "T01");

        change(What.OPENED, dry);
        change(What.CLOSED, dry.withClosed(OPENED.plusSeconds(600)));

        assertThat(sent)
                .containsExactly(
                        "traytender/alerts/T01/dry/centre retained record",
                        "traytender/call retained now",
                        "traytender/alerts/T01/dry/centre retained ",
                        "traytender/call retained none");
    }

    @Test
    void roomsAlert_hasNoZoneInItsTopicAndANoteCallsNobody() {
        var damp = new Alert(
                "r",
                AlertKind.DAMP_AIR,
                null,
                "propagation",
                null,
                Urgency.NOTE,
                OPENED,
                null,
                null,
                95,
                92,
                "%",
                List.of(),
                null,
                "Damp.",
                "Air it.",
                null);

        change(What.OPENED, damp);

        assertThat(sent)
                .containsExactly(
                        "traytender/alerts/propagation/damp-air retained record", "traytender/call retained none");
    }

    @Test
    void tooHotMat_isToldToRestAndNothingElseIs() {
        change(What.OPENED, alert("h", AlertKind.MAT_SHUT_OFF, Urgency.NOW, ShutOffReason.TOO_HOT, "T01"));
        change(What.OPENED, alert("i", AlertKind.MAT_SHUT_OFF, Urgency.NOTE, ShutOffReason.ROOM_WARM, "T01"));
        change(What.OPENED, alert("j", AlertKind.MAT_SHUT_OFF, Urgency.NOW, ShutOffReason.TOO_HOT, "T02"));
        change(What.OPENED, alert("k", AlertKind.CENTRE_OVERHEATING, Urgency.NOW, null, "T01"));

        assertThat(sent.stream().filter(message -> message.contains("relay")))
                .containsExactly("alder/mat-1/relay once rest");
        assertThat(rested).extracting(Alert::id).containsExactly("h");
        assertThat(sent).contains("traytender/alerts/T01/mat-shut-off/too-hot retained record");
    }

    @Test
    void alertThatWasSeen_callsNobodyAnyMore() {
        change(What.OPENED, alert("a", AlertKind.DRY, Urgency.NOW, null, "T01"));
        change(What.OPENED, alert("b", AlertKind.ROOT_COLD, Urgency.TODAY, null, "T02"));
        seen.add("a");
        drain(() -> alertNoticesOfTheSite().call());

        assertThat(sent.stream().filter(message -> message.contains("call")))
                .containsExactly("traytender/call retained now", "traytender/call retained today");
    }

    private void change(What what, Alert alert) {
        drain(() -> alertNoticesOfTheSite().changed(new AlertChange(what, alert)));
    }

    /** Does something and sends what it brings. */
    private void drain(Runnable action) {
        action.run();
        notices.drain();
    }

    private AlertNotices alertNoticesOfTheSite() {
        return java.util.Objects.requireNonNull(alertNotices);
    }

    private static Alert alert(
            String id, AlertKind kind, Urgency urgency, @Nullable ShutOffReason reason, String tray) {
        return new Alert(
                id,
                kind,
                tray,
                null,
                reason == null ? Zone.CENTRE : Zone.TRAY,
                urgency,
                OPENED,
                null,
                reason,
                1,
                2,
                "1",
                List.of(),
                null,
                "So it is.",
                "Do this.",
                null);
    }
}
