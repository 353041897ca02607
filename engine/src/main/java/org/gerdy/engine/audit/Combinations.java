package org.gerdy.engine.audit;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.gerdy.engine.casefile.Recorded;

/** Every way to answer some findings, each also left unanswered, by number. */
final class Combinations {
    private final List<String> ids;
    private final List<List<Recorded>> values;

    Combinations(AnswerSpace space) {
        this.ids = List.copyOf(space.values().keySet());
        this.values = List.copyOf(space.values().values());
    }

    /** The findings, in the order of their places in the number. */
    List<String> findings() {
        return ids;
    }

    /** The answers to the finding at this place. */
    List<Recorded> values(int place) {
        return values.get(place);
    }

    /** How many ways the finding at this place has, unanswered included. */
    int ways(int place) {
        return values.get(place).size() + 1;
    }

    /** The answers of one combination. */
    Map<String, Recorded> at(long number) {
        Map<String, Recorded> answers = new LinkedHashMap<>();
        long rest = number;
        for (int place = 0; place < ids.size(); place++) {
            int way = (int) (rest % ways(place));
            rest /= ways(place);
            if (way > 0) {
                answers.put(ids.get(place), values.get(place).get(way - 1));
            }
        }
        return answers;
    }

    /** Answers drawn at random, with this part left unanswered. */
    Map<String, Recorded> drawn(Random random, double left) {
        Map<String, Recorded> answers = new LinkedHashMap<>();
        for (int place = 0; place < ids.size(); place++) {
            List<Recorded> some = values.get(place);
            if (!some.isEmpty() && random.nextDouble() >= left) {
                answers.put(ids.get(place), some.get(random.nextInt(some.size())));
            }
        }
        return answers;
    }
}
