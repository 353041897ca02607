package org.gerdy.engine.reasoning;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.fact.Candidate;
import org.gerdy.engine.fact.Conclusion;
import org.gerdy.engine.fact.EvidenceRow;
import org.gerdy.engine.fact.Population;
import org.gerdy.engine.fact.RedFlag;
import org.gerdy.engine.fact.Referral;
import org.gerdy.engine.fact.Weighed;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.RuleCard;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.logic.Truth;
import org.gerdy.engine.vocabulary.Kind;

/** Conclusions from the rules as written: their condition as an expression, their consequence as its one line says. */
final class LogicInference implements Inference {
    private static final Pattern RAISE = Pattern.compile("RedFlag\\.raise\\(\\s*\"([^\"]+)\"");
    private static final Pattern USE = Pattern.compile("Population\\.use\\(\\s*\"([^\"]+)\"\\s*,\\s*(\\d+)");
    private static final Pattern MET =
            Pattern.compile("Referral\\.met\\(\\s*\"([^\"]+)\"\\s*,\\s*(\"([^\"]*)\"|\\$\\w+)");
    private static final Pattern CANDIDATE = Pattern.compile("^\\s*Candidate\\(.*\\)\\s*$", Pattern.MULTILINE);
    private static final Pattern WEIGH = Pattern.compile("\\.weigh\\(");

    private record OnFindings(Expression when, Conclusion then) {}

    private record OnCandidate(WrittenPattern when, String rule, String referral, Optional<String> about) {}

    private final KnowledgeBase knowledge;
    private final List<OnFindings> onFindings = new ArrayList<>();
    private final List<OnCandidate> onCandidates = new ArrayList<>();
    private final List<String> notCovered = new ArrayList<>();
    private final Set<String> weighing = new LinkedHashSet<>();
    private String weighRule = "";
    private final List<Conclusion> fromFindings = new ArrayList<>();
    private final List<Conclusion> fromEvidence = new ArrayList<>();
    private final List<Conclusion> fromCandidates = new ArrayList<>();

    LogicInference(KnowledgeBase knowledge) {
        this.knowledge = knowledge;
        knowledge.rules().values().forEach(this::add);
        for (EvidenceRow row : knowledge.evidence().rows()) {
            weighing.add(row.finding());
        }
    }

    List<String> notCovered() {
        return notCovered;
    }

    String weighRule() {
        return weighRule;
    }

    private void add(RuleCard rule) {
        String consequence = rule.text().substring(Math.max(0, rule.text().lastIndexOf("\nthen")));
        if (rule.logic().isPresent()) {
            Optional<Conclusion> then = conclusion(rule.id(), consequence);
            if (then.isPresent()) {
                onFindings.add(new OnFindings(rule.logic().get(), then.get()));
                return;
            }
        } else if (WEIGH.matcher(consequence).find()) {
            weighRule = rule.id();
            return;
        } else if (onCandidate(rule, consequence)) {
            return;
        }
        notCovered.add(rule.id());
    }

    private static Optional<Conclusion> conclusion(String rule, String consequence) {
        Matcher raise = RAISE.matcher(consequence);
        if (raise.find()) {
            return Optional.of(new RedFlag(raise.group(1), rule));
        }
        Matcher use = USE.matcher(consequence);
        if (use.find()) {
            return Optional.of(new Population(use.group(1), Integer.parseInt(use.group(2)), rule));
        }
        Matcher met = MET.matcher(consequence);
        if (met.find() && met.group(3) != null) {
            return Optional.of(new Referral(met.group(1), met.group(3), rule));
        }
        return Optional.empty();
    }

    /** Rules over one candidate whose fields are compared with texts. */
    private boolean onCandidate(RuleCard rule, String consequence) {
        Matcher condition = CANDIDATE.matcher(rule.text());
        Matcher met = MET.matcher(consequence);
        if (!condition.find() || !met.find()) {
            return false;
        }
        Optional<WrittenPattern> when = WrittenPattern.of(condition.group());
        if (when.isEmpty() || condition.find() || rule.text().contains("Finding(")) {
            return false;
        }
        onCandidates.add(new OnCandidate(when.get(), rule.id(), met.group(1), Optional.ofNullable(met.group(3))));
        return true;
    }

    @Override
    public void observe(Observations observations) {
        fromFindings.clear();
        fromEvidence.clear();
        fromCandidates.clear();
        for (OnFindings rule : onFindings) {
            if (rule.when().in(observations) == Truth.TRUE) {
                fromFindings.add(rule.then());
            }
        }
    }

    @Override
    public void weigh(Observations observations) {
        fromEvidence.clear();
        for (String finding : weighing) {
            weighed(finding, observations);
        }
    }

    private void weighed(String finding, Observations observations) {
        boolean computed = knowledge.catalogue().computed(finding).isPresent();
        if (!computed && knowledge.catalogue().finding(finding).orElseThrow().kind() != Kind.YES_NO) {
            return;
        }
        boolean speaks = computed
                ? knowledge.catalogue().askedBehind(finding).stream()
                        .anyMatch(asked -> observations.recorded(asked).isPresent())
                : observations.speaksForPainfulSide(finding);
        if (!speaks) {
            return;
        }
        Truth present = observations.is(finding, "present");
        if (present != Truth.UNKNOWN) {
            boolean holds = present == Truth.TRUE;
            fromEvidence.add(new Weighed(finding, holds, knowledge.evidence().of(finding, holds), weighRule));
        }
    }

    @Override
    public void conclude(Collection<Candidate> candidates) {
        fromCandidates.clear();
        for (Candidate candidate : candidates) {
            Map<String, String> fields = WrittenPattern.fields(candidate);
            for (OnCandidate rule : onCandidates) {
                if (rule.when().fits(fields)) {
                    fromCandidates.add(
                            new Referral(rule.referral(), rule.about().orElse(candidate.condition()), rule.rule()));
                }
            }
        }
    }

    @Override
    public <T extends Conclusion> List<T> conclusions(Class<T> kind) {
        List<T> found = new ArrayList<>();
        for (List<Conclusion> source : List.of(fromFindings, fromEvidence, fromCandidates)) {
            for (Conclusion conclusion : source) {
                if (kind.isInstance(conclusion)) {
                    found.add(kind.cast(conclusion));
                }
            }
        }
        return found;
    }
}
