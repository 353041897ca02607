package org.gerdy.cli.document;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.gerdy.cli.document.Document.Blank;
import org.gerdy.cli.document.Document.Block;
import org.gerdy.cli.document.Document.Bullets;
import org.gerdy.cli.document.Document.Card;
import org.gerdy.cli.document.Document.Grid;
import org.gerdy.cli.document.Document.Heading;
import org.gerdy.cli.document.Document.Lead;
import org.gerdy.cli.document.Document.Para;
import org.gerdy.cli.document.Document.Section;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.assessment.CandidateResult;
import org.gerdy.engine.assessment.CandidateResult.Standing;
import org.gerdy.engine.care.Aftercare;
import org.gerdy.engine.care.CareTables;
import org.gerdy.engine.care.VisitResult;
import org.gerdy.engine.knowledge.Condition;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.plan.Dose;
import org.gerdy.engine.plan.InterimAdvice;
import org.gerdy.engine.plan.Plan;
import org.gerdy.engine.plan.PlanItem;
import org.gerdy.engine.plan.ReturnSchedule;
import org.gerdy.engine.vocabulary.Urgency;

/** What the patient takes home, in plain words. Says nothing the summary does not say. */
public final class HandoutDocument {
    private static final String BULLET = "\\|";

    private final Naming naming;
    private final CareTables tables;

    /** Handouts over this knowledge base. */
    public HandoutDocument(KnowledgeBase knowledge, CareTables tables) {
        this.naming = new Naming(knowledge);
        this.tables = tables;
    }

    /** The handout of a visit. */
    public Document of(VisitResult result) {
        Assessment assessment = result.assessment();
        Aftercare care = result.aftercare();
        List<Section> sections = new ArrayList<>();
        sections.add(found(assessment, care));
        if (care.plan() instanceof Plan.Interim interim) {
            sections.add(interim(interim));
            sections.add(help());
        } else {
            sections.add(help());
            care.active().ifPresent(active -> sections.addAll(items(active, care)));
            runs(care, sections);
            care.active().ifPresent(active -> stops(active, sections));
        }
        sections.add(next(care));
        return new Document(
                "What to do next",
                "Case " + assessment.caseId() + ", " + Naming.day(assessment.visit()) + ", "
                        + assessment.side().word() + (assessment.side().each().size() > 1 ? " sides" : " side"),
                sections,
                List.of(
                        "This sheet goes with your visit. If you are not sure, ask us. If it gets worse, do not wait."));
    }

    private Section found(Assessment assessment, Aftercare care) {
        List<Block> blocks = new ArrayList<>();
        if (care.interim().isPresent()) {
            blocks.add(new Lead(assessment
                    .urgency()
                    .filter(urgency -> urgency.compareTo(Urgency.ROUTINE_REFERRAL) > 0)
                    .map(urgency -> urgent(urgency, assessment))
                    .orElse("We have not done all our checks yet. Until then, rest the leg.")));
        } else {
            blocks.add(new Para(
                    assessment.raisedFlags().isEmpty()
                            ? "We asked about signs of danger. We found none today."
                            : "We found one thing that needs a closer look in the next few weeks. It is not an"
                                    + " emergency. We will send you to the right person."));
            blocks.add(new Para(likely(assessment)));
        }
        return new Section("found", "What we found", blocks);
    }

    private static String urgent(Urgency urgency, Assessment assessment) {
        String within = assessment.raisedFlags().get(0).highest().orElseThrow().within();
        return switch (urgency) {
            case EMERGENCY -> "We found a sign that needs care right now.";
            case SAME_DAY -> "We found a sign that must be looked at today.";
            default -> "We found a sign that needs a closer look soon. Time limit: " + within + ".";
        };
    }

    private String likely(Assessment assessment) {
        List<CandidateResult> leading = assessment.candidates(Standing.LEADING);
        if (leading.size() == 1 && !leading.get(0).condition().equals(Condition.UNEXPLAINED)) {
            String id = leading.get(0).condition();
            return "The most likely cause is "
                    + naming.table("patient-names.csv", "condition", "patient_words")
                            .getOrDefault(id, naming.thing(id))
                    + ". We cannot be fully sure. We will look again at your next visit.";
        }
        return leading.size() > 1
                ? "More than one cause is still possible. We will look again at your next visit."
                : "We do not know the exact cause yet. We will look again at your next visit.";
    }

    private Section interim(Plan.Interim interim) {
        return new Section(
                "now",
                "What to do now",
                List.of(new Bullets(PlanSections.told(interim).stream()
                        .filter(row -> !tables.role(CareTables.COME_BACK).contains(row.id()))
                        .map(InterimAdvice::patientWords)
                        .distinct()
                        .toList())));
    }

    /** When to get help at once; the table writes the sentence and its points with bars between them. */
    private Section help() {
        List<String> parts = List.of(tables.comeBack().patientWords().split(BULLET, -1));
        List<Block> blocks = new ArrayList<>();
        blocks.add(new Lead(parts.get(0)));
        if (parts.size() > 1) {
            blocks.add(new Bullets(parts.subList(1, parts.size())));
        }
        return new Section("help", "When to get help at once", blocks);
    }

    private List<Section> items(Plan.Active active, Aftercare care) {
        List<Section> sections = new ArrayList<>();
        Map<String, String> headings = naming.table("plan-categories.csv", "category", "patient_heading");
        headings.forEach((category, heading) -> {
            List<Block> blocks = new ArrayList<>();
            List<String> plain = new ArrayList<>();
            for (Plan.Chosen chosen : active.items()) {
                PlanItem item = chosen.item();
                if (item.category().equals(category)) {
                    if (item.drawing().isEmpty() && !counted(item.dose())) {
                        plain.add(item.patientWords() + target(item, care));
                    } else {
                        blocks.add(card(item));
                    }
                }
            }
            if (!plain.isEmpty()) {
                blocks.add(0, new Bullets(plain));
            }
            if (!blocks.isEmpty()) {
                sections.add(new Section("do-" + category, heading, blocks));
            }
        });
        return sections;
    }

    /** Whether the dose says how often, so that it must be read. */
    private static boolean counted(Dose dose) {
        return dose.sets().isPresent()
                || dose.reps().isPresent()
                || dose.holdSeconds().isPresent();
    }

    private String target(PlanItem item, Aftercare care) {
        return tables.role(CareTables.STEP_RATE_ITEM).contains(item.id())
                        && care.stepRateTarget().isPresent()
                ? " Aim for " + care.stepRateTarget().getAsLong() + " steps a minute."
                : "";
    }

    private Card card(PlanItem item) {
        List<String> lines = new ArrayList<>();
        lines.add(item.patientWords());
        lines.add("How much: " + item.dose().text());
        return new Card(item.label(), naming.drawing(item.drawing()).orElse(""), lines);
    }

    private static void stops(Plan.Active active, List<Section> sections) {
        List<String> stops = List.copyOf(PlanSections.stops(active).values());
        if (!stops.isEmpty()) {
            sections.add(new Section(
                    "stop",
                    "When to stop",
                    List.of(
                            new Para(
                                    "Pain is scored from 0 to 10. 0 is no pain. 10 is the worst pain you can think of."),
                            new Bullets(stops))));
        }
    }

    private static void runs(Aftercare care, List<Section> sections) {
        List<Block> blocks = new ArrayList<>();
        care.returning().ifPresent(returning -> {
            ReturnSchedule.Schedule schedule = returning.schedule();
            if (schedule.ending() == ReturnSchedule.Ending.REVIEW_FIRST) {
                blocks.add(new Lead("Two runs in a row were too much. Do not run until we have seen you."));
            }
            if (!schedule.sessions().isEmpty()) {
                blocks.add(CalendarChart.of(
                        "runs-picture",
                        new ReturnSchedule.Schedule(List.of(), schedule.sessions(), schedule.ending())));
                blocks.add(PlanSections.bySteps("Your runs", schedule.sessions()));
                blocks.add(new Para("After each run, write down the distance and your worst pain from 0 to 10. The next"
                        + " day, note if the pain is back to normal and if the knee is swollen or stiff."));
                blocks.add(new Para("If you miss a run, do not add it to the next one. If a run hurts, tell us: your"
                        + " dates will change."));
            }
        });
        care.supported().ifPresent(supported -> {
            blocks.add(new Heading("On the machine"));
            blocks.add(new Grid(
                    "Your sessions",
                    List.of("Day", "Setting"),
                    supported.sessions().stream()
                            .map(session -> List.of(
                                    Naming.shortDay(session.date()),
                                    session.step().support().words()))
                            .toList()));
        });
        if (!blocks.isEmpty()) {
            sections.add(new Section("runs", "Your runs, day by day", blocks));
        }
    }

    private static Section next(Aftercare care) {
        List<Block> blocks = new ArrayList<>();
        care.next()
                .date()
                .ifPresent(date -> blocks.add(new Para("We want to hear from you by " + Naming.day(date) + ".")));
        blocks.add(new Blank("Day and time"));
        blocks.add(new Blank("Phone"));
        return new Section("next", "Your next visit", blocks);
    }
}
