package traytender.dashboard.command;

import java.io.PrintWriter;
import java.io.UncheckedIOException;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import picocli.CommandLine;
import picocli.CommandLine.ExitCode;
import picocli.CommandLine.IExecutionExceptionHandler;
import picocli.CommandLine.ParseResult;
import traytender.config.folder.SiteError;
import traytender.config.folder.SiteFolderException;
import traytender.dashboard.page.PageException;
import traytender.dashboard.program.ProgramException;
import traytender.ingest.broker.BrokerException;
import traytender.ingest.file.ImportException;
import traytender.ingest.intake.IntakeException;
import traytender.ingest.mqtt.LinkException;
import traytender.ingest.store.StoreException;

/** Turns what a command threw into lines for the grower and an exit status. */
final class FailureReport implements IExecutionExceptionHandler {
    private static final Logger log = LoggerFactory.getLogger(FailureReport.class);

    @Override
    public int handleExecutionException(Exception failure, CommandLine command, ParseResult parsed) {
        PrintWriter err = command.getErr();
        if (failure instanceof SiteFolderException site) {
            for (SiteError error : site.errors()) {
                err.println(error);
            }
            return ExitCode.USAGE;
        }
        if (isForTheGrower(failure)) {
            err.println("traytender: " + failure.getMessage());
            log.debug("cause", failure);
            return ExitCode.SOFTWARE;
        }
        err.println("traytender: " + failure);
        err.println(
                "This is a fault of the program, not yours. Maybe say --log-level debug to see where it came from.");
        log.debug("cause", failure);
        return ExitCode.SOFTWARE;
    }

    private static boolean isForTheGrower(Exception failure) {
        return failure instanceof ProgramException
                || failure instanceof PageException
                || failure instanceof StoreException
                || failure instanceof ImportException
                || failure instanceof IntakeException
                || failure instanceof BrokerException
                || failure instanceof LinkException
                || failure instanceof UncheckedIOException;
    }
}
