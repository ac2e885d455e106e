package traytender.config.folder;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import traytender.config.folder.SiteEdit.Things;
import traytender.config.site.Calibration;
import traytender.config.site.Cell;
import traytender.config.site.Place;
import traytender.config.site.Site;

class SiteEditTest {
    private static final Instant NOON = Instant.parse("2026-03-14T12:00:00Z");

    @TempDir
    Path folder;

    private String alder = "";

    @BeforeEach
    void read() throws IOException {
        try (InputStream in = SiteEditTest.class.getResourceAsStream("alder-lane.yaml")) {
            alder = new String(in.readAllBytes(), StandardCharsets.UTF_8);
        }
    }

    private Site site(SiteEdit edit) {
        return SiteReader.readWith(folder, edit.text()).site();
    }

    @Test
    void begunSite_readsAsAHandWouldWriteIt() {
        SiteEdit edit = SiteEdit.begun("Alder Lane Nursery")
                .site(ordered("timezone", "Europe/Dublin", "location", ordered("latitude", 53.35, "longitude", -6.26)))
                .site(Map.of("show", Map.of("temperature", "F")))
                .put(Things.ROOMS, "propagation", Map.of("kind", "indoors", "light", "06:00-22:00"))
                .put(
                        Things.TRAYS,
                        "T01",
                        Map.of("room", "propagation", "cells", ordered("rows", 8, "columns", 16), "bench", "north"));

        assertThat(edit.text()).isEqualTo("""
                site: Alder Lane Nursery
                timezone: Europe/Dublin
                location: {latitude: 53.35, longitude: -6.26}
                show: {temperature: F}
                rooms:
                  - {id: propagation, kind: indoors, light: "06:00-22:00"}
                trays:
                  - {id: T01, room: propagation, bench: north, cells: {rows: 8, columns: 16}}
                """);
        assertThat(site(edit).trays()).hasSize(1);
    }

    @Test
    void movedProbe_keepsItsPlaceBefore_andEveryOtherByte() {
        SiteEdit edit =
                SiteEdit.of(alder).move("T01-centre-moisture", ordered("tray", "T01", "row", 1, "column", 8), NOON);

        assertThat(edit.text())
                .isEqualTo(
                        alder.replaceFirst(
                                "at: \\{tray: T01, row: 4, column: 8}",
                                "at: [{tray: T01, row: 4, column: 8}, {tray: T01, row: 1, column: 8, since: 2026-03-14T12:00:00Z}]"));
        var at = site(edit).probe("T01-centre-moisture").orElseThrow().at();
        assertThat(at.at(NOON.minusSeconds(1))).contains(new Place.InCell("T01", new Cell(4, 8)));
        assertThat(at.at(NOON)).contains(new Place.InCell("T01", new Cell(1, 8)));
    }

    @Test
    void calibration_isAddedWhereThereWasNone_andPutRightAtTheSameTime() {
        SiteEdit first = SiteEdit.of(alder).calibrate("T01-centre-temperature", Map.of("offset", -0.4), NOON);

        SiteEdit second = first.calibrate("T01-centre-temperature", Map.of("offset", -0.5), NOON);

        var calibration =
                site(second).probe("T01-centre-temperature").orElseThrow().calibration();
        assertThat(calibration.values()).hasSize(2);
        assertThat(calibration.at(NOON.minusSeconds(1))).contains(new Calibration.None());
        assertThat(calibration.at(NOON)).contains(new Calibration.Offset(-0.5));
    }

    @Test
    void twoHundredSowings_inOneGo_andTakenAwayAgain() {
        var sowings = IntStream.rangeClosed(1, 200)
                .mapToObj(i -> ordered(
                        "rows",
                        String.valueOf((i - 1) / 16 + 1),
                        "columns",
                        String.valueOf((i - 1) % 16 + 1),
                        "crop",
                        "tomato",
                        "variety",
                        "Marsh Bell " + i,
                        "sown",
                        "2026-03-02"))
                .toList();
        SiteEdit tray = SiteEdit.of(alder)
                .put(Things.TRAYS, "T02", Map.of("room", "propagation", "cells", ordered("rows", 13, "columns", 16)));

        SiteEdit sown = tray.sow("T02", sowings);
        SiteEdit less = sown.removeSowing("T02", 0);

        assertThat(site(sown).tray("T02").orElseThrow().sowings()).hasSize(200);
        assertThat(site(less).tray("T02").orElseThrow().sowings().get(0).variety())
                .isEqualTo("Marsh Bell 2");
        assertThat(alder.lines()).allMatch(line -> sown.text().contains(line));
    }

    @Test
    void trays_areOrderedAsOnTheBench() {
        SiteEdit edit = SiteEdit.of(alder)
                .add(Things.TRAYS, List.of(tray("T02"), tray("T03")))
                .reorder(Things.TRAYS, List.of("T03", "T01"));

        assertThat(site(edit).trays()).extracting(tray -> tray.id()).containsExactly("T03", "T01", "T02");
        assertThat(edit.text())
                .contains("  - {id: T03, room: propagation, cells: {rows: 5, columns: 10}}\n  - id: T01\n");
    }

    private static Map<String, Object> tray(String id) {
        return ordered("id", id, "room", "propagation", "cells", ordered("rows", 5, "columns", 10));
    }

    @Test
    void keyThatIsSoAlready_staysAsItIsWritten_andAnEmptyOneGoes() {
        var keys = new LinkedHashMap<String, Object>();
        keys.put("medium", "peat-perlite");
        keys.put("bench", null);

        SiteEdit edit = SiteEdit.of(alder).put(Things.TRAYS, "T01", keys);

        assertThat(edit.text()).isEqualTo(alder.replace("    bench: north\n", ""));
    }

    @Test
    void lastThingOfAList_leavesAnEmptyList() {
        SiteEdit edit = SiteEdit.of(alder.replace("    mat: mat-1\n", ""))
                .remove(Things.PROBES, "mat-1-power")
                .remove(Things.MATS, "mat-1");

        assertThat(edit.text()).contains("mats: []\ntrays:");
        assertThat(site(edit).mats()).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "- a list\n",
                "{site: Alder Lane Nursery}\n",
                "site: [x\n",
                "a: &place {tray: T01, row: 1, column: 1}\nprobes: [{id: P, at: *place}]\n",
            })
    void whatCannotBeChangedAlone_isRefusedWithAWord(String text) {
        assertThatThrownBy(() -> SiteEdit.of(text)
                        .put(Things.PROBES, "P", Map.of("at", Map.of("tray", "T02")))
                        .move("P", Map.of("tray", "T03"), NOON)
                        .put(Things.PROBES, "Q", Map.of("at", "x"))
                        .remove(Things.PROBES, "R"))
                .isInstanceOf(UneditableException.class)
                .hasMessageMatching("(?s).*(file|no probe).*");
    }

    @Test
    void reference_isNotChangedBehindItsBack() {
        String text = "a: &place {tray: T01, row: 1}\nprobes: [{id: P, at: *place}, {id: Q, at: *place}]\n";

        assertThatThrownBy(() -> SiteEdit.of(text).move("P", Map.of("tray", "T03"), NOON))
                .isInstanceOf(UneditableException.class);
    }

    private static Map<String, Object> ordered(Object... pairs) {
        var map = new LinkedHashMap<String, Object>();
        for (int i = 0; i < pairs.length; i += 2) {
            map.put((String) pairs[i], pairs[i + 1]);
        }
        return map;
    }
}
