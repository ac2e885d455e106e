package traytender.config.journal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Instant;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import traytender.config.crop.Stage;
import traytender.config.site.Binding;
import traytender.config.site.Calibration;
import traytender.config.site.Cell;
import traytender.config.site.Cells;
import traytender.config.site.Dated;
import traytender.config.site.Place;
import traytender.config.site.Probe;
import traytender.config.site.Quantity;
import traytender.config.site.Site;
import traytender.config.site.Sowing;
import traytender.config.site.Zone;

/** What stands where and at which stage, by the site file and by journal entries other than potting up. */
class GrowingTest extends GrowingBench {
    @Test
    void withoutJournal_theSiteFileHolds() {
        TrayNow now = growing().at("T01", day(0));

        assertThat(stages(0)).isEqualTo("[pepper 5-8 germinating, tomato 1-4 germinating]");
        assertThat(now.room()).isEqualTo("propagation");
        assertThat(now.mat()).isEqualTo("mat-1");
        assertThat(now.since()).isEqualTo(Instant.MIN);
        assertThat(now.sowings().get(0).stageSince()).isEqualTo(Instant.MIN);
        assertThat(now.sowings().get(0).limits()).isEqualTo(CROPS.get("tomato").limits(Stage.GERMINATING));
    }

    @Test
    void emerged_makesSeedlingsFromHalfOn() {
        write(6, "T01", EntryKind.EMERGED, "percent=49");
        write(7, "T01", EntryKind.EMERGED, "percent=50;rows=1-4");
        write(9, "T01", EntryKind.EMERGED, "count=60;of=64");

        assertThat(stages(6)).isEqualTo("[pepper 5-8 germinating, tomato 1-4 germinating]");
        assertThat(stages(7)).isEqualTo("[pepper 5-8 germinating, tomato 1-4 seedling]");
        assertThat(stages(9)).isEqualTo("[pepper 5-8 seedling, tomato 1-4 seedling]");
        assertThat(growing().at("T01", day(9)).sowings())
                .filteredOn(now -> now.sowing().crop().equals("tomato"))
                .extracting(SowingNow::stageSince)
                .containsExactly(day(7));
    }

    @Test
    void emergedCount_isOutOfTheSeedsOfThoseCells() {
        write(6, "T01", EntryKind.EMERGED, "rows=1-4;count=31");
        write(7, "T01", EntryKind.EMERGED, "rows=1-4;count=32");

        assertThat(stages(6)).contains("tomato 1-4 germinating");
        assertThat(stages(7)).contains("tomato 1-4 seedling");
    }

    @Test
    void emerged_neverTakesALaterStageBack() {
        write(6, "T01", EntryKind.STAGE, "stage=growing-on");
        write(7, "T01", EntryKind.EMERGED, "");

        assertThat(stages(7)).isEqualTo("[pepper 5-8 growing-on, tomato 1-4 growing-on]");
    }

    @Test
    void emergedRowsWithinASowing_partIt() {
        write(7, "T01", EntryKind.EMERGED, "rows=1-2");

        assertThat(stages(7)).isEqualTo("[pepper 5-8 germinating, tomato 1-2 seedling, tomato 3-4 germinating]");
    }

    @Test
    void moved_takesTheTrayOffItsMat() {
        write(30, "T01", EntryKind.MOVED, "to=frame");
        write(31, "T01", EntryKind.MOVED, "to=cellar");
        write(32, "T01", EntryKind.MOVED, "");

        TrayNow now = growing().at("T01", day(33));

        assertThat(now.room()).isEqualTo("frame");
        assertThat(now.mat()).isNull();
        assertThat(now.movedAt()).isEqualTo(day(30));
        assertThat(growing().doubts()).hasSize(2);
    }

    @Test
    void movedOffItsMat_inTheSameRoom() {
        write(30, "T01", EntryKind.MOVED, "mat=none");
        write(31, "T01", EntryKind.MOVED, "mat=mat-1");

        assertThat(growing().at("T01", day(30)).mat()).isNull();
        assertThat(growing().at("T01", day(31)).mat()).isEqualTo("mat-1");
        assertThat(growing().doubts()).isEmpty();
    }

    @Test
    void turned_changesFrontAndBackAndLeftAndRight() {
        write(3, "T01", EntryKind.TURNED, "");
        write(7, "T01", EntryKind.EMERGED, "rows=5-8");
        Probe probe = probe(Dated.always(new Place.InCell("T01", new Cell(1, 3))));
        Growing growing = growing();

        assertThat(stages(2)).isEqualTo("[pepper 5-8 germinating, tomato 1-4 germinating]");
        assertThat(stages(3)).isEqualTo("[pepper 1-4 germinating, tomato 5-8 germinating]");
        assertThat(stages(7)).isEqualTo("[pepper 1-4 germinating, tomato 5-8 seedling]");
        assertThat(growing.cell(probe, day(2))).contains(new Cell(1, 3));
        assertThat(growing.cell(probe, day(3))).contains(new Cell(8, 14));
        assertThat(Zone.of(growing.cell(probe, day(3)).orElseThrow(), new Cells(8, 16)))
                .isEqualTo(Zone.EDGE_BACK);
        assertThat(growing.sowing(probe, day(7)).orElseThrow().sowing().crop()).isEqualTo("tomato");
        assertThat(growing.sowing(probe, day(7)).orElseThrow().stage()).isEqualTo(Stage.SEEDLING);
    }

    @Test
    void probePutInAfterTurning_isWhereTheFileSaysOnTheBench() {
        write(3, "T01", EntryKind.TURNED, "");
        write(9, "T01", EntryKind.TURNED, "");
        Probe probe =
                probe(new Dated<>(List.of(new Dated.From<>(day(5), (Place) new Place.InCell("T01", new Cell(1, 3))))));

        assertThat(growing().cell(probe, day(4))).isEmpty();
        assertThat(growing().cell(probe, day(5))).contains(new Cell(1, 3));
        assertThat(growing().cell(probe, day(9))).contains(new Cell(8, 14));
    }

    private static Probe probe(Dated<Place> at) {
        return new Probe(
                "p",
                Quantity.MOISTURE,
                at,
                new Binding.Text("t", Map.of()),
                Dated.always(new Calibration.None()),
                null);
    }

    @Test
    void coveredUncoveredFedHardeningPlantedOut_doWhatTheySay() {
        write(1, "T01", EntryKind.COVERED, "");
        write(5, "T01", EntryKind.UNCOVERED, "");
        write(20, "T01", EntryKind.FED, "rows=1-4");
        write(40, "T01", EntryKind.HARDENING, "");
        write(50, "T01", EntryKind.PLANTED_OUT, "rows=1-4;count=60");

        assertThat(growing().at("T01", day(4)).covered()).isTrue();
        assertThat(growing().at("T01", day(5)).covered()).isFalse();
        assertThat(growing()
                        .at("T01", day(20))
                        .sowingAt(new Cell(1, 1))
                        .orElseThrow()
                        .fedAt())
                .isEqualTo(day(20));
        assertThat(growing()
                        .at("T01", day(20))
                        .sowingAt(new Cell(8, 1))
                        .orElseThrow()
                        .fedAt())
                .isNull();
        assertThat(stages(40)).isEqualTo("[pepper 5-8 hardening, tomato 1-4 hardening]");
        assertThat(stages(50)).isEqualTo("[pepper 5-8 hardening, tomato 1-4 planted-out]");
        assertThat(growing().at("T01", day(50)).isWatched()).isTrue();
    }

    @Test
    void sown_addsASowingInPlaceOfWhatStoodThere() {
        write(2, "T01", EntryKind.SOWN, "rows=4-5;crop=basil;variety=Pale Anchor;seeds-per-cell=3");

        assertThat(stages(2)).isEqualTo("[basil 4-5 germinating, pepper 6-8 germinating, tomato 1-3 germinating]");
        Sowing basil = growing()
                .at("T01", day(2))
                .sowingAt(new Cell(4, 1))
                .orElseThrow()
                .sowing();
        assertThat(basil.seedsPerCell()).isEqualTo(3);
        assertThat(basil.sown()).hasToString("2026-03-04");
    }

    @Test
    void sownAgain_beginsAnew() {
        write(7, "T01", EntryKind.EMERGED, "");
        write(10, "T01", EntryKind.SOWN, "rows=1-4");

        assertThat(stages(10)).isEqualTo("[pepper 5-8 seedling, tomato 1-4 germinating]");
    }

    @Test
    void sownOfAnUnknownCrop_isDoubtedAndKept() {
        write(2, "T01", EntryKind.SOWN, "rows=4;crop=moonflower");

        assertThat(stages(2)).isEqualTo("[pepper 5-8 germinating, tomato 1-4 germinating]");
        assertThat(growing().doubts()).hasSize(1);
    }

    @Test
    void firstReading_holdsTheFilesStageAgainstEarlierEntries() {
        write(2, "T01", EntryKind.SOWN, "");
        Site site = site(Stage.SEEDLING, List.of());

        Growing growing = Growing.of(site, CROPS, journal, day(9));

        assertThat(stages(growing, "T01", day(8))).contains("tomato 1-4 germinating");
        assertThat(stages(growing, "T01", day(9))).isEqualTo("[pepper 5-8 seedling, tomato 1-4 seedling]");
    }

    @Test
    void hardening_givesTheDateToATrayThatTheFileCallsHardening() {
        write(2, "T01", EntryKind.HARDENING, "");
        Growing growing = Growing.of(site(Stage.HARDENING, List.of()), CROPS, journal, day(5));

        SowingNow now = growing.at("T01", day(9)).sowingAt(new Cell(1, 1)).orElseThrow();

        assertThat(now.stage()).isEqualTo(Stage.HARDENING);
        assertThat(now.stageSince()).isEqualTo(day(2));
    }

    @Test
    void unreadableRows_areTakenAsTheWholeTrayAndDoubted() {
        write(7, "T01", EntryKind.EMERGED, "rows=front");
        write(8, "T01", EntryKind.STAGE, "stage=hardening;rows=12-14");

        assertThat(stages(8)).isEqualTo("[pepper 5-8 seedling, tomato 1-4 seedling]");
        assertThat(growing().doubts()).hasSize(2);
    }

    @Test
    void cellWithoutASowing_countsAsItsNearest() {
        write(20, "T01", EntryKind.POTTED_UP, "rows=3-6;to=T05");

        TrayNow now = growing().at("T01", day(20));

        assertThat(now.sowingAt(new Cell(3, 5)).orElseThrow().sowing().crop()).isEqualTo("tomato");
        assertThat(now.sowingAt(new Cell(6, 5)).orElseThrow().sowing().crop()).isEqualTo("pepper");
    }

    @Test
    void orderOfTheList_doesNotMatter() {
        write(3, "T01", EntryKind.TURNED, "");
        write(7, "T01", EntryKind.EMERGED, "rows=5-8");
        write(20, "T01", EntryKind.POTTED_UP, "rows=5-8;to=T05");
        write(25, "T05", EntryKind.MOVED, "to=frame");
        write(40, "T05", EntryKind.HARDENING, "");
        Growing inOrder = growing();

        Collections.shuffle(journal, new Random(7));

        assertThat(growing().changes("T01")).isEqualTo(inOrder.changes("T01"));
        assertThat(growing().changes("T05")).isEqualTo(inOrder.changes("T05"));
    }

    @Test
    void changes_areOnePerTimeAndInOrder() {
        write(3, "T01", EntryKind.TURNED, "");
        write(3, "T01", EntryKind.COVERED, "");
        write(20, "T01", EntryKind.POTTED_UP, "");

        assertThat(growing().changes("T01"))
                .extracting(TrayNow::since)
                .containsExactly(Instant.MIN, day(3), day(20), day(25));
        assertThat(growing().changes("T99")).isEmpty();
        assertThatThrownBy(() -> growing().at("T99", day(1))).isInstanceOf(IllegalArgumentException.class);
    }
}
