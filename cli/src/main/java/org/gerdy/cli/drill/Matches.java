package org.gerdy.cli.drill;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.StringTokenizer;
import org.apache.commons.text.similarity.LevenshteinDistance;

/** Finds what free words mean among ids and their texts. Rare words count more than common ones. */
final class Matches {
    private static final int MOST = 8;
    private static final double IN_ID = 2;
    private static final int LONG_WORD = 5;
    private static final Set<String> EMPTY_WORDS = Set.of(
            "is", "the", "a", "an", "of", "in", "on", "to", "do", "does", "any", "there", "it", "and", "or", "with",
            "at", "you", "your", "have", "are");

    private final Map<String, Set<String>> idWords = new LinkedHashMap<>();
    private final Map<String, Set<String>> allWords = new LinkedHashMap<>();
    private final Map<String, Integer> holders = new HashMap<>();

    /** @param texts what can be meant: ids with what is said about them */
    Matches(Map<String, String> texts) {
        texts.forEach((id, text) -> {
            Set<String> own = words(id.replace('-', ' '));
            Set<String> all = words(text);
            all.addAll(own);
            idWords.put(id, own);
            allWords.put(id, all);
            all.forEach(word -> holders.merge(word, 1, Integer::sum));
        });
    }

    /** What may be meant, the likeliest first; exactly one when the words are an id. */
    List<String> of(String typed) {
        String id = typed.strip().toLowerCase(Locale.ROOT).replaceAll("[ _]+", "-");
        if (idWords.containsKey(id)) {
            return List.of(id);
        }
        Set<String> wanted = words(typed);
        record Scored(String id, double score) {}
        List<Scored> scored = new ArrayList<>();
        for (String candidate : idWords.keySet()) {
            double score = 0;
            for (String word : wanted) {
                score += score(word, candidate);
            }
            if (score > 0) {
                scored.add(new Scored(candidate, score));
            }
        }
        scored.sort(Comparator.comparingDouble((Scored one) -> -one.score()).thenComparing(Scored::id));
        return scored.stream()
                .filter(one -> one.score() >= scored.get(0).score() / 2)
                .limit(MOST)
                .map(Scored::id)
                .toList();
    }

    private double score(String word, String candidate) {
        double best = 0;
        for (String own : allWords.getOrDefault(candidate, Set.of())) {
            boolean same = own.equals(word)
                    || (word.length() >= LONG_WORD
                            && own.length() >= LONG_WORD
                            && (own.startsWith(word)
                                    || LevenshteinDistance.getDefaultInstance().apply(own, word) <= 1));
            if (same) {
                double rare = Math.log(1.0 + (double) allWords.size() / holders.getOrDefault(own, 1));
                best = Math.max(
                        best, rare * (idWords.getOrDefault(candidate, Set.of()).contains(own) ? IN_ID : 1));
            }
        }
        return best;
    }

    private static Set<String> words(String text) {
        Set<String> words = new HashSet<>();
        StringTokenizer tokens = new StringTokenizer(text.toLowerCase(Locale.ROOT), " ,.;:?!()/'\"-");
        while (tokens.hasMoreTokens()) {
            String word = tokens.nextToken();
            if (!EMPTY_WORDS.contains(word)) {
                words.add(word.length() > 3 && word.endsWith("s") ? word.substring(0, word.length() - 1) : word);
            }
        }
        return words;
    }
}
