package traytender.ingest.file;

import java.math.BigDecimal;

/** Numbers as they stand in files. */
final class Numbers {
    private Numbers() {}

    /** A decimal number with an optional exponent; Java's own extras (hexadecimal, {@code 1d}, {@code NaN}) are none. */
    static double parse(String text) throws Rejection {
        for (int i = 0; i < text.length(); i++) {
            if ("0123456789+-.eE".indexOf(text.charAt(i)) < 0) {
                throw notANumber(text);
            }
        }
        try {
            return Double.parseDouble(text);
        } catch (NumberFormatException e) {
            throw notANumber(text);
        }
    }

    private static Rejection notANumber(String text) {
        return new Rejection("the value is not a number: " + Rejection.quoted(text));
    }

    /** The shortest usual form that {@link #parse} turns back into the very same number, for example {@code 1663} or {@code 18.3}. */
    static String text(double value) {
        if (value == Math.rint(value) && Math.abs(value) < 1e15) {
            return Long.toString((long) value);
        }
        var plain = Math.abs(value) >= 1e-6 && Math.abs(value) < 1e15;
        return plain
                ? new BigDecimal(Double.toString(value)).toPlainString()
                : Double.toString(value).replace('E', 'e');
    }
}
