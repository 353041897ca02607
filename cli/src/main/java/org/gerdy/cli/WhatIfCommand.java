package org.gerdy.cli;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import org.gerdy.engine.Gerdy;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.assessment.CandidateResult;
import org.gerdy.engine.assessment.Flag;
import org.gerdy.engine.assessment.Outlook;
import org.gerdy.engine.casefile.Answer;
import org.gerdy.engine.casefile.AnswerText;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.casefile.Recorded;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.intake.WhatIf;
import org.gerdy.engine.knowledge.RedFlagRow;
import org.gerdy.engine.vocabulary.FindingDefinition;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Shows what a changed answer would change. */
@Command(
        name = "what-if",
        mixinStandardHelpOptions = true,
        description = {
            "What would change if answers did. Without a finding: every single change that would move urgency or the",
            "leading candidate, and the smallest sets of open answers that would allow manage-here."
        },
        footer = {
            "",
            "An answer is a state, a choice, a day or a number with its unit; not-asked takes it back. On a painful side",
            "unless left: or right: says otherwise.",
            "",
            "Examples:",
            "  gerdy what-if cases/demo/first-visit.yaml",
            "  gerdy what-if cases/demo/first-visit.yaml calf-swelling=present knee-flexion=\"right: 80 degrees\""
        })
final class WhatIfCommand implements Callable<Integer> {
    private static final String NOT_ASKED = "not-asked";

    @Mixin
    private VisitOption visit = new VisitOption();

    @Parameters(
            index = "1..*",
            arity = "0..*",
            paramLabel = "FINDING=ANSWER",
            description = "Answers as they might be.")
    private List<String> changes = new ArrayList<>();

    @Spec
    private CommandSpec spec = CommandSpec.create();

    @Override
    public Integer call() throws MendableException {
        VisitOption.Chosen chosen = visit.choose();
        Gerdy gerdy = chosen.gerdy();
        PrintWriter out = spec.commandLine().getOut();
        try (WhatIf whatIf = new WhatIf(gerdy, chosen.caseFile(), chosen.visit())) {
            out.print(changes.isEmpty() ? all(gerdy, whatIf) : given(gerdy, whatIf));
        }
        return 0;
    }

    private String given(Gerdy gerdy, WhatIf whatIf) throws MendableException {
        Observations known = whatIf.observations();
        for (String change : changes) {
            known = changed(gerdy, known, change);
        }
        Assessment before = whatIf.assess();
        Assessment after = whatIf.wouldFollow(known);
        Words words = new Words(gerdy.knowledge());
        Page page = new Page();
        page.line("What if: case " + before.caseId() + ", visit " + before.visit());
        page.heading("Changed");
        for (String change : changes) {
            String id = id(change);
            page.hanging("- ", id + ": " + whatIf.observations().shown(id) + ", then " + known.shown(id));
        }
        page.heading("Effect");
        page.hanging(
                "Urgency: ",
                level(before) + (level(before).equals(level(after)) ? ", the same" : ", then " + level(after)));
        Set<String> raisedBefore = ids(before.raisedFlags());
        Set<String> raisedAfter = ids(after.raisedFlags());
        differing(page, "Raised:  ", minus(raisedAfter, raisedBefore), words);
        differing(page, "No longer raised: ", minus(raisedBefore, raisedAfter), words);
        differing(page, "Opened:  ", minus(ids(after.openFlags()), ids(before.openFlags())), words);
        differing(page, "Closed:  ", minus(ids(before.openFlags()), ids(after.openFlags())), words);
        candidates(page, before, after);
        after.clashes().forEach(clash -> page.hanging("Look again: ", clash));
        return page.toString();
    }

    private static void candidates(Page page, Assessment before, Assessment after) {
        Map<String, CandidateResult> earlier =
                before.candidates().stream().collect(Collectors.toMap(CandidateResult::condition, one -> one));
        page.line("Candidates:");
        after.candidates().stream().limit(5).forEach(candidate -> {
            CandidateResult was = earlier.get(candidate.condition());
            page.hanging(
                    "  - ",
                    candidate.name() + ": "
                            + (was == null ? "not possible" : Words.percent(was.share())) + ", then "
                            + Words.percent(candidate.share()) + ", "
                            + candidate.standing().word());
        });
    }

    private static void differing(Page page, String label, Set<String> flags, Words words) {
        if (!flags.isEmpty()) {
            page.hanging(label, flags.stream().map(words::flag).distinct().collect(Collectors.joining("; ")));
        }
    }

    private static Set<String> ids(List<Flag> flags) {
        return flags.stream().map(Flag::id).collect(Collectors.toCollection(LinkedHashSet::new));
    }

    private static Set<String> minus(Set<String> some, Set<String> others) {
        Set<String> left = new LinkedHashSet<>(some);
        left.removeAll(others);
        return left;
    }

    private static String level(Assessment assessment) {
        return assessment.urgency().map(urgency -> urgency.word()).orElse("screening incomplete");
    }

    private static String level(Outlook outlook) {
        return outlook.urgency().map(urgency -> urgency.word()).orElse("screening incomplete");
    }

    private String id(String change) {
        return change.split("=", 2)[0].strip();
    }

    private Observations changed(Gerdy gerdy, Observations known, String change) throws MendableException {
        String[] pair = change.split("=", 2);
        String id = pair[0].strip();
        FindingDefinition finding = gerdy.knowledge()
                .catalogue()
                .finding(id)
                .orElseThrow(() -> new MendableException(
                        change,
                        "There is no finding '" + id + "'; "
                                + gerdy.knowledge()
                                        .catalogue()
                                        .nearest(id)
                                        .map(near -> "did you mean '" + near + "'?")
                                        .orElse("'gerdy rules list findings' shows them all.")));
        if (pair.length < 2) {
            throw new MendableException(change, "Write finding=answer, such as " + id + "=present.");
        }
        String text = pair[1].strip();
        if (text.equals(NOT_ASKED)) {
            return known.without(id);
        }
        Optional<Side> only = Optional.empty();
        for (Side one : List.of(Side.LEFT, Side.RIGHT)) {
            if (finding.perSide() && text.startsWith(one.word() + ":")) {
                only = Optional.of(one);
                text = text.substring(one.word().length() + 1).strip();
            }
        }
        Answer answer = read(gerdy, finding, change, text);
        if (!finding.perSide()) {
            return known.with(id, new Recorded.Whole(answer));
        }
        List<Side> sides = only.map(List::of).orElse(known.side().each());
        Optional<Recorded> was = known.recorded(id);
        return known.with(
                id,
                new Recorded.Sides(
                        sides.contains(Side.LEFT) ? Optional.of(answer) : was.flatMap(one -> one.on(Side.LEFT)),
                        sides.contains(Side.RIGHT) ? Optional.of(answer) : was.flatMap(one -> one.on(Side.RIGHT))));
    }

    private static Answer read(Gerdy gerdy, FindingDefinition finding, String change, String text)
            throws MendableException {
        try {
            return AnswerText.read(gerdy.knowledge().catalogue(), finding, text);
        } catch (MendableException e) {
            throw new MendableException(change, e.problems().get(0).message());
        }
    }

    private String all(Gerdy gerdy, WhatIf whatIf) {
        Assessment now = whatIf.assess();
        Page page = new Page();
        page.line("What if: case " + now.caseId() + ", visit " + now.visit());
        page.hanging(
                "Now: ",
                level(now) + ", leading " + now.candidates().get(0).name() + " ("
                        + Words.percent(now.candidates().get(0).share()) + ")");
        page.heading("Answers given that carry the result");
        changes(page, gerdy, whatIf.now(), whatIf.ofRecorded());
        page.heading("Answers not given that would change it");
        changes(page, gerdy, whatIf.now(), whatIf.ofOpen());
        page.heading("What would allow manage-here");
        manageHere(page, now, whatIf.setsThatAllowManageHere());
        return page.toString();
    }

    private static void manageHere(Page page, Assessment now, List<Map<String, Answer>> sets) {
        if (!now.raisedFlags().isEmpty()) {
            page.hanging("", "No open answer would: a red flag is raised.");
        } else if (now.screeningComplete()) {
            page.hanging("", "Nothing more is needed: the danger screen is complete.");
        } else if (sets.isEmpty()) {
            page.hanging("", "No answers to the open questions would; something was tried and could not be done.");
        }
        for (Map<String, Answer> set : sets) {
            page.hanging(
                    "- " + set.size() + (set.size() == 1 ? " answer: " : " answers: "),
                    2,
                    set.entrySet().stream()
                            .map(entry ->
                                    entry.getKey() + " " + entry.getValue().text())
                            .collect(Collectors.joining(", ")));
        }
    }

    private static void changes(Page page, Gerdy gerdy, Outlook now, List<WhatIf.Change> changes) {
        if (changes.isEmpty()) {
            page.line("None.");
        }
        List<String> needed = changes.stream()
                .filter(change -> change.to().equals(WhatIf.NOT_ASKED)
                        && now.screeningComplete()
                        && change.then().urgency().isEmpty()
                        && change.then().leading().equals(now.leading()))
                .map(WhatIf.Change::finding)
                .toList();
        if (!needed.isEmpty()) {
            page.hanging(
                    "- ", "Without any one of these the screening is incomplete: " + String.join(", ", needed) + ".");
        }
        for (WhatIf.Change change : changes) {
            if (change.to().equals(WhatIf.NOT_ASKED) && needed.contains(change.finding())) {
                continue;
            }
            List<String> effects = new ArrayList<>();
            if (!now.urgency().equals(change.then().urgency())) {
                String raises = change.then().raised().values().stream()
                        .filter(row -> !now.raised().containsKey(row.flag()))
                        .map(RedFlagRow::label)
                        .collect(Collectors.joining("; "));
                effects.add(level(change.then()) + (raises.isEmpty() ? "" : " (" + raises + ")"));
            }
            change.then()
                    .leading()
                    .filter(leading -> !now.leading().equals(Optional.of(leading)))
                    .ifPresent(leading -> effects.add(
                            "leading " + gerdy.knowledge().condition(leading).name()));
            page.hanging(
                    "- ",
                    change.finding() + " " + change.from() + ", if " + change.to() + ": " + String.join(", ", effects));
        }
    }
}
