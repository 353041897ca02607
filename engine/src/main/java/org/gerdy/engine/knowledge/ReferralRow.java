package org.gerdy.engine.knowledge;

import java.util.List;
import org.gerdy.engine.vocabulary.Basis;
import org.gerdy.engine.vocabulary.Urgency;

/** A threshold for sharing or referring, as data; what meets it is a rule. {@code {condition}} in the text is filled in. */
public record ReferralRow(
        String id, String label, Urgency urgency, String within, String action, List<String> sources, Basis basis) {}
