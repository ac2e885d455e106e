package traytender.config.notice;

import java.net.URI;
import java.time.LocalTime;
import org.jspecify.annotations.Nullable;
import traytender.config.alert.Urgency;

/**
 * Who hears of alerts: a person by mail, a program by webhook, or both.
 *
 * @param mail an address; null for no mail
 * @param webhook where alert records are posted; null for nowhere
 * @param secretFile holds the secret by which what is posted is signed, relative to the site folder; null without a webhook
 * @param urgency alerts of this urgency and more urgent ones
 * @param quiet when no mail is sent; null for never
 * @param nowBreaksQuiet whether alerts of urgency {@code now} are mailed in quiet hours too
 * @param night when the report of the night is mailed each morning; null for never
 */
public record Person(
        String name,
        @Nullable String mail,
        @Nullable URI webhook,
        @Nullable String secretFile,
        Urgency urgency,
        @Nullable Quiet quiet,
        boolean nowBreaksQuiet,
        @Nullable Night night) {
    /**
     * The report of the night, each morning.
     *
     * @param at the time of day; quiet hours do not hold it back, since it was asked for at that time
     * @param as what is attached to the mail
     */
    public record Night(LocalTime at, Form as) {}

    /** What a report can be attached as. */
    public enum Form {
        PDF,
        HTML
    }

    /**
     * A part of the day.
     *
     * @param from inclusive
     * @param to exclusive; before {@code from} when it passes midnight; what was held back goes out then, as one digest
     */
    public record Quiet(LocalTime from, LocalTime to) {
        /** Whether a time of day lies in it. */
        public boolean contains(LocalTime time) {
            return from.isBefore(to)
                    ? !time.isBefore(from) && time.isBefore(to)
                    : !time.isBefore(from) || time.isBefore(to);
        }
    }

    /** Whether it hears of alerts of that urgency. */
    public boolean hears(Urgency of) {
        return of.compareTo(urgency) <= 0;
    }
}
