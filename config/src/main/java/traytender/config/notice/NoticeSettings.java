package traytender.config.notice;

import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * What {@code notices.yaml} of the site folder says.
 *
 * @param page the page's address as it is written into mails; null when none is
 * @param mail by which mail goes out; null when nobody gets mail
 * @param heartbeat where the program says that it is well; null for nowhere
 * @param people who hears of alerts, in the file's order
 */
public record NoticeSettings(
        @Nullable String page,
        @Nullable MailServer mail,
        @Nullable Heartbeat heartbeat,
        List<Person> people) {
    /** Nobody hears of anything but by the page and MQTT. */
    public static final NoticeSettings NONE = new NoticeSettings(null, null, null, List.of());

    public NoticeSettings {
        people = List.copyOf(people);
    }

    /** The person of that name, if there is one. */
    public Optional<Person> find(String name) {
        return people.stream().filter(person -> person.name().equals(name)).findFirst();
    }
}
