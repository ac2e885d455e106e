package traytender.rules.few;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import traytender.rules.view.TrayView;
import traytender.rules.view.ZoneView;

/**
 * Which of the watched trays have a moisture probe that can be believed, which are judged from a like one, and which are not judged
 * at all; and where the next probe helps most. Trays in which nothing grows are left out. It is for people's eyes only: no alert
 * comes from a tray without a probe.
 *
 * @param probed trays with a probe or load cell of their own, in the site's order
 * @param judged trays judged from a like one, in the site's order
 * @param blind trays not judged at all, in the site's order
 * @param next where the next probe helps most; null when every watched tray has one
 */
public record Coverage(
        List<String> probed,
        List<JudgedTray> judged,
        List<String> blind,
        @Nullable Advice next) {
    /**
     * Where the next probe helps most.
     *
     * @param tray where to put it, into its centre
     * @param speaksFor trays it would tell of for the first time or, where all are judged already, more surely; itself among them
     * @param isForBlind whether those are trays not judged at all today
     */
    public record Advice(String tray, List<String> speaksFor, boolean isForBlind) {}

    public Coverage {
        probed = List.copyOf(probed);
        judged = List.copyOf(judged);
        blind = List.copyOf(blind);
    }

    /**
     * Of trays as they are known now, in the site's order.
     *
     * @param weighed trays on a load cell that tells their moisture, which needs no other to speak for them
     */
    public static Coverage of(List<TrayView> trays, Set<String> weighed) {
        var probed = new ArrayList<String>();
        var judged = new ArrayList<JudgedTray>();
        var blind = new ArrayList<String>();
        for (TrayView tray : trays) {
            Optional<Likeness> likeness = Likeness.of(tray);
            if (likeness.isEmpty()) {
                continue;
            }
            if (isProbed(tray) || weighed.contains(tray.id())) {
                probed.add(tray.id());
                continue;
            }
            Optional<JudgedTray> found = JudgedTray.of(tray, speakers(likeness.get(), tray, trays));
            found.ifPresentOrElse(judged::add, () -> blind.add(tray.id()));
        }
        return new Coverage(probed, judged, blind, advice(trays, judged, blind));
    }

    /** How a tray is judged from another; empty for one with a probe, and for one that is not judged. */
    public Optional<JudgedTray> judged(String tray) {
        return judged.stream().filter(one -> one.tray().equals(tray)).findFirst();
    }

    /** Whether a moisture probe of its own tells of it, now and without doubt. */
    static boolean isProbed(TrayView tray) {
        return tray.zones().stream().anyMatch(Coverage::tells);
    }

    static boolean tells(ZoneView zone) {
        return zone.trusted() && !Double.isNaN(zone.moisture());
    }

    /** Like trays with probes, those that stand nearest in the site's order first. */
    private static List<TrayView> speakers(Likeness likeness, TrayView tray, List<TrayView> trays) {
        int here = trays.indexOf(tray);
        return trays.stream()
                .filter(other -> isProbed(other)
                        && likeness.equals(Likeness.of(other).orElse(null))
                        && JudgedTray.isWateredWith(tray, other))
                .sorted((one, other) ->
                        Integer.compare(Math.abs(trays.indexOf(one) - here), Math.abs(trays.indexOf(other) - here)))
                .toList();
    }

    /** The largest group of like trays that nothing tells of; where there is none, the largest that is judged from others. */
    private static @Nullable Advice advice(List<TrayView> trays, List<JudgedTray> judged, List<String> blind) {
        boolean forBlind = !blind.isEmpty();
        List<String> wanting =
                forBlind ? blind : judged.stream().map(JudgedTray::tray).toList();
        Map<Likeness, List<String>> groups = new LinkedHashMap<>();
        for (TrayView tray : trays) {
            if (wanting.contains(tray.id())) {
                Likeness.of(tray)
                        .ifPresent(like -> groups.computeIfAbsent(like, unused -> new ArrayList<>())
                                .add(tray.id()));
            }
        }
        return groups.values().stream()
                .reduce((one, other) -> other.size() > one.size() ? other : one)
                // In the middle of its group it stands nearest to all of them.
                .map(group -> new Advice(group.get(group.size() / 2), List.copyOf(group), forBlind))
                .orElse(null);
    }
}
