package org.gerdy.engine.knowledge;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;

/** Where the files of a knowledge base come from: a jar or a directory. Paths use slashes and are relative. */
public interface KnowledgeFiles {
    /** Opens a file. Throws {@link IOException} when it is not there. */
    InputStream open(String path) throws IOException;

    /** Whether the file is there. */
    boolean has(String path);

    /** Every file, in order of path. Throws {@link IOException} when they cannot be listed. */
    List<String> list() throws IOException;

    /** The table of this name among the knowledge. Throws {@link KnowledgeException} when it lacks one of these columns. */
    default Table table(String name, String... columns) {
        return Table.read(this, "knowledge/" + name, List.of(columns));
    }

    /** Endings of the files that make up a knowledge base. */
    List<String> KINDS = List.of(".drl", ".csv", ".yaml", ".svg");

    /** Whether a file of this name is part of a knowledge base. */
    static boolean belongs(String path) {
        return KINDS.stream().anyMatch(path::endsWith);
    }

    /** The files of a directory. */
    static KnowledgeFiles in(Path directory) {
        return new KnowledgeFiles() {
            @Override
            public InputStream open(String path) throws IOException {
                return Files.newInputStream(directory.resolve(path));
            }

            @Override
            public boolean has(String path) {
                return Files.isRegularFile(directory.resolve(path));
            }

            @Override
            public List<String> list() throws IOException {
                try (Stream<Path> files = Files.walk(directory)) {
                    return files.filter(Files::isRegularFile)
                            .map(file -> directory.relativize(file).toString().replace('\\', '/'))
                            .filter(KnowledgeFiles::belongs)
                            .sorted()
                            .toList();
                }
            }
        };
    }
}
