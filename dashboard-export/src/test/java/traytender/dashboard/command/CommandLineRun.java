package traytender.dashboard.command;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;

/** One run of the command line in this process: its status and what it wrote. */
record CommandLineRun(int status, String out, String err) {
    static final Instant NOW = Instant.parse("2026-03-20T12:00:00Z");

    static CommandLineRun of(Object... arguments) {
        var out = new StringWriter();
        var err = new StringWriter();
        var words = new String[arguments.length];
        for (int i = 0; i < words.length; i++) {
            words[i] = arguments[i].toString();
        }
        int status = Traytender.commandLine(Clock.fixed(NOW, ZoneOffset.UTC))
                .setOut(new PrintWriter(out, true))
                .setErr(new PrintWriter(err, true))
                .execute(words);
        return new CommandLineRun(status, out.toString(), err.toString());
    }
}
