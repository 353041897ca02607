package org.gerdy.cli;

import java.io.InputStream;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.Optional;
import org.gerdy.engine.Gerdy;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.casefile.Visit;

/** Reads the case a command names; a hyphen is standard input. */
public final class Cases {
    /** The name of standard input on the command line and in messages. */
    static final String STANDARD_INPUT = "-";

    private Cases() {}

    static CaseFile read(Gerdy gerdy, String name) throws MendableException {
        return name.equals(STANDARD_INPUT) ? gerdy.read("standard input", standardInput()) : gerdy.read(path(name));
    }

    /** The path this text names. Throws {@link MendableException} when it names none. */
    public static Path path(String name) throws MendableException {
        try {
            return Path.of(name);
        } catch (java.nio.file.InvalidPathException e) {
            throw new MendableException(name.replace("\0", "?"), "This is not a path; check it.");
        }
    }

    static InputStream standardInput() {
        return System.in;
    }

    /** The visit of this day, or the latest. */
    static Visit visit(CaseFile caseFile, String name, Optional<LocalDate> date) throws MendableException {
        if (date.isEmpty()) {
            return caseFile.latest();
        }
        return caseFile.on(date.get())
                .orElseThrow(() -> new MendableException(
                        name,
                        "There is no visit on " + date.get() + "; this case has "
                                + String.join(
                                        ", ",
                                        caseFile.visits().stream()
                                                .map(visit -> visit.date().toString())
                                                .toList())
                                + "."));
    }
}
