package traytender.ingest.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.TimeZone;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import traytender.config.reading.Marks;
import traytender.ingest.calibrate.Calibrator;
import traytender.ingest.mqtt.Incoming;
import traytender.ingest.store.RawReading;
import traytender.ingest.store.SqliteReadingStore;

/** A board without a clock battery, and a clock that is set. */
class ClockCheckTest {
    private static final Instant NEWEST = Instant.parse("2026-03-14T05:41:00Z");

    @TempDir
    Path folder;

    private final AtomicLong nanos = new AtomicLong();
    private SqliteReadingStore store;
    private ClockCheck check;

    @BeforeEach
    void open() {
        store = SqliteReadingStore.open(folder, Calibrator::read);
        store.append(List.of(new RawReading("T01", NEWEST.toEpochMilli(), 0.5, Marks.NONE)));
        check = new ClockCheck(store, nanos::get);
    }

    @AfterEach
    void close() {
        store.close();
    }

    @Test
    void boardThatBootsInThePast_refusesNoTime_marksWhatComes_untilItsClockIsSet() {
        var inThePast = check.arrival(message(Instant.parse("2019-01-01T00:00:00Z")));
        assertThat(check.isWrong()).isTrue();
        assertThat(inThePast.marks()).isEqualTo(Marks.CLOCK);
        assertThat(inThePast.latestMs()).isEqualTo(Long.MAX_VALUE);

        var setRight = check.arrival(message(NEWEST.plus(Duration.ofHours(3))));
        assertThat(check.isWrong()).isFalse();
        assertThat(setRight.marks()).isEqualTo(Marks.NONE);
        assertThat(setRight.latestMs())
                .isEqualTo(NEWEST.plus(Duration.ofHours(3))
                        .plus(Duration.ofMinutes(5))
                        .toEpochMilli());
    }

    @Test
    void clockSetBackALittle_isNotTakenForWrong() {
        check.arrival(message(NEWEST.plusSeconds(60)));
        check.arrival(message(NEWEST.minus(Duration.ofMinutes(5))));

        assertThat(check.isWrong()).isFalse();
    }

    @Test
    void whatComesWhileTheClockIsWrong_provesNothing() {
        check.arrival(message(Instant.parse("2019-01-01T00:00:00Z")));
        check.stored(Instant.parse("2099-01-01T00:00:00Z").toEpochMilli());

        check.arrival(message(NEWEST.plusSeconds(60)));

        assertThat(check.isWrong()).isFalse();
    }

    /** It stood a day ahead, and a time server sets it: what came meanwhile stands ahead, and shows nothing. */
    @Test
    void clockThatStoodAhead_andIsSetBack_isBelieved_andToldOf() {
        Instant ahead = NEWEST.plus(Duration.ofDays(1));
        check.arrival(message(ahead));
        check.stored(ahead.toEpochMilli());
        assertThat(check.setBack()).isNull();

        nanos.addAndGet(Duration.ofMinutes(1).toNanos());
        Instant right = NEWEST.plus(Duration.ofMinutes(1));
        var arrival = check.arrival(message(right));

        assertThat(check.isWrong()).isFalse();
        assertThat(arrival.timeMs()).isEqualTo(right.toEpochMilli());
        assertThat(arrival.marks()).isEqualTo(Marks.NONE);
        assertThat(check.setBack()).isEqualTo(new SetBack(right, Duration.ofDays(1)));
    }

    /** Time goes by, and the clock with it: nobody set anything. */
    @Test
    void clockThatGoesOn_orIsSetALittle_isNoSetting() {
        for (int minute = 0; minute < 600; minute++) {
            check.arrival(message(NEWEST.plus(Duration.ofMinutes(minute)).plusSeconds(minute % 7)));
            nanos.addAndGet(Duration.ofMinutes(1).toNanos());
        }

        assertThat(check.setBack()).isNull();
    }

    /** The machine's time zone is nobody's business here: times are counted from 1970, and kept so. */
    @Test
    void otherTimeZoneOfTheMachine_changesNothing() {
        TimeZone before = TimeZone.getDefault();
        try {
            TimeZone.setDefault(TimeZone.getTimeZone("Pacific/Kiritimati"));
            var there = check.arrival(message(NEWEST.plusSeconds(60)));
            TimeZone.setDefault(TimeZone.getTimeZone("Pacific/Pago_Pago"));
            nanos.addAndGet(Duration.ofMinutes(1).toNanos());
            var here = check.arrival(message(NEWEST.plusSeconds(120)));

            assertThat(here.timeMs() - there.timeMs()).isEqualTo(60_000);
            assertThat(check.isWrong()).isFalse();
            assertThat(check.setBack()).isNull();
            assertThat(store.newestTime()).contains(NEWEST);
        } finally {
            TimeZone.setDefault(before);
        }
    }

    private static Incoming message(Instant arrived) {
        return new Incoming("alder/T01", new byte[] {'1'}, arrived, false, null);
    }
}
