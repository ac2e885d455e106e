package traytender.config.journal;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;
import traytender.config.crop.Stage;
import traytender.config.journal.Growing.Doubt;
import traytender.config.site.Cell;
import traytender.config.site.CellBlock;
import traytender.config.site.Site;

/** What a potting up takes out of a tray and puts into another. */
class PottingUpTest extends GrowingBench {
    @Test
    void pottedUpInPlace_recoversForTheCropsDays() {
        write(20, "T01", EntryKind.POTTED_UP, "rows=1-4");
        Growing growing = growing();
        Duration recovery = Duration.ofDays(
                (long) CROPS.get("tomato").limits(Stage.RECOVERING).recoveryDays());

        assertThat(stages(20)).isEqualTo("[pepper 5-8 germinating, tomato 1-4 recovering]");
        assertThat(stages(growing, "T01", day(20).plus(recovery).minusMillis(1)))
                .contains("tomato 1-4 recovering");
        assertThat(stages(growing, "T01", day(20).plus(recovery))).contains("tomato 1-4 growing-on");
        SowingNow now = growing.at("T01", day(40)).sowingAt(new Cell(1, 1)).orElseThrow();
        assertThat(now.pottedUpAt()).isEqualTo(day(20));
        assertThat(now.stageSince()).isEqualTo(day(20).plus(recovery));
    }

    @Test
    void pottedUpInto_anEmptyTray_fillsIt() {
        write(20, "T01", EntryKind.POTTED_UP, "rows=1-4;to=T05");

        assertThat(stages(20)).isEqualTo("[pepper 5-8 germinating]");
        assertThat(stages(growing(), "T05", day(20))).isEqualTo("[tomato 1-8 recovering]");
        assertThat(stages(growing(), "T05", day(30))).isEqualTo("[tomato 1-8 growing-on]");
        assertThat(growing().at("T05", day(19)).sowings()).isEmpty();
    }

    @Test
    void pottedUpInto_namedRows_leavesTheOthers() {
        write(20, "T01", EntryKind.POTTED_UP, "rows=1-4;to=T05;to-rows=1-2");
        write(21, "T01", EntryKind.POTTED_UP, "rows=5-8;to=T05");

        assertThat(stages(growing(), "T05", day(21))).isEqualTo("[pepper 3-8 recovering, tomato 1-2 recovering]");
        assertThat(growing().at("T01", day(21)).sowings()).isEmpty();
    }

    @Test
    void pottedUpInto_severalVarieties_shareTheRows() {
        write(20, "T01", EntryKind.POTTED_UP, "to=T05");

        assertThat(stages(growing(), "T05", day(20))).isEqualTo("[pepper 5-8 recovering, tomato 1-4 recovering]");
    }

    @Test
    void pottedUpInto_aTrayWhoseLabelsAreKnown_keepsThem() {
        Site site = site(Stage.SEEDLING, List.of(TOMATO.withBlock(new CellBlock(3, 6, 1, 8))));
        write(20, "T01", EntryKind.POTTED_UP, "rows=1-4;to=T05");

        Growing growing = Growing.of(site, CROPS, journal);

        assertThat(stages(growing, "T05", day(20))).isEqualTo("[tomato 3-6 recovering]");
    }

    @Test
    void pottedUpSome_leavesTheOthersWhereTheyStood() {
        write(20, "T01", EntryKind.POTTED_UP, "rows=1-4;to=T05;count=20");

        assertThat(stages(20)).isEqualTo("[pepper 5-8 germinating, tomato 1-4 germinating]");
        assertThat(stages(growing(), "T05", day(20))).isEqualTo("[tomato 1-8 recovering]");
    }

    @Test
    void pottedUpInto_anUnknownTray_emptiesTheCellsAndIsDoubted() {
        write(20, "T01", EntryKind.POTTED_UP, "rows=1-4;to=T99");

        assertThat(stages(20)).isEqualTo("[pepper 5-8 germinating]");
        assertThat(growing().doubts())
                .extracting(Doubt::why)
                .singleElement()
                .asString()
                .contains("no tray named T99");
    }
}
