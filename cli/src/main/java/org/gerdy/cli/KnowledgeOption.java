package org.gerdy.cli;

import java.nio.file.Path;
import java.util.function.Supplier;
import org.gerdy.engine.Gerdy;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.knowledge.KnowledgeArchive;
import org.gerdy.engine.knowledge.KnowledgeException;
import org.gerdy.engine.knowledge.KnowledgeFiles;
import org.gerdy.engine.knowledge.RuleCompiler;
import org.gerdy.rules.LateralKnee;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;

/** Which knowledge base a command runs: the shipped one, or an edited copy. */
public final class KnowledgeOption {
    static final String RULES = "--rules";

    @Option(
            names = RULES,
            paramLabel = "PLACE",
            description = "Run an edited copy of the knowledge base instead of the shipped one: a directory, a zip or"
                    + " jar, or git:REVISION.")
    private @Nullable String rules;

    private Supplier<Gerdy> shipped = LateralKnee::gerdy;

    /** Takes the shipped engine from here; its rules are under way already. */
    void underWay(Supplier<Gerdy> engine) {
        shipped = engine;
    }

    /** The engine over the chosen knowledge base. */
    public Gerdy gerdy() throws MendableException {
        String place = rules;
        return place == null ? shipped.get() : gerdy(files(place));
    }

    /** The files of the chosen knowledge base. */
    public KnowledgeFiles files() throws MendableException {
        String place = rules;
        return place == null ? LateralKnee.files() : files(place);
    }

    /** The engine over these files, compiled once for each content. */
    static Gerdy gerdy(KnowledgeFiles files) {
        return new Gerdy(RuleCompiler.load(files, cache()));
    }

    /** The files of the knowledge base at this place. */
    static KnowledgeFiles files(String place) throws MendableException {
        try {
            return KnowledgeArchive.at(place);
        } catch (KnowledgeException e) {
            String told = String.valueOf(e.getMessage());
            String bare = told.startsWith(place + ": ") ? told.substring(place.length() + 2) : told;
            throw new MendableException(
                    place.replace("\0", "?"),
                    bare.substring(0, 1).toUpperCase(java.util.Locale.ROOT) + bare.substring(1));
        }
    }

    private static Path cache() {
        String base = System.getenv("XDG_CACHE_HOME");
        Path home = base == null || base.isBlank() ? Path.of(System.getProperty("user.home"), ".cache") : Path.of(base);
        return home.resolve("gerdy");
    }
}
