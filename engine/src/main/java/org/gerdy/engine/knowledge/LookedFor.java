package org.gerdy.engine.knowledge;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gerdy.engine.fact.Finding;
import org.gerdy.engine.logic.Expression;

/** What each rule looks for in the facts about findings, from its condition as written. Immutable. */
final class LookedFor {
    private static final int PRESENT = 0;
    private static final int ABSENT = 1;
    private static final int RULED_OUT = 2;
    private static final int UNABLE = 3;
    private static final int CHOICE = 4;
    private static final int LOOKS = 5;

    /**
     * One rule.
     *
     * @param needed for each part of its condition that some fact must meet, the looks that meet it
     * @param looks everything it looks for
     */
    private record Reader(List<BitSet> needed, BitSet looks) {
        boolean possible(BitSet told) {
            for (BitSet part : needed) {
                if (!part.intersects(told)) {
                    return false;
                }
            }
            return true;
        }
    }

    private final Map<String, Integer> places = new HashMap<>();
    /** What is looked for by rules that may hold whatever facts there are. */
    private final BitSet always = new BitSet();
    /** The other rules, by each look that meets the first part of their condition. */
    private final Map<Integer, List<Reader>> byFirst = new HashMap<>();

    private final BitSet all = new BitSet();

    LookedFor(Collection<RuleCard> rules) {
        for (RuleCard rule : rules) {
            BitSet looks = new BitSet();
            List<BitSet> needed = new ArrayList<>();
            if (rule.logic().isPresent()) {
                add(rule.logic().get(), looks);
                needed(rule.logic().get(), needed);
            } else {
                // A condition that could not be read as an expression may look for anything, and may always hold.
                rule.reads().forEach(finding -> anything(finding, looks));
            }
            Reader reader = new Reader(needed, looks);
            if (needed.isEmpty()) {
                always.or(looks);
            } else {
                needed.get(0).stream().forEach(look -> byFirst.computeIfAbsent(look, ignored -> new ArrayList<>())
                        .add(reader));
            }
            all.or(looks);
        }
    }

    private int place(String finding, int look) {
        return LOOKS * places.computeIfAbsent(finding, ignored -> places.size()) + look;
    }

    private void anything(String finding, BitSet looks) {
        int first = place(finding, 0);
        looks.set(first, first + LOOKS);
    }

    private void add(Expression logic, BitSet looks) {
        Optional<Integer> one = one(logic);
        if (one.isPresent()) {
            looks.set(one.get());
        } else if (logic instanceof Expression.Not not && not.part() instanceof Expression.Recorded recorded) {
            add(recorded.part(), looks);
        } else if (logic instanceof Expression.And and) {
            and.parts().forEach(part -> add(part, looks));
        } else if (logic instanceof Expression.Or or) {
            or.parts().forEach(part -> add(part, looks));
        } else if (logic instanceof Expression.AtLeast atLeast) {
            atLeast.parts().forEach(part -> add(part, looks));
        } else {
            logic.findings().forEach(finding -> anything(finding, looks));
        }
    }

    private void needed(Expression logic, List<BitSet> needed) {
        Optional<Integer> one = one(logic);
        if (one.isPresent()) {
            BitSet only = new BitSet();
            only.set(one.get());
            needed.add(only);
        } else if (logic instanceof Expression.And and) {
            and.parts().forEach(part -> needed(part, needed));
        } else if (logic instanceof Expression.Or or
                && or.parts().stream().allMatch(part -> one(part).isPresent())) {
            BitSet any = new BitSet();
            or.parts().forEach(part -> any.set(one(part).orElseThrow()));
            needed.add(any);
        }
    }

    /** The place of the one look a fact must meet for this to hold; empty for anything more. */
    private Optional<Integer> one(Expression logic) {
        if (logic instanceof Expression.Is is) {
            return Optional.of(place(is.finding(), look(is.value())));
        }
        if (logic instanceof Expression.Not not && not.part() instanceof Expression.Is is) {
            return Optional.of(place(is.finding(), RULED_OUT));
        }
        return Optional.empty();
    }

    private static int look(String value) {
        return switch (value) {
            case "present" -> PRESENT;
            case "absent" -> ABSENT;
            default -> CHOICE;
        };
    }

    boolean reads(String finding) {
        return places.containsKey(finding);
    }

    boolean ruledOut(String finding) {
        return reads(finding) && all.get(place(finding, RULED_OUT));
    }

    boolean reads(Finding fact) {
        return meets(fact, all);
    }

    List<Finding> worthTelling(List<Finding> facts) {
        BitSet told = new BitSet();
        facts.forEach(fact -> set(fact, told));
        BitSet worth = (BitSet) always.clone();
        for (int look = told.nextSetBit(0); look >= 0; look = told.nextSetBit(look + 1)) {
            for (Reader reader : byFirst.getOrDefault(look, List.of())) {
                if (reader.possible(told)) {
                    worth.or(reader.looks());
                }
            }
        }
        List<Finding> kept = new ArrayList<>();
        for (Finding fact : facts) {
            if (meets(fact, worth)) {
                kept.add(fact);
            }
        }
        return kept;
    }

    private void set(Finding fact, BitSet told) {
        Integer place = places.get(fact.id());
        if (place != null) {
            int first = LOOKS * place;
            told.set(first + PRESENT, fact.present());
            told.set(first + ABSENT, fact.absent());
            told.set(first + RULED_OUT, fact.ruledOut());
            told.set(first + UNABLE, fact.unable());
            if (!fact.choice().isEmpty()) {
                told.set(first + look(fact.choice()));
            }
        }
    }

    private boolean meets(Finding fact, BitSet looks) {
        Integer place = places.get(fact.id());
        if (place == null) {
            return false;
        }
        int first = LOOKS * place;
        return (fact.present() && looks.get(first + PRESENT))
                || (fact.absent() && looks.get(first + ABSENT))
                || (fact.ruledOut() && looks.get(first + RULED_OUT))
                || (fact.unable() && looks.get(first + UNABLE))
                || (!fact.choice().isEmpty() && looks.get(first + look(fact.choice())));
    }
}
