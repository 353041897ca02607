package org.gerdy.engine.plan;

import java.util.List;
import java.util.Optional;

/** What the patient leaves with. Either advice until somebody else has seen the patient, or a plan with its items. */
public sealed interface Plan {
    /** The clinician's own decision, kept as written. */
    Optional<ClinicianDecision> clinician();

    /** The same plan with the clinician's decision beside it; nothing worked out is changed. */
    Plan with(ClinicianDecision decision);

    /**
     * Only interim advice: triage asks for somebody else first, or is not finished.
     *
     * @param because why there is no more
     * @param advice what to do until then
     * @param clinician the clinician's own decision
     */
    record Interim(String because, List<InterimAdvice> advice, Optional<ClinicianDecision> clinician) implements Plan {
        @Override
        public Interim with(ClinicianDecision decision) {
            return new Interim(because, advice, Optional.of(decision));
        }
    }

    /**
     * A plan with items.
     *
     * @param stage the stage it is for
     * @param items the items, in table order
     * @param heldBack items that fitted and are not given, each with the reason
     * @param notAdvised what is not advised, and why
     * @param clinician the clinician's own decision
     */
    record Active(
            String stage,
            List<Chosen> items,
            List<HeldBack> heldBack,
            List<NotAdvised> notAdvised,
            Optional<ClinicianDecision> clinician)
            implements Plan {
        @Override
        public Active with(ClinicianDecision decision) {
            return new Active(stage, items, heldBack, notAdvised, Optional.of(decision));
        }

        /** Proof that a chosen item opens this, such as a dated schedule; empty when none does. */
        public Optional<Clearance> clearance(String opens) {
            return items.stream()
                    .filter(chosen -> chosen.item().opens().equals(opens))
                    .findFirst()
                    .map(chosen -> new Clearance(opens, chosen.item().id()));
        }
    }

    /**
     * An item given.
     *
     * @param item the item
     * @param rules the rules that chose it
     */
    record Chosen(PlanItem item, List<String> rules) {}

    /**
     * An item that fitted and is not given.
     *
     * @param item the item
     * @param rules the rules that chose it
     * @param reason why not
     * @param about the findings, flags or conditions behind the reason
     */
    record HeldBack(PlanItem item, List<String> rules, Reason reason, List<String> about) {}

    /** Why an item is held back. */
    enum Reason {
        /** A contraindication is there. */
        CONTRAINDICATED,
        /** A contraindication has not been asked about; asking could free the item. */
        NOT_ASKED,
        /** A red flag that forbids it is raised or open. */
        RED_FLAG,
        /** A condition that forbids it is still a candidate. */
        CANDIDATE,
        /** None of the conditions it is for is a candidate. */
        OTHER_CONDITION,
        /** It belongs to another stage. */
        STAGE
    }

    /** Proof, made only by a plan, that an item which opens a schedule was given. */
    final class Clearance {
        private final String opens;
        private final String item;

        private Clearance(String opens, String item) {
            this.opens = opens;
            this.item = item;
        }

        /** What it opens. */
        public String opens() {
            return opens;
        }

        /** The item that opened it. */
        public String item() {
            return item;
        }
    }
}
