package traytender.rules.drying;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.time.LocalTime;
import java.time.ZoneId;
import org.junit.jupiter.api.Test;
import traytender.config.site.LampHours;

/** Clock arithmetic, over the change to summer time of 29 March 2026 in Dublin. */
class DailyLightTest {
    private static final ZoneId DUBLIN = ZoneId.of("Europe/Dublin");

    private static long at(String time) {
        return Instant.parse(time).toEpochMilli();
    }

    @Test
    void lamps_followTheLocalClockOverTheChange() {
        LightPlan plan = new DailyLight(new LampHours(LocalTime.of(6, 0), LocalTime.of(22, 0)), DUBLIN);

        assertThat(plan.nextChangeMs(at("2026-03-28T23:00:00Z"))).isEqualTo(at("2026-03-29T05:00:00Z"));
        assertThat(plan.isLit(at("2026-03-29T05:00:00Z"))).isTrue();
        assertThat(plan.isLit(at("2026-03-29T04:59:59Z"))).isFalse();
    }

    @Test
    void lampsOverMidnight_areLitOverMidnight() {
        LightPlan plan = new DailyLight(new LampHours(LocalTime.of(18, 0), LocalTime.of(10, 0)), DUBLIN);

        assertThat(plan.isLit(at("2026-03-02T00:30:00Z"))).isTrue();
        assertThat(plan.isLit(at("2026-03-02T12:00:00Z"))).isFalse();
        assertThat(plan.nextChangeMs(at("2026-03-02T00:30:00Z"))).isEqualTo(at("2026-03-02T10:00:00Z"));
    }
}
