package traytender.config.folder;

import java.util.Collection;
import java.util.Comparator;
import java.util.Locale;
import java.util.Optional;

/** The word somebody probably meant. */
final class Nearest {
    private Nearest() {}

    /** The known word nearest to one that is not known, when it is near enough to be meant. */
    static Optional<String> to(String word, Collection<String> known) {
        String plain = plain(word);
        return known.stream()
                .filter(candidate -> distance(plain, plain(candidate)) <= near(candidate))
                .min(Comparator.<String>comparingInt(candidate -> distance(plain, plain(candidate)))
                        .thenComparing(Comparator.naturalOrder()));
    }

    /** A third of the letters, at least one, but never all of them. */
    private static int near(String candidate) {
        return Math.min(candidate.length() - 1, Math.max(1, candidate.length() / 3));
    }

    private static String plain(String word) {
        return word.toLowerCase(Locale.ROOT).replaceAll("[\\s_]", "-");
    }

    /** Letters to put in, leave out, change or swap with their neighbour to make one word of the other. */
    private static int distance(String one, String other) {
        int[][] cost = new int[one.length() + 1][other.length() + 1];
        for (int i = 0; i <= one.length(); i++) {
            for (int j = 0; j <= other.length(); j++) {
                if (i == 0 || j == 0) {
                    cost[i][j] = i + j;
                    continue;
                }
                int change = one.charAt(i - 1) == other.charAt(j - 1) ? 0 : 1;
                cost[i][j] = Math.min(cost[i - 1][j - 1] + change, Math.min(cost[i - 1][j], cost[i][j - 1]) + 1);
                if (i > 1
                        && j > 1
                        && one.charAt(i - 1) == other.charAt(j - 2)
                        && one.charAt(i - 2) == other.charAt(j - 1)) {
                    cost[i][j] = Math.min(cost[i][j], cost[i - 2][j - 2] + 1);
                }
            }
        }
        return cost[one.length()][other.length()];
    }
}
