package traytender.dashboard.command;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.DateTimeException;
import java.time.LocalDate;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.Option;
import picocli.CommandLine.TypeConversionException;
import traytender.config.folder.SiteFolder;
import traytender.dashboard.program.ProgramException;
import traytender.dashboard.program.Stores;
import traytender.dashboard.report.NightWriter;
import traytender.dashboard.report.StoredNight;
import traytender.ingest.store.SiteStore;
import traytender.rules.night.NightReport;

/** Writes the night's report. */
@Command(
        name = "night",
        description = "Writes a night's report: lowest, highest, hours beyond the limits. HTML; .pdf, .csv or .json by"
                + " the file's ending.")
final class NightCommand extends SiteCommand {
    @Option(
            names = "--date",
            paramLabel = "D",
            converter = Day.class,
            description = "The day on whose evening the night begins, as 2026-03-14; last night unless said.")
    private @Nullable LocalDate date;

    @Option(names = "--out", paramLabel = "FILE", description = "Where to write; standard output unless said.")
    private @Nullable Path file;

    /** A date on the command line. */
    static final class Day implements ITypeConverter<LocalDate> {
        @Override
        public LocalDate convert(String text) {
            try {
                return LocalDate.parse(text);
            } catch (DateTimeException e) {
                throw new TypeConversionException(
                        "'" + text + "' is not a date; right would be, for example, 2026-03-14");
            }
        }
    }

    @Override
    public void run() {
        SiteFolder folder = readSite();
        LocalDate evening = date != null
                ? date
                : LocalDate.ofInstant(clock().instant(), folder.site().timezone())
                        .minusDays(1);
        NightReport report = read(folder, evening);
        if (file == null) {
            Output.write(
                    null,
                    out(),
                    writer ->
                            writer.write(new String(NightWriter.html(folder.site(), report), StandardCharsets.UTF_8)));
            return;
        }
        try {
            NightWriter.write(folder.site(), report, file);
        } catch (IOException e) {
            throw new ProgramException("cannot write " + file + ": " + e.getMessage(), e);
        }
    }

    private static NightReport read(SiteFolder folder, LocalDate evening) {
        try (SiteStore store = Stores.toRead(folder)) {
            return StoredNight.of(folder, store, evening);
        }
    }
}
