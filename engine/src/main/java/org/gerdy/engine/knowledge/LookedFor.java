package org.gerdy.engine.knowledge;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.fact.Finding;
import org.gerdy.engine.logic.Answers;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.logic.Truth;
import org.gerdy.engine.vocabulary.Catalogue;

/** What each rule looks for in the facts about findings, from its condition as written. Immutable. */
final class LookedFor {
    private enum What {
        PRESENT,
        ABSENT,
        RULED_OUT,
        CHOICE,
        /** Anything a fact about the finding can say. */
        ANYTHING
    }

    /** One thing looked for; the choice is empty unless that is what is looked for. */
    private record Look(String finding, What what, String choice) {
        boolean isMetBy(Finding fact) {
            return switch (what) {
                case PRESENT -> fact.present();
                case ABSENT -> fact.absent();
                case RULED_OUT -> fact.ruledOut();
                case CHOICE -> fact.choice().equals(choice);
                case ANYTHING -> true;
            };
        }

        /** Whether the truth of the finding's being present, absent or so chosen meets it. */
        boolean isMetBy(Answers answers) {
            return switch (what) {
                case PRESENT -> answers.is(finding, "present") == Truth.TRUE;
                case ABSENT -> answers.is(finding, "absent") == Truth.TRUE;
                case RULED_OUT -> answers.is(finding, "present") == Truth.FALSE;
                case CHOICE -> answers.is(finding, choice) == Truth.TRUE;
                case ANYTHING -> true;
            };
        }
    }

    /** So many of these looks must be met, by their number. */
    private static final class Part {
        private final int needed;
        private final int[] looks;

        Part(int needed, int... looks) {
            this.needed = needed;
            this.looks = looks;
        }
    }

    /**
     * One rule.
     *
     * @param needed what must be met for it to hold, whatever else it asks
     * @param waitsFor kinds of facts told after findings that it cannot do without
     * @param looks everything it looks for
     */
    private record Reader(List<Part> needed, Set<String> waitsFor, BitSet looks) {}

    /** Kinds of facts that are told when the findings are known. */
    private static final List<String> LATER_KINDS =
            List.of("Candidate", "FactorFinding", "FlagStanding", "Stage", "Triage");

    /** A pattern of such a kind that stands by itself on a line of a condition. */
    private static final Pattern LATER =
            Pattern.compile("^\\s*(" + String.join("|", LATER_KINDS) + ")\\(", Pattern.MULTILINE);

    private static final int NONE = -1;
    private static final Pattern OR = Pattern.compile("\\bor\\b");

    private final Catalogue catalogue;
    private final Observations nothing;
    private final List<Look> looks = new ArrayList<>();
    private final Map<Look, Integer> numbers = new HashMap<>();
    private final Map<String, BitSet> byFinding = new HashMap<>();

    /** For each look, the findings without any of which recorded it is always met or never. */
    private final List<Set<String>> restsOn = new ArrayList<>();

    private final Map<String, Set<String>> behind = new HashMap<>();
    /** The looks that are met while nothing they rest on is recorded. */
    private final BitSet unasked = new BitSet();

    private final List<Reader> readers = new ArrayList<>();

    LookedFor(Catalogue catalogue, Collection<RuleCard> rules) {
        this.catalogue = catalogue;
        this.nothing = Observations.of(catalogue, Side.LEFT, Map.of());
        for (RuleCard rule : rules) {
            BitSet all = new BitSet();
            List<Part> needed = new ArrayList<>();
            if (rule.logic().isPresent()) {
                add(rule.logic().get(), all);
                needed(rule.logic().get(), needed);
            } else {
                // A condition that could not be read as an expression may look for anything, and may always hold.
                rule.reads().forEach(finding -> all.set(number(finding, What.ANYTHING, "")));
            }
            needed.sort(Comparator.comparing(this::effort));
            readers.add(new Reader(List.copyOf(needed), later(rule.text()), all));
        }
    }

    private static Set<String> later(String rule) {
        if (LATER_KINDS.stream().noneMatch(rule::contains)) {
            return Set.of();
        }
        String condition = rule.lines()
                .dropWhile(line -> !line.strip().equals("when"))
                .takeWhile(line -> !line.strip().equals("then"))
                .collect(Collectors.joining("\n"));
        return OR.matcher(condition).find()
                ? Set.of()
                : LATER.matcher(condition)
                        .results()
                        .map(found -> found.group(1))
                        .collect(Collectors.toUnmodifiableSet());
    }

    /** Whether a rule that reads findings waits for facts of this kind. */
    boolean waitsFor(String kind) {
        return readers.stream()
                .anyMatch(reader ->
                        reader.waitsFor().contains(kind) && !reader.looks().isEmpty());
    }

    /** Signs are looked up fast and seldom there, most findings are ruled out, and a computed one must be worked out. */
    private int effort(Part part) {
        int most = 0;
        for (int number : part.looks) {
            Look look = looks.get(number);
            boolean computed = catalogue.computed(look.finding()).isPresent();
            most = Math.max(most, computed ? 2 : look.what() == What.RULED_OUT ? 1 : 0);
        }
        return most;
    }

    private int number(String finding, What what, String choice) {
        return numbers.computeIfAbsent(new Look(finding, what, choice), look -> {
            looks.add(look);
            restsOn.add(restsOn(look));
            unasked.set(looks.size() - 1, catalogue.knows(finding) && look.isMetBy(nothing));
            byFinding.computeIfAbsent(finding, ignored -> new BitSet()).set(looks.size() - 1);
            return looks.size() - 1;
        });
    }

    /** A finding nobody recorded is neither present nor absent; its gate can only rule it out. */
    private Set<String> restsOn(Look look) {
        boolean recordedOnly = look.what() != What.RULED_OUT
                && catalogue.finding(look.finding()).isPresent();
        return recordedOnly ? Set.of(look.finding()) : behind(look.finding());
    }

    private Set<String> behind(String id) {
        Set<String> known = behind.get(id);
        if (known == null) {
            Set<String> all = new LinkedHashSet<>();
            catalogue.finding(id).ifPresent(asked -> {
                all.add(id);
                asked.onlyIf().ifPresent(gate -> gate.findings().forEach(one -> all.addAll(behind(one))));
            });
            catalogue
                    .computed(id)
                    .ifPresent(computed -> computed.means().findings().forEach(one -> all.addAll(behind(one))));
            known = all;
            behind.put(id, known);
        }
        return known;
    }

    private void add(Expression logic, BitSet all) {
        int one = one(logic);
        if (one != NONE) {
            all.set(one);
        } else if (logic instanceof Expression.Not not && not.part() instanceof Expression.Recorded recorded) {
            add(recorded.part(), all);
        } else if (logic instanceof Expression.And and) {
            and.parts().forEach(part -> add(part, all));
        } else if (logic instanceof Expression.Or or) {
            or.parts().forEach(part -> add(part, all));
        } else if (logic instanceof Expression.AtLeast atLeast) {
            atLeast.parts().forEach(part -> add(part, all));
        } else {
            logic.findings().forEach(finding -> all.set(number(finding, What.ANYTHING, "")));
        }
    }

    private void needed(Expression logic, List<Part> needed) {
        if (logic instanceof Expression.And and) {
            and.parts().forEach(part -> needed(part, needed));
        } else if (logic instanceof Expression.Or or) {
            part(1, or.parts(), needed);
        } else if (logic instanceof Expression.AtLeast atLeast) {
            part(atLeast.needed(), atLeast.parts(), needed);
        } else {
            part(1, List.of(logic), needed);
        }
    }

    private void part(int least, List<Expression> parts, List<Part> needed) {
        int[] met = new int[parts.size()];
        for (int i = 0; i < met.length; i++) {
            met[i] = one(parts.get(i));
            if (met[i] == NONE) {
                return;
            }
        }
        needed.add(new Part(least, met));
    }

    /** The number of the one look a fact must meet for this to hold; {@link #NONE} for anything more. */
    private int one(Expression logic) {
        if (logic instanceof Expression.Is is) {
            return switch (is.value()) {
                case "present" -> number(is.finding(), What.PRESENT, "");
                case "absent" -> number(is.finding(), What.ABSENT, "");
                default -> number(is.finding(), What.CHOICE, is.value());
            };
        }
        if (logic instanceof Expression.Not not
                && not.part() instanceof Expression.Is is
                && is.value().equals("present")) {
            return number(is.finding(), What.RULED_OUT, "");
        }
        return NONE;
    }

    boolean reads(String finding) {
        return byFinding.containsKey(finding);
    }

    boolean reads(Finding fact) {
        BitSet about = byFinding.get(fact.id());
        return about != null && about.stream().anyMatch(look -> looks.get(look).isMetBy(fact));
    }

    /** What rules look for that can still hold, by the answers and the kinds of later facts they cannot do without. */
    FactReads.Worth worth(Observations observations, Set<String> told) {
        return new Possible(observations, told);
    }

    /** What is worth telling the rules at one visit. */
    private final class Possible implements FactReads.Worth {
        private final Observations observations;
        private final BitSet worth = new BitSet(looks.size());
        private final BitSet asked = new BitSet(looks.size());
        private final BitSet met = new BitSet(looks.size());

        private Possible(Observations observations, Set<String> told) {
            this.observations = observations;
            for (Reader reader : readers) {
                if (told.containsAll(reader.waitsFor()) && isPossible(reader)) {
                    worth.or(reader.looks());
                }
            }
        }

        private boolean isPossible(Reader reader) {
            for (Part part : reader.needed()) {
                if (!isMet(part)) {
                    return false;
                }
            }
            return true;
        }

        private boolean isMet(Part part) {
            int left = part.needed;
            for (int look : part.looks) {
                if (isMet(look) && --left == 0) {
                    return true;
                }
            }
            return left <= 0;
        }

        private boolean isMet(int look) {
            if (!asked.get(look)) {
                asked.set(look);
                met.set(look, restsOnSomething(look) ? looks.get(look).isMetBy(observations) : unasked.get(look));
            }
            return met.get(look);
        }

        private boolean restsOnSomething(int look) {
            for (String finding : restsOn.get(look)) {
                if (observations.isRecorded(finding)) {
                    return true;
                }
            }
            return false;
        }

        @Override
        public Set<String> findings() {
            Set<String> ids = new LinkedHashSet<>();
            for (int look = worth.nextSetBit(0); look >= 0; look = worth.nextSetBit(look + 1)) {
                ids.add(looks.get(look).finding());
            }
            return ids;
        }

        @Override
        public boolean holds(Finding fact) {
            BitSet about = byFinding.getOrDefault(fact.id(), new BitSet());
            for (int look = about.nextSetBit(0); look >= 0; look = about.nextSetBit(look + 1)) {
                if (worth.get(look) && looks.get(look).isMetBy(fact)) {
                    return true;
                }
            }
            return false;
        }
    }
}
