package org.gerdy.cli;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.RandomAccessFile;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.gerdy.engine.casefile.MendableException;

/** What an earlier batch left in its output, so that a later one can go on from there. */
final class BatchOutput {
    private static final Pattern SHA = Pattern.compile("\"sha256\":\"([0-9a-f]{64})\"");
    private static final int HEAD = 1 << 16;

    private BatchOutput() {}

    /**
     * How many records are whole; a record cut short is taken off the end.
     *
     * @throws MendableException when the records come from another knowledge base
     */
    static long resume(Path file, String sha256) throws MendableException {
        if (!Files.exists(file)) {
            return 0;
        }
        try {
            long records = 0;
            long whole = 0;
            try (InputStream in = new BufferedInputStream(Files.newInputStream(file), 1 << 16)) {
                long at = 0;
                for (int one = in.read(); one >= 0; one = in.read()) {
                    at++;
                    if (one == '\n') {
                        records++;
                        whole = at;
                    }
                }
            }
            try (RandomAccessFile output = new RandomAccessFile(file.toFile(), "rw")) {
                byte[] head = new byte[(int) Math.min(HEAD, whole)];
                output.readFully(head);
                Matcher matcher = SHA.matcher(new String(head, StandardCharsets.UTF_8));
                if (matcher.find() && !matcher.group(1).equals(sha256)) {
                    throw new MendableException(
                            file.toString(),
                            "The records here come from the knowledge base " + matcher.group(1) + ", now it is "
                                    + sha256 + "; go on with that one by --rules, or start a new file.");
                }
                output.setLength(whole);
            }
            return records;
        } catch (IOException e) {
            throw new MendableException(file.toString(), "Could not be read: " + e.getMessage() + ".");
        }
    }
}
