package org.gerdy.engine.assessment;

import java.util.List;
import org.gerdy.engine.vocabulary.Urgency;

/** A threshold for sharing or referring that is met. It stands beside the urgency and never lowers it. */
public record ReferralResult(
        String id, String label, String about, Urgency urgency, String within, String action, List<Reason> reasons) {}
