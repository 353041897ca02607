package org.gerdy.engine.casefile;

import java.nio.file.Path;
import java.time.ZoneId;

/** Reads a run file a case names. */
@FunctionalInterface
public interface RunFileReader {
    /** What the file holds, days taken in this zone. Throws {@link MendableException} with every fault found. */
    RunLog read(Path file, ZoneId zone) throws MendableException;
}
