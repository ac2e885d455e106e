package traytender.dashboard.command;

import ch.qos.logback.classic.Level;
import ch.qos.logback.classic.Logger;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.slf4j.LoggerFactory;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.ScopeType;
import picocli.CommandLine.Spec;

/** The {@code traytender} command. Exit status: 0 done, 1 failed, 2 wrong use or wrong site files. */
@Command(
        name = "traytender",
        description = "Watches seedling trays through a few cheap probes and tells the grower what to do.",
        mixinStandardHelpOptions = true,
        versionProvider = Version.class,
        scope = ScopeType.INHERIT,
        sortOptions = false,
        subcommands = {
            NewCommand.class,
            DemoCommand.class,
            RunCommand.class,
            CheckCommand.class,
            CredentialsCommand.class,
            ImportCommand.class,
            ReplayCommand.class,
            NightCommand.class,
            ExportCommand.class,
            BackupCommand.class,
            RestoreCommand.class,
            RehearseCommand.class
        })
public final class Traytender implements Runnable {
    private final Clock clock;

    @Spec
    private @Nullable CommandSpec spec;

    private Traytender(Clock clock) {
        this.clock = clock;
    }

    /** The clock every part of the program tells the time by. */
    Clock clock() {
        return clock;
    }

    @Option(
            names = "--log-level",
            scope = ScopeType.INHERIT,
            paramLabel = "LEVEL",
            description = "How much to tell on standard error: ${COMPLETION-CANDIDATES}.")
    void logLevel(LogLevel level) {
        ((Logger) LoggerFactory.getLogger("traytender")).setLevel(Level.toLevel(level.name()));
    }

    /** How much the program tells. */
    enum LogLevel {
        ERROR,
        WARN,
        INFO,
        DEBUG,
        TRACE;

        @Override
        public String toString() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    /** Does what the arguments say and ends the process. */
    public static void main(String[] arguments) {
        int status = commandLine(Clock.systemUTC())
                .setOut(new PrintWriter(System.out, true, StandardCharsets.UTF_8))
                .setErr(new PrintWriter(System.err, true, StandardCharsets.UTF_8))
                .execute(arguments);
        System.exit(status);
    }

    /** The command line, ready to execute; tests give it a clock and writers of their own. */
    static CommandLine commandLine(Clock clock) {
        return new CommandLine(new Traytender(clock))
                .setCaseInsensitiveEnumValuesAllowed(true)
                .setExecutionExceptionHandler(new FailureReport());
    }

    @Override
    public void run() {
        if (spec != null) {
            throw new ParameterException(spec.commandLine(), "Say what to do: one of the commands below.");
        }
    }
}
