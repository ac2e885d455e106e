package traytender.rules.words;

import java.time.Duration;
import java.time.Instant;
import java.time.ZonedDateTime;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import traytender.config.alert.Alert;
import traytender.config.site.Site;
import traytender.rules.book.AlertBook.Text;
import traytender.rules.judge.Finding;
import traytender.rules.judge.MoistureFacts;

/** Words about the water of one place. */
final class WaterWords {
    /** Peat drier than this sheds water poured on it; common practice, no source. */
    private static final double SHEDS_WATER = 0.25;

    private final Site site;

    WaterWords(Site site) {
        this.site = site;
    }

    Text of(Finding finding, MoistureFacts place) {
        String where = Words.capital(place.zone.spoken()) + " of " + place.tray;
        String says;
        String does;
        Alert.@Nullable Forecast forecast = null;
        switch (finding.kind()) {
            case DRY -> {
                says = where + " is at " + Words.percentBelow(place.moisture, place.dryLine) + ", dry line "
                        + Words.percent(place.dryLine) + ".";
                does = dry(place);
            }
            case DRYING_SOON -> {
                forecast = place.forecast;
                says = where + " is at " + Words.percent(place.moisture) + " and will be at its dry line ("
                        + Words.percent(place.dryLine) + ") " + when(forecast, place.hoursToDry) + ".";
                does = "Water the " + place.zone.spoken() + " " + by(forecast, place.hoursToDry)
                        + "; look at the tray's other places on the same round.";
            }
            case UNEVEN_DRYING -> {
                says = where + " has lost " + Words.percent(place.lost) + " since the last watering, "
                        + String.format(Locale.ROOT, "%.1f", place.lossRatio) + " times as much as the "
                        + place.slowestZone.spoken() + ".";
                does = "Water the " + place.zone.spoken() + " by itself when it needs it; look for the cause: "
                        + "a mat under it, a draught, a lamp, a dry edge. Turn the tray on the next round.";
            }
            case MISSED_WATERING -> {
                says = where + " took up " + Words.percent(Math.max(0, place.rise))
                        + " at the last watering although it "
                        + "lacked " + Words.percent(place.lackedBefore) + "; other places took up "
                        + Words.percent(place.othersRise) + ".";
                does = place.moisture < SHEDS_WATER
                        ? "Set the tray in water until the " + place.zone.spoken()
                                + " is dark and heavy: medium this dry sheds water poured on it."
                        : "Water the " + place.zone.spoken() + " again by itself, slowly.";
            }
            case STAYING_WET -> {
                says = where + " has been above its wet line (" + Words.percent(place.wetLine) + ") for "
                        + Words.hours(place.hoursWet) + ", now " + Words.percent(place.moisture) + ".";
                does =
                        "Do not water. Take covers off, let air move over it, see that the tray drains. If leaves wilt all "
                                + "the same, shade them: the roots lack air, not water.";
            }
            default -> throw new IllegalArgumentException("no words for " + finding.kind());
        }
        return new Text(says, does, List.of(place.probe), place.sowing, forecast);
    }

    private static String dry(MoistureFacts place) {
        if (place.moisture < SHEDS_WATER) {
            return "Set the tray in water now until the " + place.zone.spoken()
                    + " is dark and heavy: medium this dry sheds water poured on it. Do not feed before it is moist again.";
        }
        return "Water the " + place.zone.spoken() + " now. Do not feed it dry.";
    }

    /** The last half hour that is early enough by the forecast's early end. */
    private String by(Alert.@Nullable Forecast forecast, double hours) {
        if (forecast == null) {
            return "within " + Words.hours(hours);
        }
        ZonedDateTime early = forecast.earliest().atZone(site.timezone());
        return "by "
                + site.show()
                        .clock(early.truncatedTo(ChronoUnit.HOURS)
                                .plusMinutes(early.getMinute() < 30 ? 0 : 30)
                                .toLocalTime());
    }

    private String when(Alert.@Nullable Forecast forecast, double hours) {
        if (forecast == null) {
            return "in about " + Words.hours(hours);
        }
        return part(forecast.expected()) + ", about " + clock(forecast.expected()) + " (between "
                + clock(forecast.earliest()) + " and " + clock(forecast.latest()) + ")"
                + (Duration.between(forecast.earliest(), forecast.latest()).toHours() >= 24 ? ", roughly" : "");
    }

    private String clock(Instant time) {
        return site.show().clock(time, site.timezone());
    }

    private String part(Instant time) {
        ZonedDateTime local = time.atZone(site.timezone());
        int hour = local.getHour();
        if (hour < 5) {
            return "in the night";
        }
        if (hour < 9) {
            return "early in the morning";
        }
        if (hour < 12) {
            return "before noon";
        }
        return hour < 18 ? "in the afternoon" : hour < 22 ? "in the evening" : "in the night";
    }
}
