package org.gerdy.rules;

import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.Observations;
import org.gerdy.engine.knowledge.ScoreDefinition;
import org.gerdy.engine.logic.Points;

/** Totals of the published scores, whether or not they are shown. */
final class Totals {
    private Totals() {}

    static Points.Total of(String score, Patient patient) {
        CaseFile file = patient.file();
        Observations known = Observations.of(Shipped.GERDY.knowledge().terms(), file, file.latest());
        return definition(score).points().total(known);
    }

    /** The band both ends fall in, or {@code no-band}. */
    static String band(String score, Patient patient) {
        Points.Total total = of(score, patient);
        return definition(score).bands().stream()
                .filter(band -> band.holds(total.low()) && band.holds(total.high()))
                .map(ScoreDefinition.Band::name)
                .findFirst()
                .orElse("no-band");
    }

    private static ScoreDefinition definition(String score) {
        return Shipped.GERDY.knowledge().scores().stream()
                .filter(one -> one.id().equals(score))
                .findFirst()
                .orElseThrow();
    }

    static Points.Total exactly(double total) {
        return new Points.Total(total, total);
    }
}
