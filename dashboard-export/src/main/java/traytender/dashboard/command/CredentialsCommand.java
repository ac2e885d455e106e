package traytender.dashboard.command;

import java.nio.file.Path;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;
import traytender.config.folder.SiteFolder;
import traytender.ingest.broker.Credentials;

/** Users of the built-in broker for the sensors. */
@Command(
        name = "credentials",
        description = {
            "Gives a sensor a user and a new password at the built-in broker, and prints them: NAME PASSWORD TOPIC...",
            "Without NAME: one user for each topic of the site that nobody may publish to yet.",
            "The site's file passwords keeps only the hash. It counts from the program's next start on."
        })
final class CredentialsCommand extends SiteCommand {
    @Parameters(index = "0", arity = "0..1", paramLabel = "NAME", description = "The sensor's user name.")
    private @Nullable String name;

    @Parameters(
            index = "1..*",
            arity = "0..*",
            paramLabel = "TOPIC",
            description = "A topic it may publish to; + and # as in MQTT.")
    private List<String> topics = List.of();

    @Override
    public void run() {
        SiteFolder folder = readSite();
        Path file = folder.path().resolve("passwords");
        if (name != null) {
            if (topics.isEmpty()) {
                throw wrongUse("Say which topics " + name + " may publish to.");
            }
            give(file, name, topics);
            return;
        }
        Set<String> named = new LinkedHashSet<>();
        folder.site().probes().forEach(probe -> named.add(probe.binding().topic()));
        for (String topic : Credentials.missing(file, named)) {
            give(file, topic.replace('/', '-').replaceAll("\\s", "-"), List.of(topic));
        }
    }

    private void give(Path file, String user, List<String> filters) {
        out().println(user + " " + Credentials.give(file, user, filters) + " " + String.join(" ", filters));
    }
}
