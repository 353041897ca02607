package org.gerdy.engine.audit;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.TreeMap;
import java.util.stream.LongStream;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.assessment.CandidateResult;
import org.gerdy.engine.assessment.Flag;
import org.gerdy.engine.casefile.Recorded;
import org.gerdy.engine.drill.DrillTables;
import org.gerdy.engine.fact.EvidenceRow;
import org.gerdy.engine.knowledge.Condition;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.KnowledgeVariant;
import org.gerdy.engine.reasoning.LogicReasoner;
import org.gerdy.engine.vocabulary.Urgency;

/**
 * A simulated cohort and how the knowledge base does on it. It tests consistency, not truth: the patients come from the
 * same numbers that judge them.
 *
 * @param figures with the evidence as it is
 * @param perturbed the same patients judged with evidence drawn afresh within its bounds, once for each entry
 * @param missed dangerous conditions that show signs in complete danger answers, whose result was the lowest urgency: condition
 *     and the answers given
 */
public record Cohort(Figures figures, List<Figures> perturbed, List<String> missed) {
    private static final int BINS = 10;
    private static final int ROUNDS = 15;
    private static final int TOLD = 20;

    /** Said before any figure. */
    public static final String CAUTION =
            "These patients are drawn from the knowledge base's own numbers. The figures test whether it agrees with"
                    + " itself, not whether it is true of patients.";

    /**
     * Some of the patients.
     *
     * @param lowest how many of them came out at the lowest urgency
     * @param kept how many of those met no threshold for referral either
     */
    public record Part(int patients, int lowest, int kept) {
        private static Part of(List<Judged> all, Patients.Shown shown) {
            List<Judged> those = all.stream()
                    .filter(one -> one.dangerous() && one.shown() == shown)
                    .toList();
            List<Judged> lowest = those.stream().filter(Judged::lowest).toList();
            return new Part(those.size(), lowest.size(), (int)
                    lowest.stream().filter(one -> !one.referred()).count());
        }
    }

    /**
     * What came out.
     *
     * @param cases patients drawn
     * @param showing those with a condition that must not be missed and signs of it in their answers
     * @param background those with such a condition and only risks they bring along that speak for it
     * @param silent those with such a condition and nothing in their answers that speaks for it by the evidence table
     * @param benign patients whose condition is usually handled at the lowest urgency
     * @param over benign ones sent on urgently or sooner
     * @param ranks how often the true condition stands at each place, from 1; the last is any later place
     * @param brier mean squared difference between the share of the first candidate and whether it is the true one
     * @param calibrationError mean difference between said and found over ten bins, weighted by their size
     * @param bins said, found and size of each bin that is not empty
     */
    public record Figures(
            int cases,
            Part showing,
            Part background,
            Part silent,
            int benign,
            int over,
            List<Integer> ranks,
            double brier,
            double calibrationError,
            List<double[]> bins) {
        /** How many have a condition that must not be missed. */
        public int dangerous() {
            return showing.patients() + background.patients() + silent.patients();
        }

        /** Sensitivity for dangerous conditions that show signs, 0 to 1. */
        public double sensitivity() {
            return showing.patients() == 0 ? 1 : 1 - (double) showing.lowest() / showing.patients();
        }

        /** Part of benign patients sent on urgently, 0 to 1. */
        public double overTriage() {
            return benign == 0 ? 0 : (double) over / benign;
        }

        /** Part of patients whose true condition is among the first n. */
        public double within(int n) {
            int sum = 0;
            for (int i = 0; i < Math.min(n, ranks.size() - 1); i++) {
                sum += ranks.get(i);
            }
            return cases == 0 ? 0 : (double) sum / cases;
        }
    }

    private record Judged(
            boolean dangerous,
            Patients.Shown shown,
            boolean benign,
            Optional<Urgency> urgency,
            boolean referred,
            int rank,
            double top,
            String missed) {
        boolean lowest() {
            return urgency.equals(Optional.of(Urgency.MANAGE_HERE));
        }
    }

    /**
     * Draws and judges a cohort on all cores.
     *
     * @param tables how each condition begins, and ordinary answers
     * @param draw whom to draw and how completely to ask them
     * @param perturbations how often to judge again with evidence drawn afresh
     */
    public static Cohort run(
            KnowledgeBase knowledge, DrillTables tables, Draw draw, int perturbations, Watcher watcher) {
        List<String> missed = new ArrayList<>();
        Patients patients = new Patients(knowledge, tables);
        try (Watcher.Steps steps = watcher.begin("Patients", (1L + perturbations) * draw.cases())) {
            Figures figures = judge(patients, knowledge, knowledge, draw, missed, steps);
            List<Figures> perturbed = new ArrayList<>();
            for (int i = 0; i < perturbations; i++) {
                KnowledgeBase shaken = shaken(knowledge, draw.seed() + i + 1);
                perturbed.add(judge(patients, knowledge, shaken, draw, new ArrayList<>(), steps));
            }
            return new Cohort(figures, List.copyOf(perturbed), List.copyOf(missed));
        }
    }

    /**
     * Whom to draw.
     *
     * @param cases how many patients
     * @param seed the same number, the same patients
     * @param population only this one; a mix without
     * @param dangerous only conditions that must not be missed, each as often as any other
     * @param complete whether every danger question is asked until the screen is complete
     */
    public record Draw(int cases, long seed, Optional<String> population, boolean dangerous, boolean complete) {
        private Patients.Patient patient(Patients patients, long index) {
            return dangerous ? patients.drawDangerous(seed, index, population) : patients.draw(seed, index, population);
        }
    }

    /** Each answer set of the cohort as a case, one at a time; for other programs and for batches. */
    public static final class Source {
        private final Patients patients;

        /** Patients of this knowledge base. */
        public Source(KnowledgeBase knowledge, DrillTables tables) {
            this.patients = new Patients(knowledge, tables);
        }

        /** The answers given by one patient. */
        public Map<String, Recorded> answers(Draw draw, long index) {
            return draw.patient(patients, index).given();
        }
    }

    private static KnowledgeBase shaken(KnowledgeBase knowledge, long seed) {
        Random random = new Random(seed);
        return KnowledgeVariant.evidence(
                knowledge,
                knowledge.evidence().rows().stream()
                        .map(row -> new EvidenceRow(
                                row.finding(),
                                row.condition(),
                                row.whenPresent().map(ratio -> shaken(ratio, random)),
                                row.whenAbsent().map(ratio -> shaken(ratio, random)),
                                row.cluster(),
                                row.origin(),
                                row.basis(),
                                row.sources(),
                                row.note()))
                        .toList());
    }

    private static EvidenceRow.Ratio shaken(EvidenceRow.Ratio ratio, Random random) {
        double factor = Math.exp(random.nextGaussian() * ratio.standardError());
        return new EvidenceRow.Ratio(ratio.value() * factor, ratio.low() * factor, ratio.high() * factor);
    }

    private static Figures judge(
            Patients patients,
            KnowledgeBase source,
            KnowledgeBase judging,
            Draw draw,
            List<String> missed,
            Watcher.Steps steps) {
        ThreadLocal<LogicReasoner> reasoners = ThreadLocal.withInitial(() -> new LogicReasoner(judging));
        List<Judged> all = LongStream.range(0, draw.cases())
                .parallel()
                .mapToObj(i -> judged(source, patients, draw.patient(patients, i), reasoners.get(), draw.complete()))
                .peek(one -> steps.done(1))
                .toList();
        all.stream()
                .map(Judged::missed)
                .filter(one -> !one.isEmpty())
                .limit(TOLD)
                .forEach(missed::add);
        return figures(all);
    }

    private static Judged judged(
            KnowledgeBase knowledge,
            Patients patients,
            Patients.Patient patient,
            LogicReasoner reasoner,
            boolean complete) {
        Map<String, Recorded> given = new LinkedHashMap<>(patient.given());
        if (complete) {
            ask(patients, patient, given, reasoner);
        }
        Assessment assessment = reasoner.assess("simulated", patients.observations(given));
        int rank = 0;
        double top = 0;
        for (int i = 0; i < assessment.candidates().size(); i++) {
            CandidateResult candidate = assessment.candidates().get(i);
            top = i == 0 ? candidate.share() : top;
            if (candidate.condition().equals(patient.condition())) {
                rank = i + 1;
            }
        }
        Condition condition = knowledge.condition(patient.condition());
        boolean lowest = assessment.urgency().equals(Optional.of(Urgency.MANAGE_HERE));
        // Of a benign patient nobody asks it, and it costs reading the evidence.
        Patients.Shown shown =
                condition.mustNotMiss() ? patients.shown(patient.condition(), given) : Patients.Shown.NOTHING;
        boolean wrong = shown == Patients.Shown.SIGNS && lowest;
        return new Judged(
                condition.mustNotMiss(),
                shown,
                condition.disposition().equals(Urgency.MANAGE_HERE.word()),
                assessment.urgency(),
                !assessment.referrals().isEmpty(),
                rank,
                top,
                wrong ? patient.condition() + ": " + told(patients, given) : "");
    }

    private static String told(Patients patients, Map<String, Recorded> given) {
        return String.join(
                ", ",
                given.keySet().stream()
                        .map(id -> id + " " + patients.observations(given).shown(id))
                        .filter(text -> !text.contains(" absent"))
                        .toList());
    }

    /** Asks what open flags want until nothing is open; the patient answers as they are. */
    private static void ask(
            Patients patients, Patients.Patient patient, Map<String, Recorded> given, LogicReasoner reasoner) {
        for (int round = 0; round < ROUNDS; round++) {
            Assessment screen = reasoner.screen("simulated", patients.observations(given));
            int before = given.size();
            for (Flag flag : screen.openFlags()) {
                for (String id : flag.ask()) {
                    Recorded answer = patient.latent().get(id);
                    if (answer != null) {
                        given.put(id, answer);
                    }
                }
            }
            if (given.size() == before) {
                return;
            }
        }
    }

    private static Figures figures(List<Judged> all) {
        int benign = 0;
        int over = 0;
        int[] ranks = new int[BINS + 1];
        double squares = 0;
        Map<Integer, double[]> bins = new TreeMap<>();
        for (Judged one : all) {
            if (one.benign()) {
                benign++;
                over += one.urgency()
                                .filter(level -> level.compareTo(Urgency.URGENT) >= 0)
                                .isPresent()
                        ? 1
                        : 0;
            }
            ranks[one.rank() == 0 || one.rank() > BINS ? BINS : one.rank() - 1]++;
            double hit = one.rank() == 1 ? 1 : 0;
            squares += (one.top() - hit) * (one.top() - hit);
            double[] bin = bins.computeIfAbsent(Math.min(BINS - 1, (int) (one.top() * BINS)), ignored -> new double[3]);
            bin[0] += one.top();
            bin[1] += hit;
            bin[2]++;
        }
        double error = 0;
        List<double[]> drawn = new ArrayList<>();
        for (double[] bin : bins.values()) {
            error += Math.abs(bin[0] - bin[1]);
            drawn.add(new double[] {bin[0] / bin[2], bin[1] / bin[2], bin[2]});
        }
        int cases = Math.max(1, all.size());
        return new Figures(
                all.size(),
                Part.of(all, Patients.Shown.SIGNS),
                Part.of(all, Patients.Shown.BACKGROUND),
                Part.of(all, Patients.Shown.NOTHING),
                benign,
                over,
                java.util.Arrays.stream(ranks).boxed().toList(),
                squares / cases,
                error / cases,
                drawn);
    }
}
