package org.gerdy.cli;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.gerdy.engine.Gerdy;
import org.gerdy.engine.assessment.AssessmentJson;
import org.gerdy.engine.audit.Watcher;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.casefile.Problem;

/**
 * Triage of cases as JSON lines: one case a line in, one assessment a line out, in the same order. A line that is no
 * case becomes an error record with its number and the rest goes on. Blank lines are passed over. Memory does not grow
 * with the number of lines.
 */
final class BatchTriage {
    /** Longer than any case needs; a longer line is an error record. */
    private static final int LONGEST = 4 * 1024 * 1024;

    private static final int CHUNK = 32;
    private static final int AHEAD = 8;
    private static final JsonFactory JSON = new JsonFactory();

    private final Gerdy gerdy;
    private final String name;
    private final int threads;

    BatchTriage(Gerdy gerdy, String name, int threads) {
        this.gerdy = gerdy;
        this.name = name;
        this.threads = threads;
    }

    /** How many lines were answered and how many of them with an error record. */
    record Count(long lines, long errors) {}

    private static final class Line {
        private final long number;
        private final byte[] text;
        private final boolean tooLong;

        Line(long number, byte[] text, boolean tooLong) {
            this.number = number;
            this.text = text;
            this.tooLong = tooLong;
        }
    }

    private record Answers(String text, int lines, int errors) {}

    /** Answers every line after the first {@code skip} that are not blank. */
    Count run(InputStream in, OutputStream out, long skip, Watcher watcher) throws IOException {
        ExecutorService workers = Executors.newFixedThreadPool(threads, task -> {
            Thread thread = new Thread(task, "gerdy-batch");
            thread.setDaemon(true);
            return thread;
        });
        Deque<Future<Answers>> waiting = new ArrayDeque<>();
        Lines lines = new Lines(in);
        long answered = 0;
        long errors = 0;
        try (Watcher.Steps steps = watcher.begin("Lines", -1)) {
            List<Line> chunk = lines.next(skip);
            while (!chunk.isEmpty() || !waiting.isEmpty()) {
                if (!chunk.isEmpty()) {
                    List<Line> work = chunk;
                    waiting.add(workers.submit(() -> answer(work)));
                }
                if (waiting.size() >= threads * AHEAD || chunk.size() < CHUNK) {
                    Answers done = waiting.remove().get();
                    out.write(done.text().getBytes(StandardCharsets.UTF_8));
                    out.flush();
                    answered += done.lines();
                    errors += done.errors();
                    steps.done(done.lines());
                }
                chunk = chunk.isEmpty() ? chunk : lines.next(0);
            }
            return new Count(answered, errors);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new IOException("interrupted", e);
        } catch (ExecutionException e) {
            throw new IllegalStateException("A line could not be answered: " + e.getCause(), e);
        } finally {
            workers.shutdownNow();
        }
    }

    private Answers answer(List<Line> lines) {
        StringBuilder text = new StringBuilder();
        int errors = 0;
        for (Line line : lines) {
            try {
                if (line.tooLong) {
                    throw new MendableException(name, "The line is longer than a case can be.");
                }
                text.append(AssessmentJson.line(gerdy.assess(gerdy.reader().read(name, line.text))));
            } catch (MendableException e) {
                errors++;
                text.append(error(line.number, e.problems()));
            } catch (RuntimeException e) {
                errors++;
                text.append(error(
                        line.number,
                        List.of(new Problem(name, 0, 0, "The case could not be assessed: " + e.getMessage() + "."))));
            }
            text.append('\n');
        }
        return new Answers(text.toString(), lines.size(), errors);
    }

    private static String error(long number, List<Problem> problems) {
        StringWriter out = new StringWriter();
        try (JsonGenerator json = JSON.createGenerator(out)) {
            json.writeStartObject();
            json.writeNumberField("line", number);
            json.writeArrayFieldStart("errors");
            for (Problem problem : problems) {
                json.writeStartObject();
                json.writeNumberField("column", problem.column());
                json.writeStringField("message", problem.message());
                json.writeEndObject();
            }
            json.writeEndArray();
            json.writeEndObject();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return out.toString();
    }

    /** Lines of a stream as bytes, a chunk at a time. */
    private static final class Lines {
        private final InputStream in;
        private final byte[] buffer = new byte[1 << 16];
        private int at;
        private int end;
        private long number;

        Lines(InputStream in) {
            this.in = in;
        }

        /** The next chunk after passing over {@code skip} lines that are not blank; shorter only at the end. */
        List<Line> next(long skip) throws IOException {
            List<Line> chunk = new ArrayList<>();
            long passed = 0;
            while (chunk.size() < CHUNK) {
                Line line = line();
                if (line == null) {
                    break;
                }
                if (isBlank(line)) {
                    continue;
                }
                if (passed < skip) {
                    passed++;
                } else {
                    chunk.add(line);
                }
            }
            return chunk;
        }

        private static boolean isBlank(Line line) {
            for (byte one : line.text) {
                if (one != ' ' && one != '\t' && one != '\r') {
                    return false;
                }
            }
            return !line.tooLong;
        }

        private @org.jspecify.annotations.Nullable Line line() throws IOException {
            ByteArrayOutputStream text = new ByteArrayOutputStream(512);
            boolean tooLong = false;
            boolean any = false;
            while (true) {
                if (at == end) {
                    end = in.read(buffer);
                    at = 0;
                    if (end <= 0) {
                        end = 0;
                        break;
                    }
                }
                any = true;
                int stop = at;
                while (stop < end && buffer[stop] != '\n') {
                    stop++;
                }
                if (text.size() + stop - at > LONGEST) {
                    tooLong = true;
                } else {
                    text.write(buffer, at, stop - at);
                }
                boolean whole = stop < end;
                at = whole ? stop + 1 : stop;
                if (whole) {
                    break;
                }
            }
            if (!any) {
                return null;
            }
            number++;
            return new Line(number, tooLong ? new byte[0] : text.toByteArray(), tooLong);
        }
    }
}
