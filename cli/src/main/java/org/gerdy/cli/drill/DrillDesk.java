package org.gerdy.cli.drill;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import org.gerdy.cli.Words;
import org.gerdy.cli.intake.Screen;
import org.gerdy.cli.intake.Screen.Entry;
import org.gerdy.cli.intake.Screen.Paragraph;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.drill.Commitment;
import org.gerdy.engine.drill.DrillMaster;
import org.gerdy.engine.drill.DrillPatient;
import org.gerdy.engine.drill.Inquiry;
import org.gerdy.engine.knowledge.Condition;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.measure.FactorDefinition;
import org.gerdy.engine.plan.PlanItem;
import org.gerdy.engine.vocabulary.FindingDefinition;
import org.gerdy.engine.vocabulary.Urgency;

/** One case on the desk: takes what the learner types, asks the patient, notes what the learner commits to. */
final class DrillDesk {
    private static final List<String> KEYS = List.of(
            "words or a question's name to ask it",
            "a number to choose",
            "sections",
            "section NAME",
            "notes",
            "urgency LEVEL",
            "candidate NAME PERCENT",
            "factor NAME",
            "plan NAME",
            "settle NAME",
            "drop NAME",
            "sheet",
            "commit",
            "quit");

    private final DrillMaster master;
    private final KnowledgeBase knowledge;
    private final Words words;
    private final Inquiry inquiry;
    private final Matches questions;
    private final Matches conditions;
    private final Matches factors;
    private final Matches plans;
    private final Supplier<List<String>> above;
    private final Sheet sheet;
    private final List<String> offered = new ArrayList<>();
    private Consumer<String> choose = id -> {};
    private String heading = "The patient";
    private List<Paragraph> body = List.of();
    private String message = "";
    private boolean understood = true;
    private boolean closed;
    private Optional<Commitment> committed = Optional.empty();

    /** With lines above the case, asked for anew on every screen. */
    DrillDesk(DrillMaster master, Inquiry inquiry, Supplier<List<String>> above) {
        this.master = master;
        this.above = above;
        this.knowledge = master.knowledge();
        this.words = new Words(knowledge);
        this.inquiry = inquiry;
        this.sheet = new Sheet((int) master.tables().settings().value("most-candidates"));
        Map<String, String> asked = new LinkedHashMap<>();
        knowledge.catalogue().findings().forEach(finding -> asked.put(finding.id(), finding.question()));
        this.questions = new Matches(asked);
        Map<String, String> named = new LinkedHashMap<>();
        knowledge.conditions().values().forEach(condition -> named.put(condition.id(), condition.name()));
        this.conditions = new Matches(named);
        this.factors = new Matches(master.factors().factors().stream()
                .collect(Collectors.toMap(
                        FactorDefinition::id, FactorDefinition::label, (a, b) -> a, LinkedHashMap::new)));
        this.plans = new Matches(master.plans().items().stream()
                .collect(Collectors.toMap(PlanItem::id, PlanItem::label, (a, b) -> a, LinkedHashMap::new)));
        say("\"" + inquiry.patient().opening() + "\"");
    }

    /** What is shown now. */
    Screen screen() {
        List<String> top = new ArrayList<>(above.get());
        top.add(status());
        return new Screen(top, heading, body, KEYS, Entry.text("> "), message);
    }

    private String status() {
        DrillPatient patient = inquiry.patient();
        String given = patient.given().values().stream()
                .map(answer -> answer.on(Side.LEFT)
                        .map(one -> one.text().replace('-', ' '))
                        .orElse(""))
                .collect(Collectors.joining(", "));
        return "Case " + patient.id() + ": " + given + ", " + patient.side().word() + " side.";
    }

    String message() {
        return message;
    }

    boolean understood() {
        return understood;
    }

    boolean closed() {
        return closed;
    }

    Optional<Commitment> committed() {
        return committed;
    }

    /** Takes one line. */
    void take(String typed) {
        message = "";
        understood = true;
        String line = typed.strip();
        if (line.isEmpty()) {
            return;
        }
        int space = line.indexOf(' ');
        String first = (space < 0 ? line : line.substring(0, space)).toLowerCase(Locale.ROOT);
        String rest = space < 0 ? "" : line.substring(space + 1).strip();
        if (line.matches("[0-9]{1,2}")) {
            chosen(Integer.parseInt(line));
            return;
        }
        switch (first) {
            case "sections" -> sections();
            case "section" -> section(rest);
            case "notes" -> notes();
            case "sheet" -> sheet();
            case "urgency" -> urgency(rest);
            case "candidate" -> candidate(rest);
            case "factor" -> pick(factors.of(rest), "Which factor", this::factorLabel, id -> change(sheet.factor(id)));
            case "plan" -> pick(plans.of(rest), "Which plan item", this::planLabel, id -> change(sheet.plan(id)));
            case "settle" -> pick(questions.of(rest), "Which question", words::finding, id -> change(sheet.settle(id)));
            case "drop" -> change(sheet.drop(rest));
            case "commit" -> commit();
            case "quit" -> closed = true;
            case "ask" -> pick(questions.of(rest), "Which question", words::finding, this::ask);
            default -> pick(questions.of(line), "Which question", words::finding, this::ask);
        }
    }

    private void chosen(int number) {
        if (number < 1 || number > offered.size()) {
            fault("There is nothing numbered " + number + " to choose.");
            return;
        }
        String id = offered.get(number - 1);
        offered.clear();
        choose.accept(id);
    }

    /** Goes on with the one that is meant, or offers those that may be. */
    private void pick(
            List<String> meant,
            String question,
            java.util.function.UnaryOperator<String> label,
            Consumer<String> then) {
        if (meant.isEmpty()) {
            fault("These words match nothing; try others, or 'sections'.");
        } else if (meant.size() == 1) {
            then.accept(meant.get(0));
        } else {
            offer(question, meant, label, then);
        }
    }

    private void offer(
            String question, List<String> ids, java.util.function.UnaryOperator<String> label, Consumer<String> then) {
        offered.clear();
        offered.addAll(ids);
        choose = then;
        heading = question;
        List<Paragraph> list = new ArrayList<>();
        for (int i = 0; i < ids.size(); i++) {
            list.add(new Paragraph(
                    String.format(Locale.ROOT, "%2d  ", i + 1), ids.get(i) + ": " + label.apply(ids.get(i))));
        }
        body = list;
    }

    private void ask(String finding) {
        boolean again = inquiry.asked(finding) || inquiry.patient().given().containsKey(finding);
        Inquiry.Step step = inquiry.patient().given().containsKey(finding)
                ? new Inquiry.Step(
                        finding, Inquiry.Outcome.ANSWERED, inquiry.known().shown(finding), List.of(), inquiry.start())
                : inquiry.ask(finding);
        heading = words.finding(finding);
        body = List.of(new Paragraph("", answer(step) + (again ? " (known already)" : "")));
    }

    private String answer(Inquiry.Step step) {
        return switch (step.outcome()) {
            case ANSWERED -> step.shown().replace('-', ' ') + ".";
            case UNABLE -> "Unable: the patient cannot say, or it could not be done.";
            case NOT_APPLICABLE ->
                "Does not apply to this patient: it is asked only if "
                        + knowledge
                                .catalogue()
                                .finding(step.finding())
                                .flatMap(FindingDefinition::onlyIf)
                                .orElseThrow()
                        + ".";
        };
    }

    private void sections() {
        Set<String> sections = new LinkedHashSet<>();
        knowledge.catalogue().findings().forEach(finding -> sections.add(finding.section()));
        offer("Sections", List.copyOf(sections), id -> count(id) + " questions", this::section);
    }

    private long count(String section) {
        return knowledge.catalogue().findings().stream()
                .filter(finding -> finding.section().equals(section))
                .count();
    }

    private void section(String name) {
        List<String> ids = knowledge.catalogue().findings().stream()
                .filter(finding -> finding.section().equalsIgnoreCase(name))
                .map(FindingDefinition::id)
                .toList();
        if (ids.isEmpty()) {
            fault("There is no section '" + name + "'; 'sections' lists them.");
            return;
        }
        offer("Section " + name, ids, words::finding, this::ask);
    }

    private void notes() {
        heading = "What you asked";
        body = inquiry.steps().isEmpty()
                ? List.of(new Paragraph("", "Nothing yet."))
                : inquiry.steps().stream()
                        .map(step -> new Paragraph("  ", step.finding() + ": " + answer(step)))
                        .toList();
    }

    private void urgency(String text) {
        Optional<Urgency> level = Urgency.of(text.toLowerCase(Locale.ROOT).replace(' ', '-'));
        if (level.isEmpty()) {
            fault("Urgency is one of " + String.join(", ", Urgency.words()) + ".");
            return;
        }
        change(sheet.urgency(level.get()));
    }

    private void candidate(String text) {
        java.util.regex.Matcher matcher = java.util.regex.Pattern.compile("(.+?)\\s+([0-9]{1,3}(?:[.,][0-9]+)?)\\s*%?")
                .matcher(text);
        if (!matcher.matches()) {
            fault("Say a name and a percentage, such as 'candidate meniscus 40'.");
            return;
        }
        double confidence = Double.parseDouble(matcher.group(2).replace(',', '.')) / 100;
        pick(
                conditions.of(matcher.group(1)),
                "Which candidate",
                this::conditionName,
                id -> change(sheet.confident(id, confidence)));
    }

    /** Does to the sheet what was asked, then shows it; a fault is told instead. */
    private void change(Optional<String> fault) {
        if (fault.isPresent()) {
            fault(fault.get());
        } else {
            sheet();
        }
    }

    private void sheet() {
        heading = "Your sheet";
        body = sheet.lines();
    }

    private void commit() {
        committed = sheet.commitment();
        closed = committed.isPresent();
        if (!closed) {
            fault("State an urgency first; the rest may stay empty.");
        }
    }

    private String conditionName(String id) {
        return Optional.ofNullable(knowledge.conditions().get(id))
                .map(Condition::name)
                .orElse(id);
    }

    private String factorLabel(String id) {
        return master.factors().factors().stream()
                .filter(factor -> factor.id().equals(id))
                .findFirst()
                .map(FactorDefinition::label)
                .orElse(id);
    }

    private String planLabel(String id) {
        return master.plans().item(id).label();
    }

    private void say(String text) {
        body = List.of(new Paragraph("", text));
    }

    private void fault(String text) {
        message = text;
        understood = false;
    }
}
