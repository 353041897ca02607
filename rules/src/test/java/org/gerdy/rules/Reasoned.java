package org.gerdy.rules;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.assessment.Flag;
import org.gerdy.engine.assessment.FlagState;
import org.gerdy.engine.assessment.Reason;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.vocabulary.Basis;

/** Whether each conclusion of an assessment carries its reasons. */
final class Reasoned {
    private static final KnowledgeBase KNOWLEDGE = Shipped.GERDY.knowledge();
    private static final Set<String> SOURCES = KNOWLEDGE.bibliography().keySet();

    private Reasoned() {}

    static List<String> faults(Assessment assessment) {
        List<String> faults = new ArrayList<>();
        for (Flag flag : assessment.flags()) {
            for (Flag.Row row : flag.rows()) {
                if (row.state() == FlagState.RAISED) {
                    reasons(row.id(), row.reasons(), faults);
                    row.reasons().stream()
                            .filter(reason -> reason.findings().isEmpty())
                            .forEach(reason -> faults.add(row.id() + " is raised by " + reason.rule() + " on nothing"));
                } else if (row.state() == FlagState.OPEN && row.ask().isEmpty()) {
                    faults.add(row.id() + " is open and asks nothing");
                }
            }
        }
        reasons("population", List.of(assessment.population().reason()), faults);
        assessment.referrals().forEach(referral -> reasons(referral.id(), referral.reasons(), faults));
        assessment.candidates().forEach(candidate -> {
            candidate
                    .supporting()
                    .forEach(weight -> source(weight.finding(), weight.basis(), weight.sources(), faults));
            candidate.opposing().forEach(weight -> source(weight.finding(), weight.basis(), weight.sources(), faults));
        });
        return faults;
    }

    private static void reasons(String what, List<Reason> reasons, List<String> faults) {
        if (reasons.isEmpty()) {
            faults.add(what + " has no reason");
        }
        for (Reason reason : reasons) {
            if (!KNOWLEDGE.rules().containsKey(reason.rule())) {
                faults.add(what + " names no rule but " + reason.rule());
            }
            if (reason.because().isBlank()) {
                faults.add(what + " does not say why");
            }
            source(what, reason.basis(), reason.sources(), faults);
        }
    }

    private static void source(String what, Basis basis, List<String> sources, List<String> faults) {
        if ((basis == Basis.PUBLISHED || basis == Basis.RECALLED) && sources.isEmpty()) {
            faults.add(what + " is " + basis.word() + " without a source");
        }
        String missing = sources.stream().filter(key -> !SOURCES.contains(key)).collect(Collectors.joining(", "));
        if (!missing.isEmpty()) {
            faults.add(what + " names sources the bibliography lacks: " + missing);
        }
    }
}
