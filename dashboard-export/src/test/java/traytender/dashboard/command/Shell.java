package traytender.dashboard.command;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;

/** Programs of the machine, run to their end. */
final class Shell {
    private Shell() {}

    /** What a program did: its status and all that it wrote. */
    record Outcome(int status, String text) {}

    static Outcome run(String... command) throws IOException, InterruptedException {
        Process process = new ProcessBuilder(command).redirectErrorStream(true).start();
        process.getOutputStream().close();
        String text = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        return new Outcome(process.waitFor(), text);
    }

    /** What a program wrote that must succeed. */
    static String done(String... command) throws IOException, InterruptedException {
        Outcome outcome = run(command);
        assertThat(outcome.status())
                .as(String.join(" ", command) + "\n" + outcome.text())
                .isZero();
        return outcome.text();
    }
}
