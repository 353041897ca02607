package org.gerdy.cli.intake;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.Optional;
import java.util.function.Consumer;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.CaseStore;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.intake.IntakeSession;

/** Puts answers on the disk, and holds the one that could not be put there until it can. */
final class Keeping {
    /** An answer on its way to the disk; the finding is empty for a remark. */
    record Pending(CaseFile caseFile, Optional<String> finding, String told) {}

    private final CaseStore store;
    private final Consumer<String> recorder;
    private Optional<Pending> waiting = Optional.empty();

    /**
     * @param recorder is told every answer as {@code finding answer}, once it is on the disk
     */
    Keeping(CaseStore store, Consumer<String> recorder) {
        this.store = store;
        this.recorder = recorder;
    }

    /** Puts it on the disk; what went wrong if it could not be done, and then it waits. */
    Optional<String> keep(Pending what) {
        try {
            store.save(what.caseFile());
        } catch (MendableException e) {
            waiting = Optional.of(what);
            return Optional.of(e.problems().get(0).message());
        }
        waiting = Optional.empty();
        if (what.finding().isPresent()) {
            recorder.accept(what.told());
        }
        return Optional.empty();
    }

    /** What could not be put on the disk yet. */
    Optional<Pending> waiting() {
        return waiting;
    }

    /** Puts the whole case, with what waits, into another file. Says where it is, or why it is not; then it still waits. */
    String elsewhere(String path) {
        if (path.isEmpty()) {
            return "Not saved yet.";
        }
        try {
            Path there =
                    store.saveElsewhere(Path.of(path), waiting.orElseThrow().caseFile());
            waiting = Optional.empty();
            return "The whole case is in " + there + "; go on there.";
        } catch (MendableException e) {
            return e.problems().get(0).message();
        } catch (InvalidPathException e) {
            return "'" + path.replace("\0", "?") + "' is not a path.";
        }
    }

    /** Writes the letter beside the case and says where; empty when it could not be written. */
    Optional<String> letter(IntakeSession session) {
        String name = store.file().getFileName().toString().replaceFirst("\\.[A-Za-z]+$", "") + "-letter.txt";
        Path letter = store.file().resolveSibling(name);
        try {
            Files.writeString(letter, Letter.of(session));
            return Optional.of("The letter is in " + letter + ".");
        } catch (IOException e) {
            return Optional.empty();
        }
    }

    /** Keeps where the intake stands. */
    void progress(String text) {
        store.keepProgress(text);
    }

    /** The case file. */
    Path file() {
        return store.file();
    }
}
