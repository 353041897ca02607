package org.gerdy.engine.knowledge;

import java.io.IOException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.fact.EvidenceRow;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.vocabulary.ComputedFinding;
import org.gerdy.engine.vocabulary.FindingDefinition;

/** Looks a whole knowledge base over for what loads but cannot be right, and for what lies unused. */
public final class KnowledgeCheck {
    private static final Set<String> NEEDS_SOURCE = Set.of("published", "recalled");

    private final KnowledgeBase knowledge;
    private final KnowledgeFiles files;
    private final List<Remark> remarks = new ArrayList<>();

    private KnowledgeCheck(KnowledgeBase knowledge, KnowledgeFiles files) {
        this.knowledge = knowledge;
        this.files = files;
    }

    /**
     * One thing noticed.
     *
     * @param fault whether it must be mended; otherwise it is only worth a look
     * @param place table, rule or file it is about
     * @param message what is wrong and what to do
     */
    public record Remark(boolean fault, String place, String message) {
        @Override
        public String toString() {
            return (fault ? "fault: " : "look:  ") + place + ": " + message;
        }
    }

    /** Everything noticed, faults first. */
    public static List<Remark> of(KnowledgeBase knowledge, KnowledgeFiles files) {
        KnowledgeCheck check = new KnowledgeCheck(knowledge, files);
        check.rules();
        check.rows();
        check.conditions();
        check.evidence();
        check.citations();
        check.unused();
        List<Remark> ordered = new ArrayList<>(check.remarks);
        ordered.sort((a, b) -> Boolean.compare(b.fault(), a.fault()));
        return List.copyOf(ordered);
    }

    private void fault(String place, String message) {
        remarks.add(new Remark(true, place, message));
    }

    private void look(String place, String message) {
        remarks.add(new Remark(false, place, message));
    }

    private void rules() {
        RuleSearch search = new RuleSearch(knowledge.catalogue());
        Map<String, String> seen = new HashMap<>();
        for (RuleCard rule : knowledge.rules().values()) {
            String place = rule.file() + ":" + rule.line();
            if (rule.logic().isEmpty()) {
                continue;
            }
            if (search.satisfy(rule.logic().get()).isEmpty()) {
                fault(
                        place,
                        "the rule '" + rule.id() + "' can never fire: "
                                + rule.logic().get() + ". Its parts exclude each other.");
            }
            if (rule.row().isEmpty()) {
                continue;
            }
            String twin = seen.putIfAbsent(rule.row() + " when " + rule.logic().get(), rule.id());
            if (twin != null) {
                fault(place, "the rule '" + rule.id() + "' says the same as '" + twin + "'; drop one.");
            }
        }
    }

    private void rows() {
        RuleSearch search = new RuleSearch(knowledge.catalogue());
        Map<String, List<RuleCard>> byRow = new LinkedHashMap<>();
        knowledge.rules().values().forEach(rule -> byRow.computeIfAbsent(rule.row(), ignored -> new ArrayList<>())
                .add(rule));
        for (RedFlagRow row : knowledge.redFlags()) {
            List<RuleCard> rules = byRow.getOrDefault(row.id(), List.of());
            if (rules.isEmpty()) {
                fault("red-flags.csv", "no rule raises the row '" + row.id() + "'; write one or drop the row.");
                continue;
            }
            List<Expression> conditions =
                    rules.stream().flatMap(rule -> rule.logic().stream()).toList();
            if (conditions.size() == rules.size()) {
                Optional<Observations> apart = search.disagreement(row, conditions);
                apart.ifPresent(answers -> fault(
                        "red-flags.csv",
                        "the row '" + row.id() + "' and its rules contradict each other, for example with "
                                + answers.recorded().keySet().stream()
                                        .map(id -> id + " " + answers.shown(id))
                                        .toList()
                                + "; bring raised_when and the rules in line."));
            }
        }
        for (String referral : knowledge.referrals().keySet()) {
            if (!byRow.containsKey(referral)) {
                fault("referrals.csv", "no rule meets the threshold '" + referral + "'; write one or drop the row.");
            }
        }
    }

    private void conditions() {
        for (Condition condition : knowledge.conditions().values()) {
            if (condition.id().equals(Condition.UNEXPLAINED)) {
                continue;
            }
            String place = "conditions.csv: " + condition.id();
            if (condition.lookAlikes().isEmpty()) {
                fault(place, "has no look-alikes; name at least one and what separates it.");
            }
            if (condition.settledBy().isEmpty() || condition.givesAway().isEmpty()) {
                fault(place, "says nothing of what gives it away or what would settle it.");
            }
            if (knowledge.evidence().about(condition.id()).isEmpty()) {
                fault("evidence.csv", "no finding speaks for or against '" + condition.id() + "'.");
            }
            if (condition.mustNotMiss() && condition.flags().isEmpty()) {
                look(place, "must not be missed but no red flag guards it (guards.csv).");
            }
        }
    }

    private void evidence() {
        Map<String, Integer> members = new TreeMap<>();
        double cap = knowledge.settings().value("judgement-ratio-cap");
        for (EvidenceRow row : knowledge.evidence().rows()) {
            String place = "evidence.csv: " + row.finding() + " for " + row.condition();
            if (!row.cluster().isEmpty()) {
                members.merge(row.cluster() + " of " + row.condition(), 1, Integer::sum);
                members.merge(row.cluster(), 1, Integer::sum);
            }
            if (row.origin().equals("verbal-weight")) {
                row.whenPresent().ifPresent(ratio -> capped(place, ratio, cap));
                row.whenAbsent().ifPresent(ratio -> capped(place, ratio, cap));
            }
        }
        members.forEach((cluster, count) -> {
            if (count < 2 && !cluster.contains(" of ")) {
                fault("evidence.csv", "the cluster '" + cluster + "' has one member; blank it or add the others.");
            }
        });
        files.table("evidence.csv", "sensitivity", "specificity").map(row -> {
            if (row.text("origin").equals("from-sensitivity-specificity")) {
                double sensitivity = row.requiredNumber("sensitivity");
                double specificity = row.requiredNumber("specificity");
                derived(row, "lr_pos", sensitivity / (1 - specificity));
                derived(row, "lr_neg", (1 - sensitivity) / specificity);
            }
            return row;
        });
    }

    /** Printed ratios are rounded to two or three figures; two per cent is beyond rounding. */
    private void derived(Table.Row row, String column, double expected) {
        row.number(column).ifPresent(printed -> {
            if (Math.abs(printed - expected) > 0.02 * expected) {
                fault(
                        "evidence.csv:" + row.line(),
                        column + " is " + printed + ", but sensitivity and specificity give "
                                + Math.round(expected * 1000) / 1000.0 + ".");
            }
        });
    }

    private void capped(String place, EvidenceRow.Ratio ratio, double cap) {
        if (ratio.value() > cap || ratio.value() < 1 / cap) {
            fault(place, "a judgement weight of " + ratio.value() + " is beyond the cap of " + cap + ".");
        }
    }

    /** Every cited key exists, every statement that claims a source names one, every work is cited somewhere. */
    private void citations() {
        Set<String> cited = new LinkedHashSet<>();
        knowledge.rules().values().forEach(rule -> {
            rule.sources().forEach(key -> cite(rule.file() + ":" + rule.line(), key, cited));
            sourced(rule.file() + ":" + rule.line(), rule.basis().word(), rule.sources());
        });
        try {
            for (String path : files.list()) {
                if (path.endsWith(".csv") && !path.endsWith("sources.csv")) {
                    Table.read(files, path, List.of()).map(row -> {
                        List<String> keys = new ArrayList<>(row.list("source"));
                        keys.addAll(row.list("sources"));
                        keys.forEach(key -> cite(path + ":" + row.line(), key, cited));
                        sourced(path + ":" + row.line(), row.text("basis"), keys);
                        return row;
                    });
                }
            }
        } catch (IOException e) {
            throw new KnowledgeException("The files could not be listed: " + e.getMessage() + ".", e);
        }
        List<String> never = knowledge.bibliography().keySet().stream()
                .filter(key -> !cited.contains(key))
                .toList();
        if (!never.isEmpty()) {
            look("sources.csv", never.size() + " works are never cited: " + String.join(", ", never) + ".");
        }
    }

    private void cite(String place, String key, Set<String> cited) {
        cited.add(key);
        if (!knowledge.bibliography().containsKey(key)) {
            fault(place, "the source '" + key + "' is not in sources.csv; add the work or correct the key.");
        }
    }

    private void sourced(String place, String basis, List<String> keys) {
        if (NEEDS_SOURCE.contains(basis) && keys.isEmpty()) {
            fault(
                    place,
                    "is marked " + basis + " but names no source; name it, or mark it common-practice or judgement.");
        }
    }

    private void unused() {
        Set<String> used = new LinkedHashSet<>(knowledge.readByRules());
        knowledge.redFlags().forEach(row -> {
            row.appliesIf().ifPresent(gate -> used.addAll(gate.findings()));
            row.trigger().ifPresent(trigger -> used.addAll(trigger.findings()));
            used.addAll(row.raisedWhen().findings());
            used.addAll(row.needs());
        });
        knowledge.evidence().rows().forEach(row -> used.add(row.finding()));
        knowledge.scores().forEach(score -> {
            score.points().items().forEach(item -> used.addAll(item.condition().findings()));
            score.excludedIf().ifPresent(gate -> used.addAll(gate.findings()));
        });
        knowledge.decisionRules().forEach(rule -> {
            rule.appliesIf().ifPresent(gate -> used.addAll(gate.findings()));
            rule.excludedIf().ifPresent(gate -> used.addAll(gate.findings()));
            rule.criteria().forEach(criterion -> used.addAll(criterion.met().findings()));
        });
        knowledge.terms().clashes().forEach(clash -> used.addAll(clash.when().findings()));
        knowledge
                .catalogue()
                .computed()
                .forEach(term -> used.addAll(term.means().findings()));
        knowledge.catalogue().findings().forEach(finding -> finding.onlyIf()
                .ifPresent(gate -> used.addAll(gate.findings())));
        List<String> terms = knowledge.catalogue().computed().stream()
                .map(ComputedFinding::id)
                .filter(id -> !used.contains(id))
                .toList();
        if (!terms.isEmpty()) {
            look("derived.csv", "never used: " + String.join(", ", terms) + ".");
        }
        List<String> idle = knowledge.catalogue().findings().stream()
                .map(FindingDefinition::id)
                .filter(id -> !used.contains(id))
                .toList();
        if (!idle.isEmpty()) {
            look("findings.csv", "asked but read by nothing: " + String.join(", ", idle) + ".");
        }
    }
}
