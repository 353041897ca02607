package org.gerdy.cli.bench;

import java.util.List;
import org.gerdy.engine.casefile.Observations;

/** Red flag rows of nerve, spine, hip, circulation, energy, pain and the course of care. */
final class HandWrittenOther extends HandWrittenTerms {
    HandWrittenOther(Observations answers) {
        super(answers);
    }

    /** Adds the rows raised. */
    void addTo(List<String> raised) {
        if (present("dorsiflexion-weakness") && present("acute-injury") && !notInjuryInDislocationWindow()) {
            raised.add("fibular-nerve-palsy/foot-drop-after-injury");
        }
        if (footDropGrade()
                || (present("dorsiflexion-weakness")
                        && (chose("weakness-trend", "worse")
                                || recentKneeProcedure()
                                || present("tight-cast-or-bandage")))) {
            raised.add("fibular-nerve-palsy/weak-or-worsening");
        }
        if (present("dorsiflexion-weakness") || present("eversion-weakness")) {
            raised.add("fibular-nerve-palsy/any-weakness");
        }
        if (present("sensory-loss-lateral-leg")) {
            raised.add("fibular-nerve-palsy/numb-outer-leg");
        }
        if (present("saddle-or-sphincter-change")) {
            raised.add("cauda-equina/saddle-or-sphincter");
        }
        if (present("both-legs-weak-or-numb")
                || (majorLegWeakness()
                        && chose("weakness-trend", "worse")
                        && (present("back-pain") || present("pain-radiates-down-leg")))) {
            raised.add("cauda-equina/both-legs-or-severe-and-worsening");
        }
        if (majorLegWeakness() || chose("weakness-trend", "worse")) {
            raised.add("progressive-radiculopathy/weak-or-worsening");
        }
        if (anyLegWeakness()) {
            raised.add("progressive-radiculopathy/mild-weakness");
        }
        if ((present("slr-positive") || present("crossed-slr") || present("slump-test")) && !notChildOrAdolescent()) {
            raised.add("progressive-radiculopathy/root-signs-in-the-young");
        }
        if (present("upper-motor-signs")) {
            raised.add("upper-motor-neurone-signs/any-sign");
        }
        if (present("back-pain") && (present("fever") || present("rigors-sweats") || measuredFever())) {
            raised.add("serious-spinal-cause/back-pain-with-fever");
        }
        if (present("back-pain")
                && (present("history-of-cancer")
                        || present("unexplained-weight-loss")
                        || (present("spine-midline-tender")
                                && (present("bone-health-risk") || present("acute-injury") || olderAdult())))) {
            raised.add("serious-spinal-cause/cancer-weight-loss-or-tender-bone");
        }
        if (present("lumbar-movement-reproduces-pain")) {
            raised.add("spine-source/back-movement");
        }
        if (present("slr-positive")
                || present("crossed-slr")
                || present("femoral-nerve-stretch")
                || (present("back-pain") && present("pain-radiates-down-leg"))) {
            raised.add("spine-source/root-test");
        }
        if (present("hip-ir-pain") || (present("hip-ir-limited") && present("groin-pain"))) {
            raised.add("hip-source/painful-or-stiff-hip");
        }
        if (present("hip-prosthesis") && (present("groin-pain") || present("thigh-pain") || present("hip-ir-pain"))) {
            raised.add("hip-source/painful-hip-metalwork");
        }
        if (present("safeguarding-concern")) {
            raised.add("safeguarding/any-concern");
        }
        if (manyMissedPeriods()
                || present("periods-not-started")
                || (present("low-energy-availability") && (present("prior-bsi") || present("focal-bony-tenderness")))) {
            raised.add("energy-deficiency/severe-or-with-bone-injury");
        }
        if (present("low-energy-availability")) {
            raised.add("energy-deficiency/any-sign");
        }
        if (present("pain-out-of-proportion")
                && crpsSymptomsMet()
                && crpsSignsMet()
                && absent("crps-better-explanation")) {
            raised.add("crps/criteria-met");
        }
        if (present("disproportionate-pain-colour-change")) {
            raised.add("crps/colour-or-temperature-change");
        }
        if (present("foot-ulcer-or-rest-pain")) {
            raised.add("arterial-insufficiency/rest-pain-or-ulcer");
        }
        if (indexAbnormal()
                || indexNotCompressible()
                || (present("pain-after-minutes-stops-within-minutes")
                        && (present("foot-pulses-reduced") || (arteryDiseaseAge() && arteryRiskFactor())))) {
            raised.add("arterial-insufficiency/index-or-cramp");
        }
        if (present("pain-after-minutes-stops-within-minutes")
                && (present("absent-pulses-plantarflexion")
                        || present("foot-cold-or-numb-on-exertion")
                        || present("foot-pulses-reduced")
                        || indexLowAfterExercise()
                        || indexLowWithCramp())) {
            raised.add("popliteal-artery-entrapment/cramp-with-foot-sign");
        }
        if (present("pain-after-minutes-stops-within-minutes") && present("leg-neuro-symptoms")) {
            raised.add("popliteal-artery-entrapment/cramp-with-nerve-symptoms");
        }
        if (present("pain-after-minutes-stops-within-minutes")
                && (chose("onset-type", "sudden-no-injury") || chose("onset-type", "during-one-run"))
                && present("pain-on-weight-bearing")) {
            raised.add("popliteal-artery-entrapment/sudden-and-walking");
        }
        if (present("pain-after-minutes-stops-within-minutes")) {
            raised.add("exertional-compartment/exertional-cramp");
        }
        if (fullTrialOfCare() && (chose("response-to-care", "no-change") || chose("response-to-care", "worse"))) {
            raised.add("failure-to-improve/no-change-after-a-full-trial");
        }
        if (earlyTrialOfCare() && chose("response-to-care", "worse") && chose("symptom-trend", "worse")) {
            raised.add("failure-to-improve/worse-with-care");
        }
        if (present("knee-exam-normal-with-pain") && longUnresolved()) {
            raised.add("failure-to-improve/normal-knee");
        }
        if (growingPainWeeks() && chose("symptom-trend", "worse") && absent("eases-with-rest")) {
            raised.add("failure-to-improve/worse-and-not-easing");
        }
        if (longUnresolved() && chose("symptom-trend", "worse")) {
            raised.add("failure-to-improve/still-worse-after-months");
        }
        if (present("acute-injury") && chose("symptom-trend", "worse") && chose("response-to-care", "worse")) {
            raised.add("failure-to-improve/injury-worse-despite-care");
        }
        if (feltAtGroin()) {
            raised.add("hip-source/groin-pain");
        }
        if (present("hip-ir-limited")) {
            raised.add("hip-source/limited-rotation");
        }
        if ((present("limp") || present("knee-exam-normal-with-pain")) && !notYoungPerson()) {
            raised.add("hip-source/limp-or-normal-knee-in-the-young");
        }
        if (present("fadir") || present("groin-pain-abduction-adduction")) {
            raised.add("hip-source/pinching-hip");
        }
        if (present("hop-test")
                || (impactAthlete() && (present("limp") || present("prior-bsi")))
                || ((present("gradual-onset-load-increase")
                                || present("prior-bsi")
                                || present("low-energy-availability"))
                        && (present("limp") || present("pain-on-weight-bearing")))) {
            raised.add("bone-stress-injury/hop-or-loading-pain");
        }
        if (present("foot-pulses-reduced")) {
            raised.add("arterial-insufficiency/weak-pulse");
        }
        if (present("tinel-fibular-neck")) {
            raised.add("fibular-nerve-palsy/irritable-nerve");
        }
    }
}
