package traytender.dashboard.report;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.Objects;
import org.apache.fontbox.ttf.CmapLookup;
import org.apache.fontbox.ttf.TTFParser;
import org.apache.fontbox.ttf.TrueTypeFont;
import org.apache.pdfbox.io.RandomAccessReadBuffer;

/** The font that the program brings along for what it prints, with the letters of all of Europe, and how wide words are in it. */
final class Typeface {
    static final Typeface REGULAR = new Typeface("DejaVuSansCondensed.ttf");
    static final Typeface BOLD = new Typeface("DejaVuSansCondensed-Bold.ttf");

    private static final double MM_A_POINT = 25.4 / 72;

    private final String file;
    private final CmapLookup glyphs;
    private final TrueTypeFont font;
    private final double unitsPerEm;

    private Typeface(String file) {
        this.file = file;
        try {
            this.font = new TTFParser().parse(new RandomAccessReadBuffer(read(file)));
            this.glyphs = font.getUnicodeCmapLookup();
            this.unitsPerEm = font.getUnitsPerEm();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Its file, TrueType. */
    InputStream open() {
        return read(file);
    }

    private static InputStream read(String file) {
        return Objects.requireNonNull(Typeface.class.getResourceAsStream(file), file);
    }

    /** How wide words are without a break, mm at that size in points. */
    double width(String words, double pt) {
        return words.codePoints().mapToDouble(this::advance).sum() * pt * MM_A_POINT;
    }

    private double advance(int letter) {
        try {
            return font.getAdvanceWidth(glyphs.getGlyphId(letter)) / unitsPerEm;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** On how many rows so wide, mm, the words come to stand when they are broken after spaces and hyphens, and a word too wide for a row within it. */
    int rows(String words, double pt, double room) {
        int rows = 1;
        double filled = 0;
        for (String word : words.split("(?<=[ -])", -1)) {
            double wide = width(word, pt);
            double seen = width(word.stripTrailing(), pt);
            if (filled > 0 && filled + seen > room) {
                rows++;
                filled = 0;
            }
            if (seen > room) {
                int broken = (int) Math.ceil(seen / (room - pt * MM_A_POINT)) - 1;
                rows += broken;
                filled = seen - broken * (room - pt * MM_A_POINT);
            } else {
                filled += wide;
            }
        }
        return rows;
    }
}
