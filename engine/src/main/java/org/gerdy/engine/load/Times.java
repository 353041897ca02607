package org.gerdy.engine.load;

import java.time.DateTimeException;
import java.time.Instant;
import java.time.OffsetDateTime;

/** Times of run files: ISO 8601 with an offset, so that no zone has to be guessed. */
final class Times {
    private Times() {}

    static Instant instant(XmlEvents xml, String text) throws org.gerdy.engine.casefile.MendableException {
        try {
            return OffsetDateTime.parse(text).toInstant();
        } catch (DateTimeException e) {
            throw xml.at(
                    "'" + text
                            + "' is not a time with its offset, such as 2026-03-02T06:30:00Z; without the offset its day is unknown.");
        }
    }
}
