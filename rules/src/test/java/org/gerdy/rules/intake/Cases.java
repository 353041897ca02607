package org.gerdy.rules.intake;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.gerdy.engine.Gerdy;
import org.gerdy.rules.LateralKnee;

/** The case files of the repository. */
final class Cases {
    static final Gerdy GERDY = LateralKnee.gerdy();

    private Cases() {}

    /** The files of these directories under {@code cases} that are there, in order. */
    static List<Path> in(String... directories) throws IOException {
        List<Path> all = new ArrayList<>();
        for (String name : directories) {
            Path directory = Path.of(System.getProperty("gerdy.root"), "cases", name);
            if (Files.isDirectory(directory)) {
                try (Stream<Path> files = Files.list(directory)) {
                    all.addAll(files.filter(path -> path.toString().endsWith(".yaml"))
                            .sorted()
                            .toList());
                }
            }
        }
        if (all.isEmpty()) {
            throw new IOException("There are no cases in " + String.join(", ", directories) + ".");
        }
        return all;
    }
}
