package org.gerdy.engine.fact;

import org.drools.model.Drools;
import org.kie.api.runtime.rule.RuleContext;

/** The rule a consequence belongs to. */
final class Rules {
    private Rules() {}

    /** The {@code @id} of the rule that is firing. */
    static String idOf(Drools drools) {
        RuleContext context = (RuleContext) drools;
        Object id = context.getRule().getMetaData().get("id");
        if (id == null) {
            throw new IllegalStateException("The rule \"" + context.getRule().getName() + "\" has no @id.");
        }
        // The compiled model keeps the quotation marks of the annotation.
        return id.toString().replace("\"", "");
    }
}
