package org.gerdy.cli.bench;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.gerdy.engine.Gerdy;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.MendableException;

/** The case files of the repository. */
final class CaseFiles {
    private CaseFiles() {}

    /** The repository's directory: named by the build, or the working directory. */
    static Path root() {
        return Path.of(System.getProperty("gerdy.root", ".")).toAbsolutePath().normalize();
    }

    /** Every case file, in order of path. */
    static List<CaseFile> all(Gerdy gerdy) {
        try (Stream<Path> files = Files.walk(root().resolve("cases"))) {
            List<CaseFile> cases = new ArrayList<>();
            for (Path file : files.filter(path -> path.toString().endsWith(".yaml"))
                    .sorted()
                    .toList()) {
                cases.add(gerdy.read(file));
            }
            return cases;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } catch (MendableException e) {
            throw new IllegalStateException(e.getMessage(), e);
        }
    }
}
