package org.gerdy.engine.vocabulary;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

/** A question with nothing to it but yes and no, for tests that need any question. */
public final class YesNo {
    private YesNo() {}

    /** The question whether there is such a thing; its presence is the danger. */
    public static FindingDefinition question(String id) {
        return new FindingDefinition(
                id,
                "section",
                "",
                "Is there " + id + "?",
                "",
                Kind.YES_NO,
                List.of(),
                "",
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                false,
                Optional.empty(),
                false,
                5,
                "",
                "present",
                "",
                List.of(),
                List.of(),
                "");
    }
}
