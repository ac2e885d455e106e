package traytender.config.folder;

/**
 * One error in the site folder.
 *
 * @param file file name relative to the site folder
 * @param line from 1
 * @param column from 1
 * @param wrong what is wrong
 * @param right what would be right
 */
public record SiteError(String file, int line, int column, String wrong, String right) {
    /** {@code FILE:LINE:COLUMN: what is wrong; what would be right}. */
    @Override
    public String toString() {
        return file + ":" + line + ":" + column + ": " + wrong + "; " + right;
    }
}
