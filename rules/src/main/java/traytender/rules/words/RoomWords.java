package traytender.rules.words;

import java.util.List;
import traytender.config.site.Site;
import traytender.rules.book.AlertBook.Text;
import traytender.rules.judge.Finding;
import traytender.rules.judge.RoomFacts;

/** Words about a room's air. */
final class RoomWords {
    private final Site site;

    RoomWords(Site site) {
        this.site = site;
    }

    Text of(Finding finding, RoomFacts room) {
        String air = Words.degrees(site, room.air);
        return switch (finding.kind()) {
            case NIGHT_COLD ->
                text(
                        "Air in " + room.room + " is at " + air + " in the night, cold below "
                                + Words.degrees(site, room.nightCold) + ".",
                        "Close vents, see whether the heating runs, cover the trays (" + String.join(", ", room.trays)
                                + ").",
                        room.airProbes,
                        room);
            case AIR_HOT ->
                text(
                        "Air in " + room.room + " is at " + air + ", hot above " + Words.degrees(site, room.airHot)
                                + ".",
                        "Give air and shade now; look at the small cells first, they dry in no time.",
                        room.airProbes,
                        room);
            case FROST_RISK -> text(frostSays(room, air), frostDoes(room), room.airProbes, room);
            case LIGHT_OUT ->
                text(
                        "It is dark in " + room.room + " in the lamps' hours.",
                        "See to lamps, timer and fuse.",
                        room.lightProbes,
                        room);
            case DAMP_AIR ->
                text(
                        "Air in " + room.room + " has been at or above " + Math.round(room.dampHumidity) + " % for "
                                + Words.hours(room.hoursDamp) + ", now " + Math.round(room.humidity) + " %.",
                        "Let air move and warm it a little; water in the morning, not now. Look for mould.",
                        room.humidityProbes,
                        room);
            default -> throw new IllegalArgumentException("no words for " + finding.kind());
        };
    }

    private String frostSays(RoomFacts room, String air) {
        String says = room.rough
                ? "A rough estimate, to be had better two hours after sunset: air in " + room.room + ", now at " + air
                        + ", may fall to about " + Words.degrees(site, room.lowestAhead)
                : "Air in " + room.room + " is at " + air + " and may fall to " + Words.degrees(site, room.lowestAhead);
        says += give(room) + " before sunrise" + sunrise(room) + "; frost harms from " + Words.degrees(site, room.frost)
                + ". On a clear night leaves run colder than the air";
        return says + (Double.isNaN(room.leafAhead) ? "." : ": to about " + Words.degrees(site, room.leafAhead) + ".");
    }

    /** How far a forecast may be off either way, one time in three. */
    private String give(RoomFacts room) {
        return Double.isNaN(room.lowestDoubt) ? "" : ", give or take " + Words.difference(site, room.lowestDoubt) + ",";
    }

    private static String frostDoes(RoomFacts room) {
        String trays = " (" + String.join(", ", room.trays) + ").";
        return room.rough
                ? "Have covers at hand, or bring in what is tender before dark" + trays
                : "Cover the trays or bring them in" + trays;
    }

    private String sunrise(RoomFacts room) {
        return room.sunrise == null ? "" : " (" + site.show().clock(room.sunrise, site.timezone()) + ")";
    }

    private static Text text(String says, String does, List<String> probes, RoomFacts room) {
        return new Text(says, does, probes, room.sowing, null);
    }
}
