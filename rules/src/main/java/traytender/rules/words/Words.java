package traytender.rules.words;

import java.util.List;
import java.util.Locale;
import traytender.config.site.Site;
import traytender.rules.book.AlertBook;
import traytender.rules.book.AlertBook.Text;
import traytender.rules.judge.CalendarFacts;
import traytender.rules.judge.Finding;
import traytender.rules.judge.Findings;
import traytender.rules.judge.MoistureFacts;
import traytender.rules.judge.ProbeFacts;
import traytender.rules.judge.RoomFacts;
import traytender.rules.judge.TrayFacts;

/** Makes the text of an alert that opens, from the facts it was found in. */
public final class Words implements AlertBook.Words {
    private final Site site;
    private final Findings all;

    /**
     * Words for one site.
     *
     * @param all everything found at the same minute, so that probes in the same trouble are told together
     */
    public Words(Site site, Findings all) {
        this.site = site;
        this.all = all;
    }

    @Override
    public Text of(Finding finding) {
        Object fact = finding.fact();
        if (fact instanceof MoistureFacts place) {
            return new WaterWords(site).of(finding, place);
        }
        if (fact instanceof TrayFacts tray) {
            return new TrayWords(site).of(finding, tray);
        }
        if (fact instanceof CalendarFacts tray) {
            return new CalendarWords(site).of(finding, tray);
        }
        if (fact instanceof RoomFacts room) {
            return new RoomWords(site).of(finding, room);
        }
        if (fact instanceof ProbeFacts probe) {
            return new ProbeWords().of(finding, probe, alike(finding));
        }
        throw new IllegalArgumentException("no words for " + fact.getClass());
    }

    private List<String> alike(Finding finding) {
        return all.list().stream()
                .filter(other -> other.kind() == finding.kind() && other.zone() == finding.zone())
                .map(Finding::subject)
                .filter(java.util.Objects::nonNull)
                .map(Object::toString)
                .distinct()
                .toList();
    }

    /** A moisture as percent without decimals. */
    static String percent(double moisture) {
        return Math.round(100 * moisture) + " %";
    }

    /** A moisture as percent; "just under" its line where rounding would show the two alike. */
    static String percentBelow(double moisture, double line) {
        boolean looksAlike = moisture < line && percent(moisture).equals(percent(line));
        return looksAlike ? "just under " + percent(line) : percent(moisture);
    }

    /** A temperature as the site shows it, with one decimal. */
    static String degrees(Site site, double celsius) {
        return site.show().fahrenheit()
                ? String.format(Locale.ROOT, "%.1f F", celsius * 9 / 5 + 32)
                : String.format(Locale.ROOT, "%.1f C", celsius);
    }

    /** A temperature difference as the site shows it, with one decimal. */
    static String difference(Site site, double kelvin) {
        return site.show().fahrenheit()
                ? String.format(Locale.ROOT, "%.1f F", kelvin * 9 / 5)
                : String.format(Locale.ROOT, "%.1f C", kelvin);
    }

    /** A duration in hours, in the words a person would use. */
    static String hours(double hours) {
        if (hours < 1.5) {
            return Math.round(hours * 60) + " minutes";
        }
        return hours < 48 ? Math.round(hours) + " hours" : Math.round(hours / 24) + " days";
    }

    /** The text's first letter made large. */
    static String capital(String text) {
        return text.isEmpty() ? text : text.substring(0, 1).toUpperCase(Locale.ROOT) + text.substring(1);
    }
}
