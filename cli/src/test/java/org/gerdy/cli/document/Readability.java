package org.gerdy.cli.document;

import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Grade level of a text: 0.39 words a sentence + 11.8 syllables a word - 15.59. Kincaid, Fishburne, Rogers and Chissom
 * 1975, Derivation of new readability formulas for Navy enlisted personnel (recalled). Grade 7 is read at about age 12.
 */
final class Readability {
    private static final Pattern WORD = Pattern.compile("[A-Za-z']+|[0-9]+(?:[./][0-9]+)?");
    private static final Pattern VOWELS = Pattern.compile("[aeiouy]+");

    private Readability() {}

    /** The grade of these sentences; a piece may hold several, ended by a full stop. */
    static double grade(List<String> pieces) {
        int sentences = 0;
        int words = 0;
        int syllables = 0;
        for (String piece : pieces) {
            for (String sentence : piece.split("(?<=[.?:;])\\s+")) {
                Matcher matcher = WORD.matcher(sentence);
                int here = 0;
                while (matcher.find()) {
                    here++;
                    syllables += syllables(matcher.group());
                }
                words += here;
                sentences += here > 0 ? 1 : 0;
            }
        }
        return 0.39 * words / sentences + 11.8 * syllables / words - 15.59;
    }

    static int syllables(String word) {
        String lower = word.toLowerCase(Locale.ROOT);
        Matcher matcher = VOWELS.matcher(lower);
        int count = 0;
        while (matcher.find()) {
            count++;
        }
        boolean silent = lower.endsWith("e") && !lower.endsWith("le") && count > 1;
        boolean past = lower.endsWith("ed") && !lower.endsWith("ted") && !lower.endsWith("ded") && count > 1;
        return Math.max(1, count - (silent || past ? 1 : 0));
    }
}
