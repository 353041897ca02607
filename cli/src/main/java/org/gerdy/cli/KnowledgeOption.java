package org.gerdy.cli;

import java.nio.file.Files;
import java.nio.file.Path;
import org.gerdy.engine.Gerdy;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.knowledge.KnowledgeFiles;
import org.gerdy.engine.knowledge.RuleCompiler;
import org.gerdy.rules.LateralKnee;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;

/** Which knowledge base a command runs: the shipped one, or an edited copy. */
public final class KnowledgeOption {
    @Option(
            names = "--rules",
            paramLabel = "DIR",
            description = "Run an edited copy of the knowledge base instead of the shipped one.")
    private @Nullable Path rules;

    /** The engine over the chosen knowledge base. */
    public Gerdy gerdy() throws MendableException {
        Path directory = rules;
        if (directory == null) {
            return LateralKnee.gerdy();
        }
        if (!Files.isDirectory(directory)) {
            throw new MendableException(
                    directory.toString(), "There is no such directory; name one that holds knowledge/ and the rules.");
        }
        return new Gerdy(RuleCompiler.load(directory, cache()));
    }

    /** The files of the chosen knowledge base. */
    public KnowledgeFiles files() {
        Path directory = rules;
        return directory == null ? LateralKnee.files() : KnowledgeFiles.in(directory);
    }

    private static Path cache() {
        String base = System.getenv("XDG_CACHE_HOME");
        Path home = base == null || base.isBlank() ? Path.of(System.getProperty("user.home"), ".cache") : Path.of(base);
        return home.resolve("gerdy");
    }
}
