package traytender.dashboard.setup;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import traytender.config.folder.NewSite;
import traytender.config.folder.SiteEdit.Things;
import traytender.config.folder.SiteFolder;
import traytender.config.folder.SiteReader;

/** The site's file changed by the page and by hand. */
class SiteDeskTest {
    private static final Clock CLOCK = Clock.fixed(Instant.parse("2026-03-14T12:00:00Z"), ZoneOffset.UTC);
    private static final String SITE = """
            site: Alder Lane Nursery   # ours
            timezone: Europe/Dublin
            rooms:
              - {id: propagation, kind: indoors}
            """;

    @TempDir
    Path folder;

    private final List<SiteFolder> taken = new ArrayList<>();

    private SiteDesk desk() throws IOException {
        Files.writeString(folder.resolve("site.yaml"), SITE);
        return desk(SiteReader.read(folder));
    }

    private SiteDesk desk(SiteFolder first) {
        taken.add(first);
        return new SiteDesk(() -> taken.get(taken.size() - 1), taken::add, CLOCK);
    }

    private static void room(SiteDesk desk, String id) {
        desk.change(desk.state().version(), "Mira", id, edit -> edit.put(Things.ROOMS, id, Map.of("kind", "outdoors")));
    }

    @Test
    void everyChange_leavesACopyOfTheFilesBefore() throws IOException {
        SiteDesk desk = desk();
        Files.createDirectories(folder.resolve("crops"));
        Files.writeString(folder.resolve("crops/tomato.yaml"), "crop: tomato\n");
        Files.writeString(folder.resolve("passwords"), "T01 secret alder/#\n");

        room(desk, "frame");
        room(desk, "yard");

        Path copies = folder.resolve("data/site-copies");
        assertThat(copies.resolve("000001-20260314T120000Z/site.yaml")).hasContent(SITE);
        assertThat(copies.resolve("000002-20260314T120000Z/site.yaml"))
                .content()
                .contains("frame")
                .doesNotContain("yard");
        assertThat(copies.resolve("000001-20260314T120000Z/crops/tomato.yaml")).exists();
        assertThat(copies.resolve("000001-20260314T120000Z/passwords")).doesNotExist();
        assertThat(desk.changes()).extracting(SiteChange::isCurrent).containsExactly(false, true);
    }

    @Test
    void onlyTheNewestChange_canBeTakenBack() throws IOException {
        SiteDesk desk = desk();
        room(desk, "frame");
        room(desk, "yard");

        assertThatThrownBy(() -> desk.takeBack(1, desk.state().version(), "")).hasMessageContaining("changed since");
        desk.takeBack(2, desk.state().version(), "Mira");

        assertThat(taken.get(taken.size() - 1).site().rooms())
                .extracting(room -> room.id())
                .containsExactly("propagation", "frame");
        assertThat(desk.changes().get(2).what()).isEqualTo("taken back: yard");
    }

    @Test
    void fileChangedByHand_isTakenOver_orRefusedWholeWithItsErrors() throws IOException {
        SiteDesk desk = desk();

        Files.writeString(folder.resolve("site.yaml"), SITE.replace("Europe/Dublin", "Europe/Paris   # moved"));
        desk.look();
        assertThat(taken.get(1).site().timezone().getId()).isEqualTo("Europe/Paris");

        Files.writeString(folder.resolve("site.yaml"), SITE + "trays: [{id: T01, room: attic}]\n");
        desk.look();
        assertThat(taken).hasSize(2);
        assertThat(desk.notes().get(0)).contains("site.yaml:5:", "attic", "stay in force");
        assertThat(desk.state().errors()).hasSize(2);

        Files.writeString(folder.resolve("site.yaml"), SITE);
        desk.look();
        assertThat(desk.notes()).isEmpty();
        assertThat(taken).hasSize(3);
    }

    @Test
    void commentChangedByHand_startsNothing_butAPersonMustLookAgain() throws IOException {
        SiteDesk desk = desk();
        String seen = desk.state().version();

        Files.writeString(folder.resolve("site.yaml"), SITE.replace("# ours", "# ours since 1988"));
        desk.look();

        assertThat(taken).hasSize(1);
        assertThatThrownBy(() -> desk.change(seen, "", "x", edit -> edit.remove(Things.ROOMS, "propagation")))
                .isInstanceOfSatisfying(
                        SiteRefusedException.class,
                        refused -> assertThat(refused.isStale()).isTrue());
    }

    @Test
    void brokenFile_isNotChangedByThePage() throws IOException {
        SiteDesk desk = desk();
        Files.writeString(folder.resolve("site.yaml"), "site: [x\n");
        desk.look();

        assertThatThrownBy(() -> room(desk, "frame")).isInstanceOf(SiteRefusedException.class);
        assertThat(folder.resolve("site.yaml")).hasContent("site: [x");
    }

    @Test
    void emptyFolder_isABeginning_andTheFirstChangeWritesIt() throws IOException {
        assertThat(NewSite.isBeginning(folder.resolve("absent"))).isTrue();
        assertThat(NewSite.isBeginning(folder)).isTrue();
        SiteDesk desk = desk(NewSite.unwritten(folder, ZoneOffset.UTC, 18831));
        assertThat(desk.state().isBegun()).isFalse();

        desk.change(
                desk.state().version(),
                "",
                "begun",
                edit -> edit.site(Map.of("site", "Alder Lane Nursery", "timezone", "Europe/Dublin"))
                        .put(Things.ROOMS, "propagation", Map.of("kind", "indoors")));

        assertThat(folder.resolve("site.yaml")).hasContent("""
                site: Alder Lane Nursery
                timezone: Europe/Dublin
                rooms:
                  - {id: propagation, kind: indoors}
                messages: {port: 18831}
                """);
        assertThat(taken.get(1).site().messages()).isEqualTo(taken.get(0).site().messages());
        assertThatThrownBy(() -> desk.takeBack(1, desk.state().version(), "")).hasMessageContaining("first step");
        Files.writeString(folder.resolve("notes.txt"), "mine");
        Files.delete(folder.resolve("site.yaml"));
        assertThat(NewSite.isBeginning(folder)).isFalse();
    }
}
