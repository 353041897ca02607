package org.gerdy.cli.bench;

import java.util.List;
import org.gerdy.engine.casefile.Observations;

/** Red flag rows of illness, infection, lumps, clots and children. */
final class HandWrittenIllness extends HandWrittenTerms {
    HandWrittenIllness(Observations answers) {
        super(answers);
    }

    /** Adds the rows raised. */
    void addTo(List<String> raised) {
        if (clotScoreLikely()) {
            raised.add("deep-vein-thrombosis/clot-score-likely");
        }
        if (present("calf-swelling")
                || present("deep-vein-tenderness")
                || present("whole-leg-swollen")
                || present("pitting-oedema-one-leg")
                || present("collateral-veins")
                || calfLarger()) {
            raised.add("deep-vein-thrombosis/any-suspicion");
        }
        if (present("calf-swelling") && !notPregnantOrRecentBirth()) {
            raised.add("deep-vein-thrombosis/pregnant-or-recent-birth");
        }
        if (present("chest-symptoms")) {
            raised.add("pulmonary-embolism/chest-symptoms");
        }
        if ((present("warmth-palpable") || present("redness-joint"))
                && present("effusion-any")
                && shortHotHistory()
                && (injuryDoesNotExplainWarmth() || present("redness-joint") || present("severe-pain-all-motion"))) {
            raised.add("septic-joint/short-hot-swollen");
        }
        if ((present("effusion-any") || present("warmth-palpable") || present("severe-pain-all-motion"))
                && (present("fever") || present("rigors-sweats") || measuredFever() || present("looks-ill"))) {
            raised.add("septic-joint/fever-with-painful-joint");
        }
        if (present("warmth-palpable")
                && present("effusion-any")
                && (present("immunosuppressed")
                        || present("long-term-steroid")
                        || present("injecting-drug-use")
                        || present("skin-break-or-infection")
                        || recentJointInjection())) {
            raised.add("septic-joint/weak-defence-or-way-in");
        }
        if (present("effusion-any")
                && !present("acute-injury")
                && newSwelling()
                && (present("warmth-palpable") || present("tense-effusion"))) {
            raised.add("septic-joint/new-hot-or-tense-without-injury");
        }
        if (present("effusion-any") && (present("immunosuppressed") || present("long-term-steroid"))) {
            raised.add("septic-joint/swollen-and-immunosuppressed");
        }
        if (cellCountInfected()
                || (raisedCrp()
                        && present("effusion-any")
                        && (present("warmth-palpable") || absent("four-steps-now")))) {
            raised.add("septic-joint/laboratory-signs");
        }
        if ((present("warmth-palpable") || present("redness-joint"))
                && present("self-noticed-swelling")
                && injuryDoesNotExplainWarmth()) {
            raised.add("septic-joint/warm-and-newly-swollen");
        }
        if (present("knee-replacement")
                && (present("skin-break-or-infection")
                        || present("fever")
                        || present("rigors-sweats")
                        || present("looks-ill"))) {
            raised.add("prosthetic-joint/infected-skin-or-fever");
        }
        if (present("knee-replacement")
                && (present("warmth-palpable")
                        || present("redness-joint")
                        || present("effusion-any")
                        || present("restricted-movement"))) {
            raised.add("prosthetic-joint/hot-red-swollen-or-stiff");
        }
        if (present("knee-replacement")) {
            raised.add("prosthetic-joint/any-pain");
        }
        if (recentKneeProcedure() && (present("fever") || present("rigors-sweats") || present("looks-ill"))) {
            raised.add("recent-procedure/fever-or-ill");
        }
        if (recentKneeProcedure()
                && (present("skin-break-or-infection")
                        || present("redness-joint")
                        || present("calf-swelling")
                        || present("dorsiflexion-weakness")
                        || chose("symptom-trend", "worse")
                        || present("pain-out-of-proportion"))) {
            raised.add("recent-procedure/wound-calf-nerve-or-worse");
        }
        if (recentKneeProcedure()) {
            raised.add("recent-procedure/within-the-window");
        }
        if ((present("focal-bony-tenderness") || present("unexplained-bone-pain")) && present("systemic-symptoms")) {
            raised.add("osteomyelitis/bone-pain-with-illness");
        }
        if ((present("focal-bony-tenderness") || present("pain-rest-or-night"))
                && (present("skin-break-or-infection") || present("injecting-drug-use") || recentKneeProcedure())) {
            raised.add("osteomyelitis/bone-pain-after-a-way-in");
        }
        if ((present("bursal-swelling") && (present("warmth-palpable") || present("redness-joint")))
                || (present("redness-joint") && present("warmth-palpable"))
                || (present("skin-break-or-infection") && (present("warmth-palpable") || present("redness-joint")))) {
            raised.add("infected-skin-or-bursa/hot-or-red");
        }
        if (present("looks-ill")) {
            raised.add("systemic-illness/looks-ill");
        }
        if (present("fever") || present("rigors-sweats") || measuredFever()) {
            raised.add("systemic-illness/fever");
        }
        if (present("systemic-symptoms")) {
            raised.add("systemic-illness/systemic-symptoms");
        }
        if ((present("effusion-any") || present("warmth-palpable"))
                && absent("acute-injury")
                && (present("previous-joint-attack")
                        || present("attack-peak-within-day")
                        || present("gp-impression-gout"))) {
            raised.add("crystal-arthritis/hot-joint-like-gout");
        }
        if (present("previous-joint-attack") && absent("acute-injury")) {
            raised.add("crystal-arthritis/repeated-attacks");
        }
        if (present("polyarticular-symptoms")) {
            raised.add("inflammatory-arthritis/more-than-one-joint");
        }
        if ((present("effusion-any") || present("warmth-palpable"))
                && absent("acute-injury")
                && (longStandingSwelling()
                        || chose("morning-stiffness", "over-30-min")
                        || present("psoriasis-or-ibd")
                        || present("known-inflammatory-arthritis")
                        || present("infection-exposure")
                        || childOrAdolescent())) {
            raised.add("inflammatory-arthritis/one-swollen-joint");
        }
        if ((absent("four-steps-now")
                        && (absent("acute-injury")
                                || present("hip-ir-limited")
                                || present("hip-ir-pain")
                                || present("obligate-external-rotation")
                                || present("groin-pain")))
                && !notChildOrAdolescent()) {
            raised.add("child-hip/cannot-walk");
        }
        if ((present("hip-ir-limited")
                        || present("hip-ir-pain")
                        || present("obligate-external-rotation")
                        || present("hip-abduction-limited")
                        || present("leg-turned-out")
                        || present("limp"))
                && !notSlipAge()) {
            raised.add("child-hip/hip-sign-in-slip-age");
        }
        if ((present("hip-ir-limited") || present("hip-ir-pain") || present("hip-abduction-limited") || present("limp"))
                && !notYoungerThanSlipAge()) {
            raised.add("child-hip/hip-sign-in-younger-child");
        }
        if ((((present("hip-ir-limited") || present("hip-ir-pain") || present("obligate-external-rotation"))
                                && (present("limp") || present("pain-on-weight-bearing") || absent("four-steps-now")))
                        || (present("leg-turned-out") && (present("limp") || present("pain-on-weight-bearing"))))
                && !notSlipAge()) {
            raised.add("child-hip/slip-age-with-painful-walking");
        }
        if (((present("fever") || present("rigors-sweats") || measuredFever())
                        && (absent("four-steps-now")
                                || present("effusion-any")
                                || present("warmth-palpable")
                                || present("severe-pain-all-motion")
                                || present("limp")))
                && !notChildOrAdolescent()) {
            raised.add("child-unwell-or-limping/fever-with-a-bad-limb");
        }
        if ((present("systemic-symptoms")
                        || present("looks-ill")
                        || absent("four-steps-now")
                        || present("severe-pain-all-motion")
                        || (present("limp")
                                && (present("pain-rest-or-night")
                                        || childLimpWeeks()
                                        || present("mass-palpable")
                                        || toddler())))
                && !notChildOrAdolescent()) {
            raised.add("child-unwell-or-limping/unwell-or-limping");
        }
        if ((present("focal-bony-tenderness")
                        || present("pain-rest-or-night")
                        || present("mass-palpable")
                        || present("unexplained-bone-pain")
                        || (present("effusion-any") && !present("acute-injury")))
                && !notYoungPerson()) {
            raised.add("bone-tumour/young-person");
        }
        if ((present("self-noticed-swelling") && !present("acute-injury")) && !notYoungPerson()) {
            raised.add("bone-tumour/young-swelling-without-injury");
        }
        if (present("pain-rest-or-night")
                || (present("unexplained-bone-pain") && bonePainWeeks())
                || (present("focal-bony-tenderness") && bonePainWeeks())) {
            raised.add("bone-tumour/adult");
        }
        if (present("history-of-cancer")
                && (present("active-cancer")
                        || present("focal-bony-tenderness")
                        || present("pain-rest-or-night")
                        || present("unexplained-bone-pain")
                        || present("systemic-symptoms")
                        || present("pain-on-weight-bearing")
                        || (cancerHistoryWeeks()
                                && (chose("symptom-trend", "worse")
                                        || chose("response-to-care", "no-change")
                                        || chose("response-to-care", "worse"))))) {
            raised.add("bone-tumour/cancer-with-bone-features");
        }
        if (present("history-of-cancer")) {
            raised.add("bone-tumour/past-cancer");
        }
        if (chose("knee-film-report", "suspicious-bone-lesion")) {
            raised.add("bone-tumour/suspicious-film");
        }
        if (present("mass-palpable")) {
            raised.add("soft-tissue-mass/any-lump");
        }
        if (present("mass-palpable") && (present("lump-growing") || largeLump())) {
            raised.add("soft-tissue-mass/large-or-growing");
        }
        if (present("popliteal-swelling") && !notChildOrAdolescent()) {
            raised.add("soft-tissue-mass/popliteal-swelling-in-a-child");
        }
        if (present("lump-pulsatile")) {
            raised.add("popliteal-aneurysm/pulsating-swelling");
        }
        if (feltAtCalf() && atRiskOfAClot()) {
            raised.add("deep-vein-thrombosis/calf-pain-with-a-risk");
        }
        if (present("calf-squeeze-posterior-pain") && atRiskOfAClot()) {
            raised.add("deep-vein-thrombosis/tender-calf-with-a-risk");
        }
        if (cellCountInDoubt()) {
            raised.add("septic-joint/cell-count-in-doubt");
        }
        if (raisedCrp() && present("effusion-any")) {
            raised.add("septic-joint/raised-marker-with-fluid");
        }
        if (present("immunosuppressed")) {
            raised.add("septic-joint/weak-immunity");
        }
        if (present("severe-pain-all-motion")) {
            raised.add("septic-joint/knee-that-cannot-be-moved");
        }
        if (present("effusion-any") && shortHotHistory() && injuryDoesNotExplainWarmth()) {
            raised.add("unexplained-swelling/new-fluid-without-injury");
        }
        if (present("warmth-palpable") || present("redness-joint")) {
            raised.add("unexplained-swelling/warm-or-red");
        }
        if (inflamedJointFluid()) {
            raised.add("inflammatory-arthritis/inflamed-fluid");
        }
        if (present("effusion-any")) {
            raised.add("unexplained-swelling/any-fluid");
        }
        if (present("self-noticed-swelling") && present("restricted-movement")) {
            raised.add("unexplained-swelling/seen-swelling-with-lost-movement");
        }
        if (present("skin-break-or-infection")) {
            raised.add("infected-skin-or-bursa/broken-skin");
        }
        if ((present("knee-exam-normal-with-pain") || feltAtGroinOrThigh()) && !notChildOrAdolescent()) {
            raised.add("child-hip/thigh-pain-or-normal-knee");
        }
        if (present("unexplained-bone-pain")) {
            raised.add("bone-tumour/bone-ache-at-any-time");
        }
        if (present("thigh-wasting") && chose("painkiller-use", "every-day")) {
            raised.add("bone-tumour/thin-thigh-with-daily-tablets");
        }
        if (present("popliteal-swelling")) {
            raised.add("soft-tissue-mass/popliteal-swelling");
        }
    }

    private boolean atRiskOfAClot() {
        return present("long-immobile-journey")
                || present("bedridden-3-days")
                || present("recent-surgery-dvt")
                || present("leg-paralysis-or-cast")
                || present("active-cancer")
                || present("previous-dvt")
                || pregnantOrRecentBirth()
                || present("oestrogen-use");
    }
}
