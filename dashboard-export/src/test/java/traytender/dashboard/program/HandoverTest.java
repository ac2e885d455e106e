package traytender.dashboard.program;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import traytender.config.reading.Reading;

class HandoverTest {
    private final Handover handover = new Handover();

    @Test
    void readingsThatComeWhileHistoryIsRead_waitInTheStore_fromTheEarliestOn() {
        assertThat(handover.waitsInStore(List.of(at(70), at(90)))).isTrue();
        assertThat(handover.waitsInStore(List.of(at(50)))).isTrue();

        assertThat(handover.goLive()).hasValue(50);
    }

    /** Under load there is no moment without new readings: they are taken live from the handover on, and not waited out. */
    @Test
    void readingsThatComeAfterTheHandover_areTakenLive_howeverManyThereAre() {
        handover.waitsInStore(List.of(at(50)));
        handover.goLive();

        for (int second = 0; second < 1_000; second++) {
            assertThat(handover.waitsInStore(List.of(at(60 + second)))).isFalse();
        }
    }

    @Test
    void nothingMissed_needsNoSecondReading() {
        assertThat(handover.goLive()).isEmpty();
    }

    private static Reading at(long timeMs) {
        return new Reading("T01-centre-moisture", timeMs, 0.5, 2100, 0);
    }
}
