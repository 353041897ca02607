package org.gerdy.engine.audit;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.nio.file.PathMatcher;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import org.gerdy.engine.casefile.CaseReader;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.casefile.Problem;

/**
 * The cases an audit is held with: files, directories and patterns. A file that ends in {@code .jsonl} holds one case a
 * line. A name that matches nothing is a fault, because an audit over nothing would pass.
 */
public final class CaseSet {
    private CaseSet() {}

    /** Every case named, in order of place. Throws {@link MendableException} with every fault of every file. */
    public static List<AuditCase> read(CaseReader reader, List<String> names) throws MendableException {
        List<Problem> problems = new ArrayList<>();
        Set<Path> files = new LinkedHashSet<>();
        for (String name : names) {
            try {
                List<Path> found = files(name);
                if (found.isEmpty()) {
                    problems.add(new Problem(
                            name, 0, 0, "No case file matches this; an audit over no cases would prove nothing."));
                }
                files.addAll(found);
            } catch (IOException | java.io.UncheckedIOException e) {
                problems.add(new Problem(name, 0, 0, "Could not be listed: " + e.getMessage() + "."));
            } catch (InvalidPathException | java.util.regex.PatternSyntaxException e) {
                problems.add(new Problem(name.replace("\0", "?"), 0, 0, "This is neither a path nor a pattern."));
            }
        }
        List<AuditCase> cases = new ArrayList<>();
        for (Path file : files) {
            if (file.toString().endsWith(".jsonl")) {
                lines(reader, file, cases, problems);
            } else {
                try {
                    cases.add(new AuditCase(file.toString(), reader.read(file)));
                } catch (MendableException e) {
                    problems.addAll(e.problems());
                }
            }
        }
        Set<String> ids = new LinkedHashSet<>();
        for (AuditCase one : cases) {
            if (!ids.add(one.id())) {
                problems.add(new Problem(one.place(), 0, 0, "The case id '" + one.id() + "' is used twice."));
            }
        }
        if (!problems.isEmpty()) {
            throw new MendableException(problems);
        }
        return List.copyOf(cases);
    }

    private static void lines(CaseReader reader, Path file, List<AuditCase> cases, List<Problem> problems) {
        try {
            int number = 0;
            for (String line : Files.readAllLines(file, StandardCharsets.UTF_8)) {
                number++;
                if (line.isBlank()) {
                    continue;
                }
                String place = file + ":" + number;
                try {
                    cases.add(new AuditCase(place, reader.read(place, line.getBytes(StandardCharsets.UTF_8))));
                } catch (MendableException e) {
                    problems.addAll(e.problems());
                }
            }
        } catch (IOException e) {
            problems.add(new Problem(file.toString(), 0, 0, "Could not be read: " + e.getMessage() + "."));
        }
    }

    /** The files behind a name: itself, all below it when it is a directory, all that match when it is a pattern. */
    private static List<Path> files(String name) throws IOException {
        if (name.indexOf('*') < 0 && name.indexOf('?') < 0 && name.indexOf('{') < 0) {
            Path path = Path.of(name);
            if (!Files.isDirectory(path)) {
                return List.of(path);
            }
            try (Stream<Path> below = Files.walk(path)) {
                return below.filter(Files::isRegularFile)
                        .filter(CaseSet::isCase)
                        .sorted()
                        .toList();
            }
        }
        int star = firstOf(name);
        int slash = name.lastIndexOf('/', star);
        Path root = slash < 0 ? Path.of("") : Path.of(name.substring(0, slash + 1));
        String pattern = slash < 0 ? name : name.substring(slash + 1);
        if (!Files.isDirectory(root.toAbsolutePath())) {
            return List.of();
        }
        PathMatcher matcher = FileSystems.getDefault().getPathMatcher("glob:" + pattern);
        try (Stream<Path> below = Files.walk(root.toString().isEmpty() ? Path.of(".") : root)) {
            Path base = root.toString().isEmpty() ? Path.of(".") : root;
            return below.filter(Files::isRegularFile)
                    .filter(file -> matcher.matches(base.relativize(file)))
                    .sorted()
                    .toList();
        }
    }

    private static int firstOf(String name) {
        int first = name.length();
        for (char special : new char[] {'*', '?', '{', '['}) {
            int at = name.indexOf(special);
            first = at >= 0 ? Math.min(first, at) : first;
        }
        return first;
    }

    private static boolean isCase(Path path) {
        String name = path.getFileName().toString();
        return name.endsWith(".yaml") || name.endsWith(".yml") || name.endsWith(".json") || name.endsWith(".jsonl");
    }
}
