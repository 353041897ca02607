package org.gerdy.cli.intake;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.CaseStore;
import org.gerdy.engine.casefile.Disk;
import org.gerdy.engine.casefile.MendableException;

/** Puts answers on the disk, and holds those that could not be put there until they can. */
final class Keeping {
    /**
     * Answers on their way to the disk.
     *
     * @param findings what they answer; empty for a remark
     * @param told each answer as {@code finding answer}
     */
    record Pending(CaseFile caseFile, List<String> findings, List<String> told) {
        /** All of it on one line. */
        String line() {
            return String.join("; ", told);
        }
    }

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
        if (!what.findings().isEmpty()) {
            what.told().forEach(recorder);
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

    /** Writes a letter beside the case, over no other file, and says where; empty when it could not be written. */
    Optional<Path> letter(String recipient, String text) {
        String stem = store.file().getFileName().toString().replaceFirst("\\.[A-Za-z]+$", "") + "-letter-" + recipient;
        Path letter = store.file().resolveSibling(stem + ".txt");
        for (int i = 2; Files.exists(letter); i++) {
            letter = store.file().resolveSibling(stem + "-" + i + ".txt");
        }
        try {
            Disk.REAL.replace(letter, text.getBytes(StandardCharsets.UTF_8));
            return Optional.of(letter);
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
