package org.gerdy.engine.casefile;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** The directory a case lies in and the run files beside it. Nothing outside the directory is ever opened. */
final class CaseFolder {
    /** The largest run file read, in bytes. Ten hours at a point a second with all a watch records stay below it. */
    private static final long LARGEST = 64L * 1024 * 1024;

    private final Optional<Path> directory;
    private final Optional<RunFileReader> reader;

    private CaseFolder(Optional<Path> directory, Optional<RunFileReader> reader) {
        this.directory = directory;
        this.reader = reader;
    }

    /** The directory of this case file. */
    static CaseFolder of(Path caseFile, Optional<RunFileReader> reader) {
        Path parent = caseFile.getParent();
        return new CaseFolder(Optional.of(parent == null ? Path.of("") : parent), reader);
    }

    /** No directory: the case came from a stream. */
    static CaseFolder none() {
        return new CaseFolder(Optional.empty(), Optional.empty());
    }

    /**
     * What the named file holds. Throws {@link IllegalArgumentException} with a sentence when the name will not do, and
     * {@link MendableException} with the faults of the file itself.
     */
    RunLog open(String name, ZoneId zone) throws MendableException {
        if (directory.isEmpty() || reader.isEmpty()) {
            throw new IllegalArgumentException(
                    "'" + name
                            + "' cannot be looked for: run files lie beside a case file, and this case did not come from one; write its runs under 'sessions'.");
        }
        Path file = inside(directory.get(), name);
        try {
            return reader.get().read(file, zone);
        } catch (MendableException e) {
            List<Problem> told = new ArrayList<>();
            for (Problem problem : e.problems()) {
                told.add(new Problem(file.toString(), problem.line(), problem.column(), problem.message()));
            }
            throw new MendableException(told);
        }
    }

    private static Path inside(Path directory, String name) {
        Path asked = path(name);
        boolean climbs = false;
        for (Path part : asked) {
            climbs |= part.toString().equals("..");
        }
        if (climbs || asked.isAbsolute() || name.startsWith("/") || name.contains("\\") || name.contains(":")) {
            throw new IllegalArgumentException(
                    "'" + name + "' leads out of the directory of the case; put the file there and give its name.");
        }
        Path file = directory.resolve(asked);
        try {
            if (!Files.exists(file)) {
                throw new IllegalArgumentException("There is no file '" + file + "'; check its name.");
            }
            if (!file.toRealPath().startsWith(directory.toRealPath())) {
                throw new IllegalArgumentException(
                        "'" + name + "' is a link out of the directory of the case; put the file itself there.");
            }
            if (!Files.isRegularFile(file)) {
                throw new IllegalArgumentException("'" + file + "' is not a file; name a diary, GPX or TCX file.");
            }
            if (Files.size(file) > LARGEST) {
                throw new IllegalArgumentException("'" + file + "' is larger than " + LARGEST / (1024 * 1024)
                        + " MB, the most a case may name; split it or write its runs under 'sessions'.");
            }
        } catch (IOException e) {
            throw new IllegalArgumentException("'" + file + "' could not be read: " + e.getMessage() + ".", e);
        }
        return file;
    }

    private static Path path(String name) {
        try {
            if (!name.isBlank()) {
                return Path.of(name);
            }
        } catch (InvalidPathException e) {
            throw new IllegalArgumentException("'" + name.replace("\0", "?") + "' is not the name of a file.", e);
        }
        throw new IllegalArgumentException("The name of the file is blank; give one or leave it out.");
    }
}
