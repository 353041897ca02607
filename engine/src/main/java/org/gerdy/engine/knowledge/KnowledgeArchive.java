package org.gerdy.engine.knowledge;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.FileNotFoundException;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;

/** A knowledge base from a directory, a zip or jar archive, or a revision kept by git; wherever in it the tables lie. */
public final class KnowledgeArchive {
    private static final String MARK = "knowledge/version.csv";
    private static final String GIT = "git:";

    private KnowledgeArchive() {}

    /**
     * The files of the knowledge base this text names: a directory, an archive, or {@code git:REVISION} of the
     * repository around the working directory.
     *
     * @throws KnowledgeException when nothing is there, or no knowledge base is in it
     */
    public static KnowledgeFiles at(String place) {
        return at(place, Path.of("").toAbsolutePath());
    }

    /** The same, looking for relative paths and the repository from {@code directory}. */
    public static KnowledgeFiles at(String place, Path directory) {
        try {
            if (place.startsWith(GIT)) {
                return revision(place.substring(GIT.length()), directory);
            }
            Path path = directory.resolve(place);
            if (Files.isDirectory(path)) {
                return Files.isRegularFile(path.resolve(MARK)) ? KnowledgeFiles.in(path) : inside(place, path);
            }
            if (Files.isRegularFile(path)) {
                try (InputStream in = Files.newInputStream(path)) {
                    return zip(place, in);
                }
            }
        } catch (java.nio.file.InvalidPathException e) {
            throw new KnowledgeException("'" + place.replace("\0", "?") + "' is not a path; check it.", e);
        } catch (IOException e) {
            throw new KnowledgeException(place + ": could not be read: " + e.getMessage() + ".", e);
        }
        throw new KnowledgeException(place + ": there is no such directory or archive; name a directory, a zip or jar,"
                + " or git:REVISION.");
    }

    /** A directory that holds the knowledge base further down, such as a source tree. */
    private static KnowledgeFiles inside(String place, Path path) throws IOException {
        try (var files = Files.walk(path)) {
            List<Path> found = files.filter(file -> file.endsWith(MARK) && Files.isRegularFile(file))
                    .filter(file -> !file.toString().contains("target"))
                    .sorted()
                    .toList();
            if (found.size() != 1) {
                throw none(place, found.size());
            }
            return KnowledgeFiles.in(found.get(0).resolve("../..").normalize());
        }
    }

    private static KnowledgeException none(String place, int found) {
        return new KnowledgeException(place + ": holds " + (found == 0 ? "no" : "more than one")
                + " knowledge base; name the place of one " + MARK + ".");
    }

    private static KnowledgeFiles revision(String revision, Path directory) throws IOException {
        if (revision.isBlank() || revision.startsWith("-")) {
            throw new KnowledgeException("'git:" + revision + "' names no revision; write git:main or git:v1.2.");
        }
        String top = text(git(directory, "rev-parse", "--show-toplevel"));
        Path root = Path.of(top);
        List<String> marks = text(git(root, "ls-tree", "-r", "--name-only", revision))
                .lines()
                .filter(line -> line.equals(MARK) || line.endsWith("/" + MARK))
                .toList();
        if (marks.size() != 1) {
            throw none("git:" + revision, marks.size());
        }
        String prefix = marks.get(0).substring(0, marks.get(0).length() - MARK.length());
        byte[] zip = prefix.isEmpty()
                ? git(root, "archive", "--format=zip", revision)
                : git(root, "archive", "--format=zip", revision, prefix.substring(0, prefix.length() - 1));
        return zip("git:" + revision, new ByteArrayInputStream(zip));
    }

    private static String text(byte[] bytes) {
        return new String(bytes, StandardCharsets.UTF_8).strip();
    }

    private static byte[] git(Path directory, String... arguments) throws IOException {
        List<String> command = new java.util.ArrayList<>(List.of("git", "-c", "core.quotepath=off"));
        command.addAll(List.of(arguments));
        Path errors = Files.createTempFile("gerdy-git", ".txt");
        try {
            Process process;
            try {
                process = new ProcessBuilder(command)
                        .directory(directory.toFile())
                        .redirectError(errors.toFile())
                        .start();
            } catch (IOException e) {
                throw new KnowledgeException(
                        "git could not be started, so a revision cannot be read: install git, or name a directory or"
                                + " archive instead.",
                        e);
            }
            process.getOutputStream().close();
            ByteArrayOutputStream out = new ByteArrayOutputStream();
            try (InputStream in = process.getInputStream()) {
                in.transferTo(out);
            }
            if (process.waitFor() != 0) {
                String why = Files.readString(errors).lines().findFirst().orElse("no reason given");
                throw new KnowledgeException("git says: " + why + ". Check the revision and where the command runs.");
            }
            return out.toByteArray();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw new KnowledgeException("Reading the revision was interrupted; run it again.", e);
        } finally {
            Files.deleteIfExists(errors);
        }
    }

    private static KnowledgeFiles zip(String place, InputStream in) throws IOException {
        Map<String, byte[]> all = new TreeMap<>();
        try (ZipInputStream zip = new ZipInputStream(in)) {
            for (ZipEntry entry = zip.getNextEntry(); entry != null; entry = zip.getNextEntry()) {
                if (!entry.isDirectory() && KnowledgeFiles.belongs(entry.getName())) {
                    all.put(entry.getName(), zip.readAllBytes());
                }
            }
        } catch (IllegalArgumentException e) {
            throw new KnowledgeException(place + ": the archive is damaged: " + e.getMessage() + ".", e);
        }
        List<String> marks = all.keySet().stream()
                .filter(name -> name.equals(MARK) || name.endsWith("/" + MARK))
                .toList();
        if (marks.size() != 1) {
            throw none(place, marks.size());
        }
        String prefix = marks.get(0).substring(0, marks.get(0).length() - MARK.length());
        Map<String, byte[]> inside = new TreeMap<>();
        all.forEach((name, bytes) -> {
            if (name.startsWith(prefix)) {
                inside.put(name.substring(prefix.length()), bytes);
            }
        });
        return of(inside);
    }

    /** A knowledge base held in memory: bytes by path. */
    public static KnowledgeFiles of(Map<String, byte[]> files) {
        Map<String, byte[]> kept = new TreeMap<>(files);
        return new KnowledgeFiles() {
            @Override
            public InputStream open(String path) throws IOException {
                byte[] bytes = kept.get(path);
                if (bytes == null) {
                    throw new FileNotFoundException(path + " is not there");
                }
                return new ByteArrayInputStream(bytes);
            }

            @Override
            public boolean has(String path) {
                return kept.containsKey(path);
            }

            @Override
            public List<String> list() {
                return List.copyOf(kept.keySet());
            }
        };
    }
}
