package org.gerdy.engine.load;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.ZoneId;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.casefile.RunLog;

/** Reads a diary, GPX or TCX file, told apart by what it holds and not by its name. */
public final class RunFiles {
    private static final int LOOK_AHEAD = 4096;
    private static final int FIT_MARK = 8;
    private static final int GZIP_FIRST = 0x1f;
    private static final int GZIP_SECOND = 0x8b;

    private final ZoneId zone;
    private final LoadSettings settings;

    /**
     * A reader.
     *
     * @param zone the runner's zone; the local day of each session is taken in it
     * @param settings from the knowledge base
     */
    public RunFiles(ZoneId zone, LoadSettings settings) {
        this.zone = zone;
        this.settings = settings;
    }

    /** Reads a file. Throws {@link MendableException} with every fault found. */
    public RunLog read(Path path) throws MendableException {
        String name = String.valueOf(path.getFileName());
        if (Files.isDirectory(path)) {
            throw new MendableException(path.toString(), "This is a directory; name the run files in it.");
        }
        try (InputStream in = Files.newInputStream(path)) {
            return read(name, in);
        } catch (NoSuchFileException e) {
            throw new MendableException(path.toString(), "There is no such file; check the path.");
        } catch (IOException e) {
            throw new MendableException(path.toString(), "The file could not be read: " + e.getMessage() + ".");
        }
    }

    /** Reads a stream to its end, named {@code name} in messages, and leaves it open. */
    public RunLog read(String name, InputStream in) throws MendableException {
        BufferedInputStream buffered = new BufferedInputStream(in, 2 * LOOK_AHEAD);
        try {
            buffered.mark(LOOK_AHEAD);
            byte[] head = buffered.readNBytes(LOOK_AHEAD);
            buffered.reset();
            if (head.length >= FIT_MARK + 4
                    && new String(head, FIT_MARK, 4, StandardCharsets.US_ASCII).equals(".FIT")) {
                throw new MendableException(
                        name,
                        "This is a FIT file, which gerdy does not read: its decoder is not under an open-source licence. "
                                + "Export the run as TCX or GPX, or write it into a diary.");
            }
            if (head.length >= 2 && (head[0] & 0xff) == GZIP_FIRST && (head[1] & 0xff) == GZIP_SECOND) {
                throw new MendableException(name, "This file is compressed (gzip); unpack it first.");
            }
            String text = new String(head, wide(head) ? StandardCharsets.UTF_16 : StandardCharsets.UTF_8);
            String start = (text.startsWith("\uFEFF") ? text.substring(1) : text).stripLeading();
            if (start.isEmpty()) {
                throw new MendableException(name, "The file is empty.");
            }
            if (!start.startsWith("<")) {
                return new DiaryReader(name, zone).read(buffered);
            }
            return start.contains("<TrainingCenterDatabase") || start.contains(":TrainingCenterDatabase")
                    ? new TcxReader(name, zone, settings).read(buffered)
                    : new GpxReader(name, zone, settings).read(buffered);
        } catch (IOException e) {
            throw new MendableException(name, "The file could not be read: " + e.getMessage() + ".");
        }
    }

    /** Whether a byte order mark says UTF-16, which XML files may be written in. */
    private static boolean wide(byte[] head) {
        return head.length >= 2
                && ((head[0] == (byte) 0xff && head[1] == (byte) 0xfe)
                        || (head[0] == (byte) 0xfe && head[1] == (byte) 0xff));
    }
}
