package traytender.rules.judge;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import traytender.config.alert.AlertKind;
import traytender.config.site.Zone;

/**
 * The generated rules load and fire with the few Drools jars that are shipped: no parser, no compiler, no XML. It runs on the
 * module's own run-time class path, from which those are excluded.
 */
class RulesLoadingTest {
    private static MoistureFacts place(double moisture) {
        var fact = new MoistureFacts();
        fact.tray = "T01";
        fact.probe = "T01-centre-moisture";
        fact.zone = Zone.CENTRE;
        fact.trusted = true;
        fact.moisture = moisture;
        fact.dryLine = 0.45;
        fact.dryBelow = 0.45;
        fact.wetHours = 48;
        return fact;
    }

    private static List<AlertKind> found(Judge judge, Object... facts) {
        judge.begin();
        for (Object fact : facts) {
            judge.ask(fact);
        }
        return judge.findings().list().stream().map(Finding::kind).toList();
    }

    @Test
    void rules_fireOnWhatHolds_andRememberNothing() {
        try (var judge = new Judge()) {
            assertThat(found(judge, place(0.40))).containsExactly(AlertKind.DRY);
            assertThat(found(judge, place(0.50))).isEmpty();
            assertThat(found(judge, place(0.40), place(0.60))).containsExactly(AlertKind.DRY);
        }
    }

    @Test
    void unknownNumbers_satisfyNoRule() {
        var tray = new TrayFacts();
        tray.mat = "mat-1";
        tray.matInUse = true;
        tray.matKnown = true;
        tray.minutesHeating = 500;
        tray.minutesOff = 500;
        var room = new RoomFacts();
        room.planted = true;
        room.outdoors = true;
        room.night = true;
        var calendar = new CalendarFacts();
        calendar.awaitsPottingUp = true;
        try (var judge = new Judge()) {
            assertThat(found(judge, place(Double.NaN), tray, room, calendar, new ProbeFacts()))
                    .isEmpty();
        }
    }

    @Test
    void parsersAndCompilers_areNotOnTheClassPath() {
        for (String name : List.of(
                "org.drools.drl.parser.DrlParser",
                "org.eclipse.jdt.internal.compiler.Compiler",
                "org.antlr.runtime.Parser")) {
            assertThat(RulesLoadingTest.class.getClassLoader().getResource(name.replace('.', '/') + ".class"))
                    .as(name)
                    .isNull();
        }
    }
}
