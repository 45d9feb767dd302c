package leat.config;

import java.util.Collection;
import java.util.Locale;
import java.util.Optional;

/** Finds the word that somebody probably meant. */
public final class Spelling {

    /** No word of this format is nearly as long. */
    private static final int LONGEST = 60;

    private Spelling() {}

    /** The closest of the known words, if it is close: about one slip in every three letters. */
    public static Optional<String> closest(String word, Collection<String> known) {
        Optional<String> best = Optional.empty();
        if (word.length() > LONGEST) {
            return best;
        }
        int allowed = Math.max(1, word.length() / 3);
        for (String candidate : known) {
            int distance = distance(plain(word), plain(candidate));
            if (distance <= allowed && distance < Math.max(1, candidate.length())) {
                best = Optional.of(candidate);
                allowed = distance - 1;
            }
        }
        return best;
    }

    /** {@code " Did you mean x?"}, or nothing. */
    public static String didYouMean(String word, Collection<String> known) {
        return closest(word, known).map(w -> " Did you mean " + w + "?").orElse("");
    }

    /** Upper case, dashes and blanks are no slips. */
    private static String plain(String word) {
        return word.toLowerCase(Locale.ROOT).replace('-', '_').replace(' ', '_');
    }

    /** Insertions, deletions, replacements and swaps of neighbours from one word to the other. */
    static int distance(String from, String to) {
        int[][] cost = new int[from.length() + 1][to.length() + 1];
        for (int i = 0; i <= from.length(); i++) {
            cost[i][0] = i;
        }
        for (int j = 0; j <= to.length(); j++) {
            cost[0][j] = j;
        }
        for (int i = 1; i <= from.length(); i++) {
            for (int j = 1; j <= to.length(); j++) {
                int replace = from.charAt(i - 1) == to.charAt(j - 1) ? 0 : 1;
                cost[i][j] =
                        Math.min(
                                cost[i - 1][j - 1] + replace,
                                1 + Math.min(cost[i - 1][j], cost[i][j - 1]));
                if (isSwap(from, to, i, j)) {
                    cost[i][j] = Math.min(cost[i][j], cost[i - 2][j - 2] + 1);
                }
            }
        }
        return cost[from.length()][to.length()];
    }

    private static boolean isSwap(String from, String to, int i, int j) {
        return i > 1
                && j > 1
                && from.charAt(i - 1) == to.charAt(j - 2)
                && from.charAt(i - 2) == to.charAt(j - 1);
    }
}
