package org.gerdy.engine.knowledge;

import java.io.ByteArrayInputStream;
import java.io.FileNotFoundException;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** Knowledge files held in memory. */
final class InMemory implements KnowledgeFiles {
    private final Map<String, String> files = new TreeMap<>();

    static InMemory with(String path, String content) {
        return new InMemory().and(path, content);
    }

    InMemory and(String path, String content) {
        files.put(path, content);
        return this;
    }

    @Override
    public InputStream open(String path) throws IOException {
        if (!files.containsKey(path)) {
            throw new FileNotFoundException(path + " is not there");
        }
        return new ByteArrayInputStream(files.get(path).getBytes(StandardCharsets.UTF_8));
    }

    @Override
    public boolean has(String path) {
        return files.containsKey(path);
    }

    @Override
    public List<String> list() {
        return List.copyOf(files.keySet());
    }
}
