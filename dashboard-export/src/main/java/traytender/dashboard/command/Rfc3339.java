package traytender.dashboard.command;

import java.time.DateTimeException;
import java.time.Instant;
import java.time.OffsetDateTime;
import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.TypeConversionException;

/** A time on the command line. */
final class Rfc3339 implements ITypeConverter<Instant> {
    @Override
    public Instant convert(String text) {
        try {
            return OffsetDateTime.parse(text).toInstant();
        } catch (DateTimeException e) {
            throw new TypeConversionException(
                    "'" + text
                            + "' is not a time; right would be, for example, 2026-03-14T05:41:00Z or 2026-03-14T06:41:00+01:00");
        }
    }
}
