package traytender.dashboard.setup;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.BoundingBox;
import com.microsoft.playwright.options.ColorScheme;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import traytender.config.folder.SiteFolder;
import traytender.dashboard.page.Axe;
import traytender.dashboard.page.Chromium;
import traytender.dashboard.page.PageSettings;
import traytender.dashboard.program.Program;
import traytender.testing.NeedsServer;

/** A bench that runs, changed by the page and by hand, by one and by two at once; and what is told of trays with few probes. */
@NeedsServer("chromium")
class ChangesBrowserTest {
    private static final int PHONE = 390;
    private static final int DESK = 1280;

    @TempDir
    static Path folder;

    private static Program program;
    private static Chromium chromium;
    private static String written;

    @BeforeAll
    static void run() throws IOException {
        SiteFolder site = WateredBench.in(folder);
        written = Files.readString(file());
        program = Program.start(
                site, new PageSettings("127.0.0.1", 0, folder.resolve("page.password")), WateredBench.CLOCK);
        chromium = new Chromium();
        await().until(program::isWell);
    }

    @AfterAll
    static void stop() {
        chromium.close();
        program.close();
    }

    @AfterEach
    void leaveAsItWas() throws IOException {
        Files.writeString(file(), written);
        assertThat(chromium.troubles).isEmpty();
    }

    private static Path file() {
        return folder.resolve("site.yaml");
    }

    private static Page open(String view, int width) {
        Page page = chromium.open(width, 900, ColorScheme.LIGHT, program.page());
        page.navigate(program.page() + view);
        page.waitForSelector("main h1");
        return page;
    }

    private static Page openOnPhone(String view) {
        Page page = chromium.openOnPhone(PHONE, 844, ColorScheme.LIGHT, program.page());
        page.navigate(program.page() + view);
        page.waitForSelector("main h1");
        return page;
    }

    private static void picture(Page page, String name) {
        Chromium.picture(page, "setup-" + name, true);
    }

    private static Locator tray(Page page, String id) {
        return page.locator("[data-tray='" + id + "']");
    }

    @Test
    void tray_isDraggedToItsPlace_alsoToAnotherBench_andTakenBack() throws IOException {
        Page page = open("setup/trays", DESK);

        drag(page, "T02", "T01", 0.2);
        assertThat(page.locator("#told")).containsText("T02 stands beside T01.");
        assertThat(page.locator("[data-tray]").first()).hasAttribute("data-tray", "T02");
        assertThat(page.locator("#undo")).isVisible();
        drag(page, "T01", "T03", 0.8);
        assertThat(page.locator("#told")).containsText("T01 stands beside T03.");
        assertThat(page.getByLabel("propagation, bench south").locator("[data-tray]"))
                .hasCount(2);
        picture(page, "dragged");
        page.locator("#undo").click();
        assertThat(page.locator("#told")).containsText("Taken back.");
        assertThat(page.getByLabel("propagation, bench south").locator("[data-tray]"))
                .hasCount(1);

        assertThat(Files.readString(file())).startsWith("# Ours since 1988.").containsSubsequence("id: T02", "id: T01");
        page.context().close();
    }

    /** By the mouse, from its handle to a point of another tray, so far from the left as the share says. */
    private static void drag(Page page, String id, String onto, double share) {
        tray(page, id).locator(".handle").hover();
        page.mouse().down();
        BoundingBox to = tray(page, onto).boundingBox();
        page.mouse().move(to.x + to.width / 2, to.y + 30);
        page.mouse().move(to.x + to.width * share, to.y + 30);
        page.mouse().up();
    }

    @Test
    void tray_isDraggedByFinger_whileThePageStandsStill_andThePageScrollsBesideIt() throws IOException {
        Page page = openOnPhone("setup/trays");
        var finger = new Finger(page);
        tray(page, "T01").evaluate("card => card.scrollIntoView()");
        Object at = page.evaluate("scrollY");
        BoundingBox handle = tray(page, "T01").locator(".handle").boundingBox();
        BoundingBox onto = tray(page, "T02").boundingBox();

        finger.down(handle.x + 20, handle.y + handle.height / 2);
        finger.moveTo(onto.x + 40, onto.y + onto.height * 0.7);
        assertThat(page.locator(".carried")).hasAttribute("data-tray", "T01");
        assertThat(page.locator(".drop-after")).hasAttribute("data-tray", "T02");
        assertThat(page.evaluate("scrollY")).isEqualTo(at);
        Chromium.picture(page, "setup-dragged-by-finger", false);
        finger.up();

        assertThat(page.locator("#told")).containsText("T01 stands beside T02.");
        assertThat(page.locator("[data-tray]").first()).hasAttribute("data-tray", "T02");
        assertThat(Files.readString(file())).containsSubsequence("id: T02", "id: T01");
        page.evaluate("scrollTo(0, 0)");
        BoundingBox beside = page.locator(".lead").boundingBox();
        finger.down(beside.x + 20, beside.y + 10);
        finger.moveTo(beside.x + 20, beside.y - 200);
        finger.up();
        page.waitForCondition(() -> ((Number) page.evaluate("scrollY")).doubleValue() > 100);
        assertThat(page.locator(".carried")).hasCount(0);
        page.context().close();
    }

    @Test
    void tenTrays_areAddedLikeTheLastOne_andFiftySowingsPasted() throws IOException {
        Page page = open("setup/trays", PHONE);

        page.locator("#how-many").fill("10");
        page.locator("#add-trays").click();
        assertThat(page.locator("#told")).containsText("T04 to T13 are added.");
        assertThat(page.getByLabel("propagation, bench south", new Page.GetByLabelOptions().setExact(true)).locator("[data-tray]"))
                .hasCount(11);
        var lines = new StringBuilder("Tray\tVariety\tCrop\tRows\tSown\n");
        for (int number = 0; number < 50; number++) {
            lines.append("T%02d\tTrial %d\ttomato\t%d\t2026-03-13\n".formatted(4 + number / 5, number, 1 + number % 5));
        }
        page.locator("#many-all > summary").click();
        page.locator("#paste-all").fill(lines + "T99\tTrial 50\ttomato\t1\t2026-03-13\n");
        page.locator("#sow-many-all").click();
        assertThat(page.locator("#told")).containsText("nothing is sown: line 52: no tray T99");
        page.locator("#paste-all").fill(lines.toString());
        page.locator("#sow-many-all").click();

        assertThat(page.locator("#told")).containsText("50 sowings are in 10 trays.");
        assertThat(Files.readString(file())).contains("variety: Trial 0,", "variety: Trial 49,");
        assertThat(Files.readString(file()).split("cells: \\{rows: 6, columns: 12\\}", -1)).hasSize(14);
        picture(page, "ten-trays");
        page.context().close();
    }

    /** Common formats, and one of the grower's own that no phone is as wide as. */
    @Test
    void cellOfAnyFormat_isTappedOnAPhone_andWalkedToByKeys() {
        Page page = openOnPhone("setup/trays");
        for (String format : new String[] {"50", "98", "128", "200", "other"}) {
            page.locator("#tray-id").fill("F" + format);
            page.locator("#format").selectOption(format);
            if (format.equals("other")) {
                page.locator("#rows").fill("15");
                page.locator("#columns").fill("30");
            }
            page.locator("#add-trays").tap();
            assertThat(page.locator("#told")).containsText("F" + format + " is added.");
            // The form is drawn anew with the tray's card, which must not fall into what is filled in next.
            assertThat(tray(page, "F" + format)).isVisible();
        }

        page.navigate(program.page() + "setup/sensors");
        page.locator("#move-T01-corner > summary").tap();
        Locator cells = page.locator("#move-T01-corner .cell-pick");
        for (String format : new String[] {"F50 5 10", "F98 7 14", "F128 8 16", "F200 10 20", "Fother 15 30"}) {
            String[] parts = format.split(" ");
            page.locator("#tray-to-T01-corner").selectOption(parts[0]);
            Locator last = cells.locator("[data-cell='" + parts[1] + "/" + parts[2] + "']");
            // WCAG 2.2, success criterion 2.5.8: 24 by 24 at least.
            assertThat(last.boundingBox().width).as(format).isGreaterThanOrEqualTo(24);
            assertThat(last.boundingBox().height).as(format).isGreaterThanOrEqualTo(24);
            last.tap();
            assertThat(page.locator("#row-to-T01-corner")).hasValue(parts[1]);
            assertThat(page.locator("#column-to-T01-corner")).hasValue(parts[2]);
            assertThat(page.evaluate("document.documentElement.scrollWidth <= document.documentElement.clientWidth"))
                    .as(format)
                    .isEqualTo(true);
        }
        Chromium.picture(page, "setup-cells-450", false);
        page.keyboard().press("ArrowLeft");
        page.keyboard().press("ArrowUp");
        page.keyboard().press("ArrowDown");
        page.keyboard().press("ArrowDown");

        // On a phone the tray stands upright, its front at the left: left is a row nearer, down a column further, and there it ends.
        assertThat(page.locator("#row-to-T01-corner")).hasValue("14");
        assertThat(page.locator("#column-to-T01-corner")).hasValue("30");
        assertThat(page.locator("#move-T01-corner [role='status']")).containsText("row 14, column 30");
        page.context().close();
    }

    @Test
    void mat_isLaidUnderAllTraysOfABench() throws IOException {
        Page page = open("setup/trays", PHONE);

        page.locator("#mat-under-T01").selectOption("mat-1");
        page.locator("#lay-T01").click();

        assertThat(page.locator("#told")).containsText("mat-1 lies under T01 to T02.");
        assertThat(Files.readString(file())).contains("mat: mat-1");
        page.context().close();
    }

    @Test
    void probe_isLentAndIsBackByItself() throws IOException {
        Page page = open("setup/sensors", PHONE);

        page.locator("#move-T01-corner > summary").click();
        page.locator("#tray-to-T01-corner").selectOption("T02");
        page.locator("#since-to-T01-corner").fill("2026-03-14T13:00");
        page.locator("#until-to-T01-corner").fill("2026-03-15T08:00");
        picture(page, "lend");
        page.locator("#do-move-T01-corner").click();

        assertThat(page.locator("#told")).containsText("and is back from 2026-03-15 08:00");
        assertThat(Files.readString(file()))
                .contains(
                        "{tray: T02, row: 1, column: 1, since: 2026-03-14T13:00:00Z}",
                        "{tray: T01, row: 1, column: 1, since: 2026-03-15T08:00:00Z}");
        page.navigate(program.page() + "setup");
        assertThat(page.locator("#past-title + .field + ol li").first())
                .containsText("T01-corner moved to T02, row 1, column 1 from 13:00 on");
        picture(page, "changes");
        page.context().close();
    }

    @Test
    void fileEditedByHand_isTakenOver_orRefusedWholeWithItsErrorsOnTheOpenPage() throws IOException {
        Page page = open("setup", PHONE);
        Locator state = page.locator("#file-state");
        assertThat(state).isEmpty();

        Files.writeString(file(), written.replace("Alder Lane Nursery", "Alder Lane South") + "benches: 3\n");
        assertThat(state).containsText("The old ones stay in force");
        assertThat(state.locator("pre")).containsText("site.yaml:");
        assertThat(page.locator("#site-name")).hasText("Alder Lane Nursery");
        picture(page, "refused");
        assertThat(Axe.violations(page)).isEmpty();

        Files.writeString(file(), written.replace("Alder Lane Nursery", "Alder Lane South"));
        assertThat(state).containsText("The site was changed meanwhile");
        state.locator("a").click();
        assertThat(page.locator("#site-details > summary")).hasText("Site: Alder Lane South");
        assertThat(page.locator("#site-name")).hasText("Alder Lane South");
        page.context().close();
    }

    @Test
    void twoPeopleAtOnce_loseNothing() throws IOException {
        Page one = open("setup", DESK);
        Page other = open("setup", PHONE);
        addRoom(one, "frame");
        assertThat(one.locator("#told")).containsText("frame is kept.");

        addRoom(other, "yard");

        assertThat(other.locator("#told")).containsText("changed meanwhile");
        assertThat(other.locator("#new-room")).hasValue("yard");
        other.locator("#file-state a").click();
        assertThat(other.getByLabel("Take away room frame")).isVisible();
        addRoom(other, "yard");
        assertThat(other.locator("#told")).containsText("yard is kept.");
        assertThat(Files.readString(file())).contains("id: frame", "id: yard");
        chromium.troubles.removeIf(trouble -> trouble.contains("409"));
        one.context().close();
        other.context().close();
    }

    private static void addRoom(Page page, String name) {
        Chromium.unfold(page.locator("#room-details"));
        page.locator("#new-room").fill(name);
        page.locator("#keep-room").click();
    }

    @Test
    void thermometer_isSetByAnotherOne() throws IOException {
        Page page = open("setup/calibrate/T01-root", PHONE);

        page.locator("#other-probe").selectOption("T03-root");
        page.locator("#other-effect").click();

        assertThat(page.locator("#effect-sentence")).containsText("it told 21.9 °C to 21.9 °C; with the new calibration it would have told 21.4");
        picture(page, "against-another");
        page.locator("#keep-now").click();
        assertThat(page.locator("#told")).containsText("T01-root is calibrated from now on");
        assertThat(Files.readString(file())).contains("{offset: -0.5, since: 2026-03-14T12:00:00Z}");
        page.context().close();
    }

    @Test
    void probeThatReadsLessAfterEachWatering_isDueForCalibration() throws IOException {
        Page page = open("setup/sensors", PHONE);

        Locator due = page.locator("[data-probe='T01-corner']");
        assertThat(due).containsText("calibration is due again");
        assertThat(page.locator("[data-probe='T01-centre']")).not().containsText("due again");
        // A bench that is all set up is told of no next step, be nothing heard since this start.
        assertThat(page.locator(".next")).hasCount(0);
        picture(page, "due");
        page.locator("#offer-T01-corner").click();
        assertThat(page.locator("#told")).containsText("T01-corner has the wet end");
        assertThat(Files.readString(file())).contains("since: 2026-03-14T12:00:00Z");
        page.context().close();
    }

    @Test
    void trayWithoutAProbe_isDrawnWithTheDoubtOfBeingJudgedFromAnother() {
        Page page = open("trays/T02", PHONE);

        assertThat(page.locator("main")).containsText("Judged from T01");
        // Two colours a cell: what it may be at the driest and at the wettest.
        assertThat(page.locator("path.cell")).hasCount(2 * 6 * 12);
        assertThat(page.locator("path.cell").first().getAttribute("fill"))
                .isNotEqualTo(page.locator("path.cell").nth(1).getAttribute("fill"));
        picture(page, "judged-from");
        page.navigate(program.page().toString());
        Chromium.unfold(page.locator("#coverage"));
        assertThat(page.locator("#coverage")).containsText("1 judged from others");
        assertThat(page.locator("#coverage")).containsText("The next probe helps most in the centre of T02");
        picture(page, "coverage");
        page.context().close();
    }

    @Test
    void trayOnALoadCell_tellsTheMoistureOfTheWholeOfIt() {
        Page page = open("trays/T03", PHONE);

        assertThat(page.locator("main")).containsText("The whole tray is at 85");
        assertThat(page.locator("main")).containsText("by its weight");
        picture(page, "load-cell");
        page.navigate(program.page() + "trays");
        assertThat(page.locator("main")).containsText("Whole tray 85\u00a0% by its weight");
        page.context().close();
    }
}
