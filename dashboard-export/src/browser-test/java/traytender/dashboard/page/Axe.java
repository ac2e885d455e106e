package traytender.dashboard.page;

import com.deque.html.axecore.playwright.AxeBuilder;
import com.microsoft.playwright.Page;
import java.util.List;

/** What axe finds wrong for people who see, hear or move differently. */
public final class Axe {
    private Axe() {}

    /** Violations of all its rules, each with the elements that break it. */
    public static List<String> violations(Page page) {
        return found(new AxeBuilder(page));
    }

    /** Only what cannot be told from its background well enough. */
    static List<String> faint(Page page) {
        return found(new AxeBuilder(page).withRules(List.of("color-contrast")));
    }

    /** Asked within the page itself: a second tab for the answer, four times slower, serves only frames from elsewhere, and there are none. */
    private static List<String> found(AxeBuilder axe) {
        return axe.setLegacyMode(true).analyze().getViolations().stream()
                .map(rule -> rule.getId() + " " + rule.getNodes())
                .toList();
    }
}
