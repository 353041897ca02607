package org.gerdy.engine.audit;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import java.io.IOException;
import java.io.StringWriter;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.casefile.Problem;
import org.gerdy.engine.knowledge.Fingerprint;

/**
 * The append-only record of who signed off which knowledge base. One entry a line as JSON; each carries the SHA-256 of
 * the line before it, so that an edit, a removal or a reordering shows. Cutting entries off the end leaves a chain that
 * holds; the last hash, kept elsewhere, and the knowledge base in use tell that.
 */
public final class SignOffLog {
    private static final String NONE = "0".repeat(64);
    private static final JsonFactory JSON = new JsonFactory();
    private static final List<String> FIELDS =
            List.of("entry", "when", "role", "before", "after", "version", "cases", "result", "reason", "previous");

    private final Path file;

    /** The log kept in this file, which need not be there yet. */
    public SignOffLog(Path file) {
        this.file = file;
    }

    /**
     * What is signed off, by whom and why.
     *
     * @param when the instant it was written, UTC
     * @param role who signed off, by role and never by name
     * @param before SHA-256 of the knowledge base until then; empty for the first
     * @param after SHA-256 of the knowledge base signed off
     * @param version its version
     * @param cases how many cases were run
     * @param result what the audit said, one sentence
     * @param reason why the change was made
     */
    public record SignOff(
            Instant when,
            String role,
            String before,
            String after,
            String version,
            int cases,
            String result,
            String reason) {}

    /**
     * One sign-off in its place.
     *
     * @param entry counted from 1
     * @param signOff what is signed off
     * @param previous SHA-256 of the line before, or zeros
     */
    public record Entry(int entry, SignOff signOff, String previous) {}

    /** The log as read, with its last hash. */
    public record Verified(List<Entry> entries, String lastHash) {}

    /**
     * Adds an entry after checking the chain, and returns the new last hash. The entry is forced to disk.
     *
     * @throws MendableException when the log does not verify; nothing is written then
     */
    public String append(SignOff signOff) throws MendableException {
        Verified now = verify();
        Entry entry = new Entry(now.entries().size() + 1, signOff, now.lastHash());
        String line = line(entry);
        try (FileChannel channel = FileChannel.open(
                file, StandardOpenOption.CREATE, StandardOpenOption.WRITE, StandardOpenOption.APPEND)) {
            ByteBuffer bytes = ByteBuffer.wrap((line + "\n").getBytes(StandardCharsets.UTF_8));
            while (bytes.hasRemaining()) {
                channel.write(bytes);
            }
            channel.force(true);
        } catch (IOException e) {
            throw new MendableException(file.toString(), "The log could not be written: " + e.getMessage() + ".");
        }
        return Fingerprint.of(line);
    }

    /**
     * Reads the log and checks every link. A log that is not there yet is empty.
     *
     * @throws MendableException naming every line that was edited, moved or follows a removal
     */
    public Verified verify() throws MendableException {
        List<Entry> entries = new ArrayList<>();
        List<Problem> problems = new ArrayList<>();
        String previous = NONE;
        if (!Files.exists(file)) {
            return new Verified(List.of(), NONE);
        }
        String text;
        try {
            text = Files.readString(file);
        } catch (IOException e) {
            throw new MendableException(file.toString(), "The log could not be read: " + e.getMessage() + ".");
        }
        if (!text.isEmpty() && !text.endsWith("\n")) {
            problems.add(
                    problem((int) text.lines().count(), "The last line is cut short; restore the log from its copy."));
        }
        int number = 0;
        for (String line : text.split("\n", -1)) {
            number++;
            if (line.isEmpty() && number == text.split("\n", -1).length) {
                break;
            }
            try {
                Entry entry = entry(line);
                if (!line.equals(line(entry))) {
                    problems.add(problem(number, "This entry is not as the program wrote it: it was edited."));
                }
                if (!entry.previous().equals(previous)) {
                    problems.add(problem(
                            number,
                            "This entry does not carry the hash of the line before it: a line was edited, removed,"
                                    + " added or moved here."));
                }
                if (entry.entry() != number) {
                    problems.add(problem(
                            number,
                            "This is entry " + entry.entry() + " but stands in place " + number
                                    + ": lines were removed, added or moved."));
                }
                if (!entries.isEmpty()
                        && entry.signOff()
                                .when()
                                .isBefore(entries.get(entries.size() - 1)
                                        .signOff()
                                        .when())) {
                    problems.add(problem(number, "This entry is older than the one before it."));
                }
                entries.add(entry);
            } catch (IOException | RuntimeException e) {
                problems.add(problem(number, "This line is not an entry of the log: it was edited."));
            }
            previous = Fingerprint.of(line);
        }
        if (!problems.isEmpty()) {
            throw new MendableException(problems);
        }
        return new Verified(List.copyOf(entries), previous);
    }

    private Problem problem(int line, String message) {
        return new Problem(file.toString(), line, 0, message);
    }

    private static String line(Entry entry) {
        SignOff signOff = entry.signOff();
        StringWriter out = new StringWriter();
        try (JsonGenerator json = JSON.createGenerator(out)) {
            json.writeStartObject();
            json.writeNumberField("entry", entry.entry());
            json.writeStringField("when", signOff.when().toString());
            json.writeStringField("role", signOff.role());
            json.writeStringField("before", signOff.before());
            json.writeStringField("after", signOff.after());
            json.writeStringField("version", signOff.version());
            json.writeNumberField("cases", signOff.cases());
            json.writeStringField("result", signOff.result());
            json.writeStringField("reason", signOff.reason());
            json.writeStringField("previous", entry.previous());
            json.writeEndObject();
        } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
        return out.toString();
    }

    private static Entry entry(String line) throws IOException {
        Map<String, String> values = new LinkedHashMap<>();
        try (JsonParser json = JSON.createParser(line)) {
            if (json.nextToken() != JsonToken.START_OBJECT) {
                throw new IOException("not an object");
            }
            while (json.nextToken() == JsonToken.FIELD_NAME) {
                String field = json.currentName();
                json.nextToken();
                values.put(field, json.getText());
            }
        } catch (JsonProcessingException e) {
            throw new IOException("not JSON", e);
        }
        if (!List.copyOf(values.keySet()).equals(FIELDS)) {
            throw new IOException("other fields");
        }
        return new Entry(
                Integer.parseInt(values.getOrDefault("entry", "")),
                new SignOff(
                        Instant.parse(values.getOrDefault("when", "")),
                        values.getOrDefault("role", ""),
                        values.getOrDefault("before", ""),
                        values.getOrDefault("after", ""),
                        values.getOrDefault("version", ""),
                        Integer.parseInt(values.getOrDefault("cases", "")),
                        values.getOrDefault("result", ""),
                        values.getOrDefault("reason", "")),
                values.getOrDefault("previous", ""));
    }
}
