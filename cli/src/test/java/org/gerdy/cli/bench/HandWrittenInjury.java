package org.gerdy.cli.bench;

import java.util.List;
import org.gerdy.engine.casefile.Observations;

/** Red flag rows after an injury, and of bone, ligament, vessel and tendon. */
final class HandWrittenInjury extends HandWrittenTerms {
    HandWrittenInjury(Observations answers) {
        super(answers);
    }

    /** Adds the rows raised. */
    void addTo(List<String> raised) {
        if (absent("four-steps-now")) {
            raised.add("cannot-bear-weight/cannot-take-four-steps");
        }
        if (((filmRuleAge() && present("acute-injury"))
                        || present("tender-fibular-head")
                        || flexionShortOfFilmRule()
                        || (absent("four-steps-at-injury") && absent("four-steps-now"))
                        || (present("tender-patella")
                                && absent("tender-fibular-head")
                                && (absent("focal-bony-tenderness") || chose("bony-tenderness-site", "patella"))))
                && !notFilmRulePopulation()) {
            raised.add("possible-fracture/five-item-rule");
        }
        if (absent("four-steps-now") && !notPresent("acute-injury")) {
            raised.add("possible-fracture/cannot-walk-now");
        }
        if (present("focal-bony-tenderness") && !notInjuryInFilmWindow()) {
            raised.add("possible-fracture/other-tender-bone");
        }
        if (((present("acute-injury") && (fallRuleYoung() || fallRuleOld())) || absent("four-steps-now"))
                && !notFallRulePopulation()) {
            raised.add("possible-fracture/fall-or-blow-rule");
        }
        if ((present("fracture-rule-excluded")
                        && (present("effusion-any")
                                || present("limp")
                                || present("bruising-lateral")
                                || present("fall-or-blunt-trauma")
                                || present("high-energy-injury")))
                && !notInjuryInFilmWindow()) {
            raised.add("possible-fracture/outside-the-rules-with-a-sign");
        }
        if (present("fracture-rule-excluded") && !notInjuryInFilmWindow()) {
            raised.add("possible-fracture/outside-the-rules");
        }
        if ((present("limp") || present("effusion-any") || present("focal-bony-tenderness") || absent("four-steps-now"))
                && !notRecentInjurySmallChild()) {
            raised.add("possible-fracture/small-child");
        }
        if ((present("focal-bony-tenderness") || present("tender-fibular-head") || flexionShortOfFilmRule())
                && !notLateAfterInjury()) {
            raised.add("possible-fracture/bone-signs-late-after-injury");
        }
        if (present("tense-effusion") && !notRecentLegInjury()) {
            raised.add("possible-fracture/tense-effusion");
        }
        if (chose("knee-film-report", "fracture")
                || chose("knee-film-report", "fat-fluid-level")
                || chose("knee-film-report", "fibular-styloid-flake")) {
            raised.add("fracture-on-film/fracture-fat-or-fibular-flake");
        }
        if (chose("knee-film-report", "lateral-tibial-flake")) {
            raised.add("fracture-on-film/lateral-tibial-flake");
        }
        if ((((present("focal-bony-tenderness") || present("pain-on-weight-bearing"))
                                && (present("fall-standing-height") || chose("onset-type", "sudden-no-injury")))
                        || (present("focal-bony-tenderness") && present("bone-health-risk")))
                && !notWeakBonePopulation()) {
            raised.add("fragility-fracture/weak-bone-and-bone-pain");
        }
        if ((chose("onset-type", "sudden-no-injury")
                        && (present("pain-on-weight-bearing") || present("pain-rest-or-night")))
                && !notInsufficiencyPopulation()) {
            raised.add("subchondral-insufficiency/sudden-loading-pain");
        }
        if (present("antiresorptive-drug")
                && (present("groin-pain")
                        || present("thigh-pain")
                        || chose("pain-site", "lateral-thigh")
                        || chose("pain-site", "medial-thigh"))) {
            raised.add("atypical-femoral-fracture/thigh-pain-on-bone-drug");
        }
        if ((absent("active-straight-leg-raise")
                        || present("hip-ir-pain")
                        || present("percussion-dull")
                        || (present("groin-pain") && absent("four-steps-now")))
                && !notHipFracturePopulation()) {
            raised.add("hip-fracture/signs-after-a-fall");
        }
        if ((present("deformity")
                        || count(
                                        present("lachman"),
                                        present("posterior-drawer"),
                                        present("varus-laxity-30"),
                                        present("valgus-laxity-30"))
                                >= 2
                        || present("foot-pulses-reduced")
                        || present("foot-cold-pale")
                        || indexLowAfterInjury()
                        || present("bleeding-or-haematoma")
                        || (present("dorsiflexion-weakness") && present("acute-injury"))
                        || ((present("hyperextension-injury") || present("high-energy-injury"))
                                && (present("tense-effusion")
                                        || absent("four-steps-now")
                                        || count(
                                                        present("lachman"),
                                                        present("posterior-drawer"),
                                                        present("varus-laxity-30"),
                                                        present("valgus-laxity-30"))
                                                >= 1))
                        || (outerLaxitySign() && (present("eversion-weakness") || present("sensory-loss-lateral-leg"))))
                && !notInjuryInDislocationWindow()) {
            raised.add("knee-dislocation/fresh-injury");
        }
        if ((present("deformity")
                        || count(
                                        present("lachman"),
                                        present("posterior-drawer"),
                                        present("varus-laxity-30"),
                                        present("valgus-laxity-30"))
                                >= 2
                        || present("foot-pulses-reduced")
                        || present("dorsiflexion-weakness")
                        || indexLowAfterInjury()
                        || (outerLaxitySign() && (present("eversion-weakness") || present("sensory-loss-lateral-leg"))))
                && !notInjuryPastDislocationWindow()) {
            raised.add("knee-dislocation/weeks-after-injury");
        }
        if (present("foot-cold-pale") || (present("foot-pulses-reduced") && present("pain-out-of-proportion"))) {
            raised.add("acute-limb-ischaemia/cold-foot-or-lost-pulse");
        }
        if (present("pain-out-of-proportion") && present("passive-stretch-pain")) {
            raised.add("acute-compartment-syndrome/stretch-pain");
        }
        if (present("pain-out-of-proportion")
                && (present("acute-injury")
                        || present("unaccustomed-exertion")
                        || present("tight-cast-or-bandage")
                        || veryRecentProcedure())
                && (present("compartment-tense")
                        || present("leg-neuro-symptoms")
                        || present("eversion-weakness")
                        || present("dorsiflexion-weakness")
                        || severePainScore())) {
            raised.add("acute-compartment-syndrome/cause-and-second-sign");
        }
        if (present("pain-out-of-proportion") && (injuryInCompartmentWindow() || present("unaccustomed-exertion"))) {
            raised.add("acute-compartment-syndrome/pain-after-effort-or-injury");
        }
        if (present("pain-out-of-proportion")) {
            raised.add("acute-compartment-syndrome/pain-alone");
        }
        if (absent("active-straight-leg-raise") || present("extensor-tendon-gap")) {
            raised.add("extensor-mechanism/lost-leg-raise-or-gap");
        }
        if (present("fluoroquinolone-60-days")
                && (present("resisted-quadriceps-pain") || present("tender-biceps-tendon"))) {
            raised.add("extensor-mechanism/tendon-pain-after-fluoroquinolone");
        }
        if (present("extension-block")
                && (present("tense-effusion")
                        || chose("swelling-onset", "within-2-hours")
                        || chose("swelling-onset", "within-2-to-6-hours")
                        || childOrAdolescent()
                        || present("severe-pain-all-motion"))) {
            raised.add("locked-knee/block-with-bleed-or-in-a-child");
        }
        if (present("extension-block") && (present("acute-injury") || present("locking"))) {
            raised.add("locked-knee/block-after-injury-or-locking");
        }
        if (present("extension-block")) {
            raised.add("locked-knee/block-alone");
        }
        if (present("locking") && !notChildOrAdolescent()) {
            raised.add("locked-knee/locking-in-a-child");
        }
        if ((chose("swelling-onset", "within-2-hours")
                        || chose("swelling-onset", "within-2-to-6-hours")
                        || (chose("swelling-onset", "unknown") && present("effusion-any")))
                && !notRecentLegInjury()) {
            raised.add("rapid-haemarthrosis/swelling-within-hours");
        }
        if ((bleedLikeSwelling()
                        && (absent("four-steps-now")
                                || present("extension-block")
                                || present("anticoagulant")
                                || childOrAdolescent()))
                && !notRecentLegInjury()) {
            raised.add("rapid-haemarthrosis/bleed-that-cannot-wait");
        }
        if (present("effusion-any") && present("anticoagulant")) {
            raised.add("rapid-haemarthrosis/swollen-on-a-blood-thinner");
        }
        if ((present("lachman")
                        || present("anterior-drawer")
                        || present("pivot-shift")
                        || present("lever-sign")
                        || present("posterior-drawer")
                        || count(present("effusion-any"), present("pop-at-injury"), present("giving-way-at-injury"))
                                >= 2)
                && !notRecentLegInjury()) {
            raised.add("ligament-rupture/fresh-instability");
        }
        if ((present("lachman")
                        || present("anterior-drawer")
                        || present("pivot-shift")
                        || present("posterior-drawer")
                        || present("giving-way"))
                && !notOldInjury()) {
            raised.add("ligament-rupture/old-injury-unstable");
        }
        if ((present("varus-laxity-30")
                        || present("varus-laxity-0")
                        || present("dial-test-30")
                        || present("dial-test-90")
                        || present("external-rotation-recurvatum")
                        || present("posterolateral-drawer")
                        || present("varus-thrust"))
                && !notRecentLegInjury()) {
            raised.add("posterolateral-corner/outer-laxity-after-injury");
        }
        if ((present("dial-test-30") || present("dial-test-90")) && !notRecentLegInjury()) {
            raised.add("posterolateral-corner/rotation-test-after-injury");
        }
        if (cornerMechanism()
                && (chose("pain-site", "lateral-joint-line")
                        || chose("pain-site", "fibular-head")
                        || chose("pain-site", "posterolateral")
                        || chose("pain-site", "lateral-not-localised")
                        || present("giving-way-at-injury")
                        || present("giving-way"))
                && !notRecentLegInjury()) {
            raised.add("posterolateral-corner/mechanism-with-outer-pain-or-giving-way");
        }
        if (outerLaxitySign() && !notOldInjury()) {
            raised.add("posterolateral-corner/old-outer-laxity");
        }
        if (outerLaxitySign() && !notAbsent("acute-injury")) {
            raised.add("posterolateral-corner/outer-laxity-without-injury");
        }
        if ((outerLaxitySign() && (present("giving-way") || present("limp"))) && !notNoRecentInjury()) {
            raised.add("posterolateral-corner/outer-laxity-disturbing-walking");
        }
        if (present("patella-slipped-out") && !notRecentLegInjury()) {
            raised.add("patellar-dislocation/slipped-out-after-injury");
        }
        if (present("patella-slipped-out")) {
            raised.add("patellar-dislocation/slipped-out-at-any-time");
        }
        if (present("fibular-head-prominent") && !notRecentLegInjury()) {
            raised.add("tibiofibular-dislocation/prominent-fibular-head");
        }
        if ((impactAthlete()
                        || present("gradual-onset-load-increase")
                        || present("prior-bsi")
                        || present("low-energy-availability"))
                && (present("groin-pain") || present("thigh-pain"))
                && (present("hip-ir-pain")
                        || present("hip-ir-limited")
                        || present("fadir")
                        || present("hop-test")
                        || present("pain-on-weight-bearing")
                        || present("pain-rest-or-night")
                        || present("limp"))) {
            raised.add("high-risk-bone-stress/hip-sign-in-an-impact-athlete");
        }
        if ((impactAthlete()
                        || present("gradual-onset-load-increase")
                        || present("prior-bsi")
                        || present("low-energy-availability"))
                && (present("groin-pain") || present("hip-ir-pain"))) {
            raised.add("high-risk-bone-stress/groin-or-rotation-pain");
        }
        if (present("knee-exam-normal-with-pain")
                && (present("gradual-onset-load-increase")
                        || present("prior-bsi")
                        || present("low-energy-availability")
                        || present("pain-on-weight-bearing"))) {
            raised.add("high-risk-bone-stress/normal-knee-with-bone-risk");
        }
        if (chose("bony-tenderness-site", "anterior-tibial-cortex")
                || chose("bony-tenderness-site", "patella")
                || chose("bony-tenderness-site", "distal-femur-shaft")
                || present("fulcrum-test")) {
            raised.add("high-risk-bone-stress/site-that-heals-badly");
        }
        if (present("focal-bony-tenderness")) {
            raised.add("bone-stress-injury/tender-bone");
        }
        if (count(present("prior-bsi"), present("pes-cavus"), present("gradual-onset-load-increase")) >= 2
                && (present("pain-on-weight-bearing")
                        || present("pain-rest-or-night")
                        || present("hop-test")
                        || present("tuning-fork")
                        || present("fulcrum-test")
                        || present("low-energy-availability"))) {
            raised.add("bone-stress-injury/history-and-bone-pain");
        }
        if (count(present("prior-bsi"), present("pes-cavus"), present("gradual-onset-load-increase")) >= 2) {
            raised.add("bone-stress-injury/weighted-rule-met");
        }
        if (present("giving-way") && !notRecentLegInjury()) {
            raised.add("ligament-rupture/giving-way-after-injury");
        }
        if (present("high-energy-injury") && !notRecentLegInjury()) {
            raised.add("ligament-rupture/high-energy-injury");
        }
        if (present("lachman")
                || present("anterior-drawer")
                || present("pivot-shift")
                || present("lever-sign")
                || present("posterior-drawer")
                || present("valgus-laxity-30")) {
            raised.add("ligament-rupture/laxity-at-any-time");
        }
        if (present("locking")) {
            raised.add("locked-knee/locking-at-any-age");
        }
        if (present("compartment-tense") || present("passive-stretch-pain")) {
            raised.add("acute-compartment-syndrome/tense-or-stretch-pain-alone");
        }
        if (present("bony-tenderness-condyle")
                || (insufficiencyPopulation() && chose("onset-type", "sudden-no-injury"))) {
            raised.add("subchondral-insufficiency/sudden-onset-or-tender-condyle");
        }
        if (cornerMechanism()) {
            raised.add("posterolateral-corner/mechanism");
        }
        if (weakBonePopulation()
                && (present("effusion-any") || present("pain-on-weight-bearing") || present("limp"))
                && !notRecentLegInjury()) {
            raised.add("fragility-fracture/injury-to-weak-bone");
        }
        if ((present("pain-on-weight-bearing") || present("limp")) && !notLateAfterInjury()) {
            raised.add("possible-fracture/walking-pain-late-after-injury");
        }
        if ((present("external-force-to-leg") || present("fall-or-blunt-trauma"))
                && present("pain-on-weight-bearing")) {
            raised.add("possible-fracture/blow-and-pain-on-standing");
        }
        if (present("effusion-any") && !notRecentLegInjury()) {
            raised.add("unexplained-swelling/fluid-after-injury");
        }
        if (childOrAdolescent() && (present("pain-on-weight-bearing") || present("limp")) && !notRecentLegInjury()) {
            raised.add("possible-fracture/child-with-walking-pain");
        }
    }
}
