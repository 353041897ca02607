package org.gerdy.engine.intake;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.gerdy.engine.Gerdy;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.casefile.Answer;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.casefile.Recorded;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.casefile.Visit;
import org.gerdy.engine.reasoning.Consultation;
import org.gerdy.engine.reasoning.Probe;
import org.gerdy.engine.vocabulary.FindingDefinition;

/**
 * One visit being taken: answers come in one by one, the case grows, the conclusions follow, the next question is known.
 * Keeps the case as a value; putting it on the disk is its owner's part. For one thread; close it when done.
 */
public final class IntakeSession implements AutoCloseable {
    private static final String ENOUGH = "intake-candidate-questions";

    private final Gerdy gerdy;
    private final QuestionOrder order;
    private final Consultation consultation;
    private final Probe probe;
    private final Set<String> setAside = new LinkedHashSet<>();
    private final Set<String> apart = new LinkedHashSet<>();
    private final LocalDate date;
    private CaseFile caseFile;
    private Assessment assessment;
    private Optional<NextQuestions> next = Optional.empty();
    private double enough;
    private int separated;

    /** The visit of this day of a case. Throws {@link IllegalArgumentException} when the case has none. */
    public IntakeSession(Gerdy gerdy, CaseFile caseFile, LocalDate date) {
        this.gerdy = gerdy;
        this.caseFile = caseFile;
        this.date = date;
        Visit visit =
                caseFile.on(date).orElseThrow(() -> new IllegalArgumentException("There is no visit on " + date + "."));
        this.enough = gerdy.knowledge().settings().value(ENOUGH);
        this.order = new QuestionOrder(gerdy.knowledge());
        this.consultation = gerdy.consult(caseFile, visit);
        this.assessment = consultation.assess();
        this.probe = new Probe(gerdy.knowledge(), consultation.observations());
    }

    /** The case as it stands now. */
    public CaseFile caseFile() {
        return caseFile;
    }

    /** The visit being taken. */
    public Visit visit() {
        return caseFile.on(date).orElseThrow();
    }

    /** What follows from all answers. */
    public Assessment assessment() {
        return assessment;
    }

    /** What is known. */
    public Observations observations() {
        return consultation.observations();
    }

    /** Questions put off, in the order they were. */
    public Set<String> setAside() {
        return Set.copyOf(setAside);
    }

    /** What to ask next. */
    public NextQuestions next() {
        NextQuestions known = next.orElseGet(() -> order.next(probe, assessment, setAside, apart, separated < enough));
        next = Optional.of(known);
        return known;
    }

    /** Asks these one by one from now on, though they would stand on one screen. */
    public void takeApart(List<String> findings) {
        apart.addAll(findings);
        next = Optional.empty();
    }

    /** Why a question is worth asking now. */
    public Suggestion explain(String finding) {
        return order.explain(probe, assessment, finding);
    }

    /** The flags that hold a provocative test back now. */
    public List<String> heldBackBy(String finding) {
        return order.heldBackBy(finding, assessment);
    }

    /** A case of this visit with this answer put in, nothing changed here yet. The other side's answer stays. */
    public CaseFile with(CaseFile base, String finding, Optional<Side> side, Answer answer) {
        Optional<Recorded> before = Optional.ofNullable(visitOf(base).findings().get(finding))
                .or(() -> Optional.ofNullable(base.patient().get(finding)));
        Recorded recorded = new Recorded.Whole(answer);
        if (side.isPresent()) {
            Optional<Answer> left = before.flatMap(one -> one.on(Side.LEFT));
            Optional<Answer> right = before.flatMap(one -> one.on(Side.RIGHT));
            recorded = new Recorded.Sides(
                    side.get() == Side.LEFT ? Optional.of(answer) : left,
                    side.get() == Side.RIGHT ? Optional.of(answer) : right);
        }
        return changed(base, finding, Optional.of(recorded));
    }

    /** The case as it would be with this finding not asked, nothing changed here yet. */
    public CaseFile without(String finding) {
        return changed(caseFile, finding, Optional.empty());
    }

    /** Facts about the person that were recorded as such stay there; everything else belongs to the visit. */
    private CaseFile changed(CaseFile base, String finding, Optional<Recorded> recorded) {
        boolean ofPerson = base.patient().containsKey(finding);
        Map<String, Recorded> patient = new LinkedHashMap<>(base.patient());
        Map<String, Recorded> findings = new LinkedHashMap<>(visitOf(base).findings());
        Map<String, Recorded> changed = ofPerson ? patient : findings;
        recorded.ifPresentOrElse(given -> changed.put(finding, given), () -> changed.remove(finding));
        return replaced(base, patient, findings, visitOf(base).notes());
    }

    /** A case of this visit with a line added to the visit's notes, nothing changed here yet. */
    public CaseFile noted(CaseFile base, String line) {
        String notes = visitOf(base).notes();
        return replaced(
                base,
                base.patient(),
                visitOf(base).findings(),
                notes.isBlank() ? line : notes.stripTrailing() + "\n" + line);
    }

    private Visit visitOf(CaseFile base) {
        return base.on(date).orElseThrow();
    }

    private CaseFile replaced(
            CaseFile base, Map<String, Recorded> patient, Map<String, Recorded> findings, String notes) {
        Visit old = visitOf(base);
        Visit visit = old.with(findings, notes);
        List<Visit> visits = new ArrayList<>();
        base.visits().forEach(one -> visits.add(one.date().equals(date) ? visit : one));
        return new CaseFile(base.id(), base.title(), base.source(), patient, List.copyOf(visits), base.expect());
    }

    /** Goes on from this case, which differs from the present one in this finding at most. Returns what follows. */
    public Assessment proceed(CaseFile changed, String finding) {
        caseFile = changed;
        count(finding);
        setAside.remove(finding);
        next = Optional.empty();
        Optional<Recorded> recorded = Optional.ofNullable(
                gerdy.knowledge().terms().known(changed, visit()).get(finding));
        assessment =
                recorded.isPresent() ? consultation.answer(finding, recorded.get()) : consultation.retract(finding);
        probe.stand(consultation.observations());
        return assessment;
    }

    /** Goes on from this case, which differs from the present one in its notes only. */
    public void noteTaken(CaseFile changed) {
        caseFile = changed;
    }

    /** Puts a question off; it is asked again when the rest is done. */
    public void putOff(String finding) {
        count(finding);
        setAside.add(finding);
        next = Optional.empty();
    }

    /** Counts a question that only told candidates apart. */
    private void count(String finding) {
        boolean separating = next.flatMap(NextQuestions::best)
                .filter(best -> best.finding().equals(finding) && best.stage() == Suggestion.Stage.CANDIDATES)
                .isPresent();
        separated += separating ? 1 : 0;
    }

    /** Takes up every question that was put off, and goes further in telling candidates apart. */
    public void takeUpAgain() {
        setAside.clear();
        enough = separated + gerdy.knowledge().settings().value(ENOUGH);
        next = Optional.empty();
    }

    /** The sides a finding is to be answered for: those that hurt, both where they are compared; none for the person. */
    public List<Side> sides(FindingDefinition finding) {
        return QuestionOrder.sides(finding, observations());
    }

    @Override
    public void close() {
        consultation.close();
        probe.close();
    }

    /** The engine this intake runs on. */
    public Gerdy gerdy() {
        return gerdy;
    }
}
