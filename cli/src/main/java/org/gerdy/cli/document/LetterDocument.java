package org.gerdy.cli.document;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.gerdy.cli.document.Document.Blank;
import org.gerdy.cli.document.Document.Block;
import org.gerdy.cli.document.Document.Bullets;
import org.gerdy.cli.document.Document.Fine;
import org.gerdy.cli.document.Document.Grid;
import org.gerdy.cli.document.Document.Heading;
import org.gerdy.cli.document.Document.Para;
import org.gerdy.cli.document.Document.Section;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.assessment.CandidateResult;
import org.gerdy.engine.assessment.CandidateResult.Standing;
import org.gerdy.engine.assessment.Flag;
import org.gerdy.engine.assessment.Reason;
import org.gerdy.engine.assessment.ReferralResult;
import org.gerdy.engine.care.Aftercare;
import org.gerdy.engine.care.CareTables;
import org.gerdy.engine.care.VisitResult;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.logic.Truth;
import org.gerdy.engine.vocabulary.FindingDefinition;
import org.gerdy.engine.vocabulary.Kind;
import org.gerdy.engine.vocabulary.Urgency;

/** A referral letter: situation, background, assessment, request. Holds no name; what identifies is left blank. */
public final class LetterDocument {
    /** Open danger questions listed, those of the highest urgency first. */
    private static final int OPEN_SHOWN = 8;

    private final Naming naming;
    private final CareTables tables;

    /** Letters over this knowledge base. */
    public LetterDocument(KnowledgeBase knowledge, CareTables tables) {
        this.naming = new Naming(knowledge);
        this.tables = tables;
    }

    /** The addressees a letter can go to, label by id. */
    public Map<String, String> recipients() {
        return naming.table("letter-recipients.csv", "id", "label");
    }

    /**
     * The letter about a visit.
     *
     * @param to the label of the addressee
     */
    public Document of(VisitResult result, CaseFile caseFile, Observations observations, String to) {
        Assessment assessment = result.assessment();
        List<Section> sections = new ArrayList<>();
        sections.add(new Section(
                "to",
                "To: " + to,
                List.of(
                        new Para("Case " + assessment.caseId() + ". Seen on " + Naming.day(assessment.visit()) + "."),
                        new Blank("Patient"),
                        new Blank("Date of birth"),
                        new Blank("Contact"))));
        sections.add(situation(result));
        Set<String> known = known(caseFile, observations);
        sections.add(background(known, observations));
        sections.add(assessed(assessment, known, observations));
        sections.add(notTested(assessment, observations));
        sections.add(request(result));
        sections.add(new Section(
                "signed", "From", List.of(new Blank("Clinician"), new Blank("Signature"), new Blank("Reply to"))));
        return new Document(
                "Referral letter",
                SummaryDocument.subtitle(assessment),
                sections,
                List.of(SummaryDocument.stamp(assessment)),
                Document.Print.CLOSE);
    }

    private static Section situation(VisitResult result) {
        Assessment assessment = result.assessment();
        List<Block> blocks = new ArrayList<>();
        String urgency = assessment.urgency().map(Urgency::word).orElse("not settled");
        List<String> why = why(result);
        blocks.add(new Para("Urgency: " + urgency
                + assessment.raisedFlags().stream()
                        .findFirst()
                        .map(top -> " (" + top.highest().orElseThrow().within() + ")")
                        .orElse("")
                + ", " + assessment.side().word()
                + (assessment.side().each().size() > 1 ? " sides." : " side.")
                + (assessment.screeningComplete()
                        ? " Every danger question was answered."
                        : " Not every danger question is answered; see what was not tested.")));
        blocks.add(new Heading("Why now"));
        blocks.add(
                why.isEmpty()
                        ? new Para("No red flag and no referral threshold is met; this letter asks for an opinion.")
                        : new Bullets(why));
        return new Section("situation", "Situation", blocks);
    }

    private static List<String> why(VisitResult result) {
        List<String> why = new ArrayList<>();
        for (Flag flag : result.assessment().raisedFlags()) {
            Flag.Row row = flag.highest().orElseThrow();
            why.add(row.label() + ": " + row.urgency().word() + " (" + row.within() + ")."
                    + (row.rationale().isEmpty() ? "" : " " + row.rationale()));
        }
        thresholds(result.assessment())
                .forEach(referral ->
                        why.add(referral.label() + ": " + referral.urgency().word() + " (" + referral.within() + ")."));
        result.aftercare().review().ifPresent(review -> review.due().stream()
                .filter(due -> due.certain())
                .forEach(due -> why.add(due.row().text() + ": " + due.row().action())));
        return why;
    }

    /** The thresholds met, without those that a raised flag has overtaken. */
    private static List<ReferralResult> thresholds(Assessment assessment) {
        return assessment.referrals().stream()
                .filter(referral -> assessment.raisedFlags().isEmpty()
                        || referral.urgency().compareTo(assessment.urgency().orElse(referral.urgency())) >= 0)
                .toList();
    }

    private Section background(Set<String> known, Observations observations) {
        return new Section(
                "background",
                "Background",
                known.isEmpty()
                        ? List.of(new Para("Nothing was recorded about the person."))
                        : List.of(new Grid("What is known", List.of("Question", "Answer"), rows(known, observations))));
    }

    /** What is known of the person and the story. What is present stands among what was found. */
    private Set<String> known(CaseFile caseFile, Observations observations) {
        Set<String> known = new LinkedHashSet<>();
        caseFile.patient().keySet().stream()
                .filter(id ->
                        naming.knowledge().catalogue().finding(id).orElseThrow().kind() != Kind.YES_NO)
                .forEach(known::add);
        naming.knowledge().catalogue().findings().stream()
                .filter(finding -> Set.of("context", "history", "training").contains(finding.section()))
                .filter(finding -> finding.kind() != Kind.YES_NO)
                .map(FindingDefinition::id)
                .filter(id -> observations.recorded(id).isPresent())
                .forEach(known::add);
        return known;
    }

    private List<List<String>> rows(Set<String> findings, Observations observations) {
        return findings.stream()
                .map(id -> List.of(naming.words().finding(id), shown(id, observations)))
                .toList();
    }

    /** A choice is said in words; a day and a number stay as they are. */
    private String shown(String id, Observations observations) {
        String shown = observations.shown(id);
        return naming.knowledge()
                        .catalogue()
                        .finding(id)
                        .filter(finding -> finding.kind() == Kind.CHOICE)
                        .isPresent()
                ? shown.replace('-', ' ')
                : shown;
    }

    private Section assessed(Assessment assessment, Set<String> known, Observations observations) {
        List<Block> blocks = new ArrayList<>();
        Set<String> behind = new LinkedHashSet<>();
        assessment.raisedFlags().forEach(flag -> flag.highest().orElseThrow().reasons().stream()
                .map(Reason::findings)
                .forEach(findings -> findings.forEach(read -> behind.add(read.id()))));
        found(observations, "present", behind);
        behind.removeAll(known);
        blocks.add(new Grid("What was found", List.of("Asked or tested", "Found"), rows(behind, observations)));
        Set<String> absent = new LinkedHashSet<>();
        found(observations, "absent", absent);
        absent.removeAll(behind);
        if (!absent.isEmpty()) {
            blocks.add(new Heading("Asked or tested, and absent"));
            blocks.add(new Fine(absent.stream().map(naming.words()::finding).collect(Collectors.joining(" "))));
        }
        blocks.add(new Heading("Considered"));
        blocks.add(new Para(assessment.candidates().stream()
                        .filter(candidate -> candidate.standing() != Standing.UNLIKELY)
                        .limit(6)
                        .map(LetterDocument::considered)
                        .collect(Collectors.joining("; "))
                + ". The order comes from weighed findings. It is not a diagnosis."));
        return new Section("assessment", "Assessment", blocks);
    }

    private void found(Observations observations, String state, Set<String> into) {
        naming.knowledge().catalogue().findings().stream()
                .filter(finding -> finding.kind() == Kind.YES_NO)
                .map(FindingDefinition::id)
                .filter(id -> observations.recorded(id).isPresent() && observations.is(id, state) == Truth.TRUE)
                .forEach(into::add);
    }

    private static String considered(CandidateResult candidate) {
        return candidate.name() + " (" + candidate.standing().word()
                + (candidate.mustNotMiss() ? ", must not be missed)" : ")");
    }

    private Section notTested(Assessment assessment, Observations observations) {
        Set<String> open = new LinkedHashSet<>();
        assessment.openFlags().stream()
                .sorted((a, b) ->
                        b.couldBecome().orElseThrow().compareTo(a.couldBecome().orElseThrow()))
                .forEach(flag -> open.addAll(flag.ask()));
        Set<String> unable = new TreeSet<>();
        observations.recorded().keySet().stream().filter(observations::isUnable).forEach(unable::add);
        List<Block> blocks = new ArrayList<>();
        if (!unable.isEmpty()) {
            blocks.add(new Heading("Tried, could not be done"));
            blocks.add(new Bullets(unable.stream().map(naming.words()::finding).toList()));
        }
        open.removeAll(unable);
        if (!open.isEmpty()) {
            blocks.add(new Heading("Danger questions not asked or tested"));
            blocks.add(new Bullets(
                    open.stream().limit(OPEN_SHOWN).map(naming.words()::finding).toList()));
            if (open.size() > OPEN_SHOWN) {
                blocks.add(new Para("And " + (open.size() - OPEN_SHOWN) + " more; the summary lists them all."));
            }
        }
        Set<String> settle = new LinkedHashSet<>();
        assessment.candidates(Standing.LEADING).forEach(candidate -> settle.addAll(candidate.settle()));
        settle.removeAll(open);
        if (!settle.isEmpty()) {
            blocks.add(new Heading("Not tested, and would help most"));
            blocks.add(new Bullets(settle.stream().map(naming.words()::finding).toList()));
        }
        if (blocks.isEmpty()) {
            blocks.add(new Para("Every danger question was asked. Nothing else is known to be missing."));
        }
        return new Section("not-tested", "Not tested", blocks);
    }

    private Section request(VisitResult result) {
        Set<String> asks = new LinkedHashSet<>();
        result.assessment()
                .raisedFlags()
                .forEach(flag -> asks.add(flag.highest().orElseThrow().action()));
        thresholds(result.assessment()).forEach(referral -> asks.add(referral.action()));
        List<Block> blocks = new ArrayList<>();
        if (asks.isEmpty()) {
            blocks.add(new Para("Please give your opinion on the cause and the plan."));
        } else {
            blocks.add(new Bullets(List.copyOf(asks)));
        }
        blocks.add(new Para("Please tell us what you find, and whether exercise and running may go on."));
        blocks.add(new Heading("What the patient has been told until then"));
        blocks.add(new Bullets(told(result.aftercare())));
        return new Section("request", "Request", blocks);
    }

    /** In the patient's own words; when to come back stays one line. */
    private List<String> told(Aftercare care) {
        List<String> told = new ArrayList<>();
        care.interim().ifPresent(interim -> PlanSections.told(interim)
                .forEach(row -> told.add(
                        tables.role(CareTables.COME_BACK).contains(row.id()) ? row.text() : row.patientWords())));
        care.active().ifPresent(active -> active.items()
                .forEach(chosen -> told.add(chosen.item().label())));
        care.plan().clinician().ifPresent(said -> told.add("The clinician decided: " + said.decision()));
        return told.isEmpty() ? List.of("Nothing beyond when to come back.") : told;
    }
}
