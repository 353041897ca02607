package org.gerdy.cli.bench;

import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.logic.Comparison;
import org.gerdy.engine.logic.Truth;

/** What the red flag rows read, written out as plain Java: cut-offs and populations. */
class HandWrittenTerms extends HandWrittenAnswers {
    HandWrittenTerms(Observations answers) {
        super(answers);
    }

    /** weakest leg muscle below grade 5. */
    boolean anyLegWeakness() {
        return below("leg-power-lowest-grade", 5);
    }

    /** 50 years or older. */
    boolean arteryDiseaseAge() {
        return atLeast("age", 50);
    }

    /** smokes now, diabetes, high blood pressure or heart or vessel disease. */
    boolean arteryRiskFactor() {
        return chose("smoking", "current") || present("diabetes") || present("hypertension-or-cardiovascular");
    }

    /** swollen within 6 hours of the injury, or at an unknown time with fluid now. */
    boolean bleedLikeSwelling() {
        return chose("swelling-onset", "within-2-hours")
                || chose("swelling-onset", "within-2-to-6-hours")
                || (chose("swelling-onset", "unknown") && present("effusion-any"));
    }

    /** problem for 6 weeks or longer. */
    boolean bonePainWeeks() {
        return atLeast("symptom-duration", 6);
    }

    /** calf at least 3.0 cm larger than the other. */
    boolean calfLarger() {
        return sides("calf-circumference", Comparison.AT_LEAST, 3, Truth.TRUE);
    }

    /** problem for 4 weeks or longer. */
    boolean cancerHistoryWeeks() {
        return atLeast("symptom-duration", 4);
    }

    /** joint fluid white cells above 50000 per mm3. */
    boolean cellCountInfected() {
        return above("synovial-white-count", 50000);
    }

    /** problem for 1 week or longer. */
    boolean childLimpWeeks() {
        return atLeast("symptom-duration", 1);
    }

    /** younger than 18 years. */
    boolean childOrAdolescent() {
        return below("age", 18);
    }

    /** two-level clot score of 2 or more. */
    boolean clotScoreLikely() {
        return count(
                                present("active-cancer"),
                                present("leg-paralysis-or-cast"),
                                present("bedridden-3-days") || present("recent-surgery-dvt"),
                                present("deep-vein-tenderness"),
                                present("whole-leg-swollen"),
                                calfLarger(),
                                present("pitting-oedema-one-leg"),
                                present("collateral-veins"),
                                present("previous-dvt"))
                        - (notPresent("dvt-alternative-as-likely") ? 0 : 2)
                >= 2;
    }

    /** injury at most 3 days ago. */
    boolean compartmentDays() {
        return atMost("days-since-injury", 3);
    }

    /** signs in 2 or more of the 4 groups. */
    boolean crpsSignsMet() {
        return atLeast("crps-sign-groups", 2);
    }

    /** symptoms in 3 or more of the 4 groups. */
    boolean crpsSymptomsMet() {
        return atLeast("crps-symptom-groups", 3);
    }

    /** injury at most 14 days ago. */
    boolean dislocationDays() {
        return atMost("days-since-injury", 14);
    }

    /** treated for 4 weeks or longer. */
    boolean earlyTrialOfCare() {
        return atLeast("weeks-of-care", 4);
    }

    /** older than 50 years. */
    boolean fallRuleOld() {
        return above("age", 50);
    }

    /** younger than 12 years. */
    boolean fallRuleYoung() {
        return below("age", 12);
    }

    /** 55 years or older. */
    boolean filmRuleAge() {
        return atLeast("age", 55);
    }

    /** 5 years or older. */
    boolean filmRuleAgeFloor() {
        return atLeast("age", 5);
    }

    /** injury at most 7 days ago. */
    boolean filmRuleDays() {
        return atMost("days-since-injury", 7);
    }

    /** bends less than 90 degrees. */
    boolean flexionShortOfFilmRule() {
        return below("knee-flexion", 90);
    }

    /** ankle lift grade 3 or less. */
    boolean footDropGrade() {
        return atMost("dorsiflexion-grade", 3);
    }

    /** treated for 8 weeks or longer. */
    boolean fullTrialOfCare() {
        return atLeast("weeks-of-care", 8);
    }

    /** problem for 6 weeks or longer. */
    boolean growingPainWeeks() {
        return atLeast("symptom-duration", 6);
    }

    /** running, trail running, triathlon, military training, field or court sport, dance or gymnastics. */
    boolean impactAthlete() {
        return chose("activity", "running")
                || chose("activity", "trail-running")
                || chose("activity", "triathlon")
                || chose("activity", "military-training")
                || chose("activity", "field-court-sport")
                || chose("activity", "dance-gymnastics");
    }

    /** ankle-brachial index 0.90 or less. */
    boolean indexAbnormal() {
        return atMost("ankle-brachial-index", 0.9);
    }

    /** ankle-brachial index after exercise below 0.90. */
    boolean indexLowAfterExercise() {
        return below("abi-after-exercise", 0.9);
    }

    /** ankle-brachial index below 0.90. */
    boolean indexLowAfterInjury() {
        return below("ankle-brachial-index", 0.9);
    }

    /** resting ankle-brachial index below 0.90. */
    boolean indexLowWithCramp() {
        return below("ankle-brachial-index", 0.9);
    }

    /** ankle-brachial index above 1.40. */
    boolean indexNotCompressible() {
        return above("ankle-brachial-index", 1.4);
    }

    /** no injury, or one too old to explain warmth. */
    boolean injuryDoesNotExplainWarmth() {
        return !present("acute-injury") || notBleedExplainsWarmthDays();
    }

    /** definite injury within the last days. */
    boolean injuryInCompartmentWindow() {
        return present("acute-injury") && compartmentDays();
    }

    /** lump 5 cm or larger. */
    boolean largeLump() {
        return atLeast("lump-size", 5);
    }

    /** hot or swollen for more than 42 days. */
    boolean longStandingSwelling() {
        return above("hot-swollen-days", 42);
    }

    /** problem for 12 weeks or longer. */
    boolean longUnresolved() {
        return atLeast("symptom-duration", 12);
    }

    /** weakest leg muscle grade 3 or less. */
    boolean majorLegWeakness() {
        return atMost("leg-power-lowest-grade", 3);
    }

    /** 12 or more periods missed in a row. */
    boolean manyMissedPeriods() {
        return atLeast("missed-periods", 12);
    }

    /** temperature 38.0 C or higher. */
    boolean measuredFever() {
        return atLeast("temperature", 38);
    }

    /** hot or swollen for at most 42 days. */
    boolean newSwelling() {
        return atMost("hot-swollen-days", 42);
    }

    /** Known not: injury at most 14 days ago. */
    boolean notBleedExplainsWarmthDays() {
        return above("days-since-injury", 14);
    }

    /** Known not: younger than 18 years. */
    boolean notChildOrAdolescent() {
        return atLeast("age", 18);
    }

    /** Known not: injury at most 14 days ago. */
    boolean notDislocationDays() {
        return above("days-since-injury", 14);
    }

    /** Known not: fresh definite injury by a fall or blunt trauma. */
    boolean notFallRulePopulation() {
        return notInjuryInFilmWindow() || notPresent("fall-or-blunt-trauma");
    }

    /** Known not: 5 years or older. */
    boolean notFilmRuleAgeFloor() {
        return below("age", 5);
    }

    /** Known not: injury at most 7 days ago. */
    boolean notFilmRuleDays() {
        return above("days-since-injury", 7);
    }

    /** Known not: fresh definite injury at an age the five-item rule covers. */
    boolean notFilmRulePopulation() {
        return notInjuryInFilmWindow() || notFilmRuleAgeFloor();
    }

    /** Known not: recent injury with a fall, high energy, older age or bone health risk. */
    boolean notHipFracturePopulation() {
        return notRecentLegInjury()
                || (notPresent("fall-standing-height")
                        && notPresent("high-energy-injury")
                        && notOlderAdult()
                        && notPresent("bone-health-risk"));
    }

    /** Known not: fresh definite injury. */
    boolean notInjuryInDislocationWindow() {
        return notPresent("acute-injury") || notDislocationDays();
    }

    /** Known not: definite injury within the time of the radiograph rules. */
    boolean notInjuryInFilmWindow() {
        return notPresent("acute-injury") || notFilmRuleDays();
    }

    /** Known not: definite injury no longer fresh but still recent. */
    boolean notInjuryPastDislocationWindow() {
        return notPresent("acute-injury") || dislocationDays() || notRecentInjuryDays();
    }

    /** Known not: 50 years or older. */
    boolean notInsufficiencyAge() {
        return below("age", 50);
    }

    /** Known not: later adult age or bone health risk. */
    boolean notInsufficiencyPopulation() {
        return notInsufficiencyAge() && notPresent("bone-health-risk");
    }

    /** Known not: definite injury past the time of the radiograph rules but still recent. */
    boolean notLateAfterInjury() {
        return notPresent("acute-injury") || filmRuleDays() || notRecentInjuryDays();
    }

    /** Known not: no injury, or only an old one. */
    boolean notNoRecentInjury() {
        return notAbsent("acute-injury") && recentInjuryDays();
    }

    /** Known not: definite injury that is no longer recent. */
    boolean notOldInjury() {
        return notPresent("acute-injury") || recentInjuryDays();
    }

    /** Known not: 65 years or older. */
    boolean notOlderAdult() {
        return below("age", 65);
    }

    /** Known not: pregnant, may be pregnant, or birth within 12 weeks. */
    boolean notPregnantOrRecentBirth() {
        return choseOther("pregnancy-status", "pregnant")
                && choseOther("pregnancy-status", "birth-within-12-weeks")
                && choseOther("pregnancy-status", "not-sure");
    }

    /** Known not: injury at most 42 days ago. */
    boolean notRecentInjuryDays() {
        return above("days-since-injury", 42);
    }

    /** Known not: recent definite injury in a child younger than the radiograph rules cover. */
    boolean notRecentInjurySmallChild() {
        return notRecentLegInjury() || filmRuleAgeFloor();
    }

    /** Known not: recent definite injury. */
    boolean notRecentLegInjury() {
        return notPresent("acute-injury") || notRecentInjuryDays();
    }

    /** Known not: age at which a hip slips. */
    boolean notSlipAge() {
        return notSlipAgeFloor() || notChildOrAdolescent();
    }

    /** Known not: 8 years or older. */
    boolean notSlipAgeFloor() {
        return below("age", 8);
    }

    /** Known not: bone health risk or older age. */
    boolean notWeakBonePopulation() {
        return notPresent("bone-health-risk") && notOlderAdult();
    }

    /** Known not: younger than 25 years. */
    boolean notYoungPerson() {
        return atLeast("age", 25);
    }

    /** Known not: younger than the age at which a hip slips. */
    boolean notYoungerThanSlipAge() {
        return slipAgeFloor();
    }

    /** 65 years or older. */
    boolean olderAdult() {
        return atLeast("age", 65);
    }

    /** any sign of outer ligament or posterolateral corner laxity. */
    boolean outerLaxitySign() {
        return present("varus-laxity-30")
                || present("varus-laxity-0")
                || present("dial-test-30")
                || present("dial-test-90")
                || present("external-rotation-recurvatum")
                || present("posterolateral-drawer")
                || present("varus-thrust");
    }

    /** C-reactive protein above 20 mg/L. */
    boolean raisedCrp() {
        return above("crp", 20);
    }

    /** injury at most 42 days ago. */
    boolean recentInjuryDays() {
        return atMost("days-since-injury", 42);
    }

    /** injection or needle in this knee at most 6 weeks ago. */
    boolean recentJointInjection() {
        return chose("knee-procedure-kind", "injection-or-aspiration") && atMost("weeks-since-knee-procedure", 6);
    }

    /** procedure on this knee at most 12 weeks ago. */
    boolean recentKneeProcedure() {
        return atMost("weeks-since-knee-procedure", 12);
    }

    /** worst pain in 24 hours 8 or more out of 10. */
    boolean severePainScore() {
        return atLeast("pain-worst-24h", 8);
    }

    /** hot or swollen for at most 14 days. */
    boolean shortHotHistory() {
        return atMost("hot-swollen-days", 14);
    }

    /** 8 years or older. */
    boolean slipAgeFloor() {
        return atLeast("age", 8);
    }

    /** younger than 2 years. */
    boolean toddler() {
        return below("age", 2);
    }

    /** procedure on this knee at most 2 weeks ago. */
    boolean veryRecentProcedure() {
        return atMost("weeks-since-knee-procedure", 2);
    }

    /** pain shown at the calf. */
    boolean feltAtCalf() {
        return felt("calf");
    }

    /** pain in the groin, told or shown. */
    boolean feltAtGroin() {
        return present("groin-pain") || felt("groin-or-hip");
    }

    /** pain in the groin or the thigh, told or shown. */
    boolean feltAtGroinOrThigh() {
        return feltAtGroin()
                || present("thigh-pain")
                || felt("front-of-thigh")
                || felt("medial-thigh")
                || felt("lateral-thigh");
    }

    private boolean felt(String place) {
        return chose("pain-site", place) || chose("pain-site-second", place);
    }

    /** joint fluid white cells 25000 or more per mm3. */
    boolean cellCountInDoubt() {
        return atLeast("synovial-white-count", 25000);
    }

    /** joint fluid white cells above 2000 per mm3. */
    boolean inflamedJointFluid() {
        return above("synovial-white-count", 2000);
    }

    /** pregnant, may be pregnant, or birth within 12 weeks. */
    boolean pregnantOrRecentBirth() {
        return chose("pregnancy-status", "pregnant")
                || chose("pregnancy-status", "birth-within-12-weeks")
                || chose("pregnancy-status", "not-sure");
    }

    /** 50 years or older, or bone health risk. */
    boolean insufficiencyPopulation() {
        return atLeast("age", 50) || present("bone-health-risk");
    }

    /** bone health risk or 65 years or older. */
    boolean weakBonePopulation() {
        return present("bone-health-risk") || atLeast("age", 65);
    }

    /** knee forced backwards or into bow. */
    boolean cornerMechanism() {
        return present("hyperextension-injury") || present("varus-blow");
    }
}
