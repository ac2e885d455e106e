package traytender.dashboard.program;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class StartPaceTest {
    private Duration now = Duration.ofHours(1);
    private final StartPace pace = new StartPace(() -> now.toNanos());

    @Test
    void firstNewStart_isMadeAtOnce() {
        assertThat(pace.isOver()).isTrue();
    }

    @Test
    void faultThatNoStartCures_isTriedAfterPausesThatDoubleUpToFiveMinutes() {
        assertThat(pausesOfNewStarts(9)).containsExactly(4L, 8L, 16L, 32L, 64L, 128L, 256L, 300L, 300L);
    }

    @Test
    void newStart_afterACalmTime_isAFirstOneAgain() {
        pausesOfNewStarts(5);

        now = now.plus(StartPace.CALM);

        assertThat(pausesOfNewStarts(2)).containsExactly(4L, 8L);
    }

    /** Starts anew whenever that may be done: how many seconds lie between one start and the next. */
    private List<Long> pausesOfNewStarts(int count) {
        var pauses = new ArrayList<Long>();
        for (int i = 0; i < count; i++) {
            pace.started();
            Duration start = now;
            while (!pace.isOver()) {
                now = now.plusSeconds(1);
            }
            pauses.add(now.minus(start).toSeconds());
        }
        return pauses;
    }
}
