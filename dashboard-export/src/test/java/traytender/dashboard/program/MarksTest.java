package traytender.dashboard.program;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import traytender.ingest.store.Act.Mark;
import traytender.ingest.store.JournalStore;

/** Which alerts the lamp on the bench need not call for. */
class MarksTest {
    private static final Instant NOW = Instant.parse("2026-03-14T05:41:00Z");

    @TempDir
    Path data;

    private JournalStore journal;

    @BeforeEach
    void open() {
        journal = JournalStore.open(data);
    }

    @AfterEach
    void close() {
        journal.close();
    }

    @Test
    void answeredAlerts_areSeen_untilTheyAskAgain() {
        Marks marks = marksAt(NOW);
        marks.write(Mark.LATER, NOW.plusSeconds(3600), List.of("a1"), List.of());
        marks.write(Mark.NOT_SO, null, List.of("a2"), List.of());

        assertThat(marks.seen()).containsExactlyInAnyOrder("a1", "a2");
        assertThat(marksAt(NOW.plusSeconds(3600)).seen()).containsExactly("a2");
    }

    @Test
    void undoneAct_isSeenNoMore_andAnEarlierOneHoldsAgain() {
        Marks marks = marksAt(NOW);
        marks.write(Mark.SEEN, null, List.of("a1"), List.of());
        var later = marks.write(Mark.DONE, NOW.plusSeconds(60), List.of("a1", "a2"), List.of());

        marks.undo(later.number());

        assertThat(marks.seen()).containsExactly("a1");
        assertThat(marks.newest().get("a1").mark()).isEqualTo(Mark.SEEN);
        assertThat(marks.newest()).doesNotContainKey("a2");
    }

    private Marks marksAt(Instant time) {
        return new Marks(journal.acts(), Clock.fixed(time, ZoneOffset.UTC));
    }
}
