package org.gerdy.engine.knowledge;

import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.vocabulary.Catalogue;
import org.gerdy.engine.vocabulary.Kind;

/** Holds the words of a table against the catalogue. A fault throws {@link KnowledgeException} naming the row. */
public final class KnownWords {
    private KnownWords() {}

    /** Every finding of an expression must be known, and able to have the answer it is held against. */
    static void known(Catalogue catalogue, Expression expression, Table.Row row) {
        expression.findings().forEach(id -> known(catalogue, id, row));
        expression.atoms(atom -> {
            if (atom instanceof Expression.Is is) {
                knownValue(catalogue, is, row);
            }
        });
    }

    private static void knownValue(Catalogue catalogue, Expression.Is is, Table.Row row) {
        boolean legal = catalogue
                .finding(is.finding())
                .map(finding -> finding.kind() == Kind.CHOICE
                        ? finding.choices().contains(is.value())
                        : finding.kind() == Kind.YES_NO && isState(is.value()))
                .orElseGet(() -> isState(is.value()));
        if (!legal) {
            throw row.wrong("'" + is + "' is not an answer " + is.finding() + " can have.");
        }
    }

    private static boolean isState(String value) {
        return value.equals("present") || value.equals("absent");
    }

    /** The finding must be known. */
    public static void known(Catalogue catalogue, String id, Table.Row row) {
        if (!catalogue.knows(id)) {
            throw row.wrong(noFinding(catalogue, id));
        }
    }

    /** Says that there is no such finding, and which one is nearest. */
    public static String noFinding(Catalogue catalogue, String id) {
        return "there is no finding '" + id + "'"
                + catalogue
                        .nearest(id)
                        .map(nearest -> "; did you mean '" + nearest + "'?")
                        .orElse(".");
    }
}
