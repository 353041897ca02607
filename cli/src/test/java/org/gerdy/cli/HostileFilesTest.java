package org.gerdy.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** No input, however wrong, ends in a stack trace: each is told in words and the program ends with 1. */
class HostileFilesTest {
    @TempDir
    private Path directory;

    private static Map<String, byte[]> files() throws IOException {
        String demo = Files.readString(Path.of(Run.DEMO));
        Map<String, byte[]> files = new TreeMap<>();
        files.put("empty", new byte[0]);
        files.put("zeros", new byte[4096]);
        files.put("random", noise(5000));
        files.put("picture", new byte[] {(byte) 0x89, 'P', 'N', 'G', 13, 10, 26, 10, 0, 0, 0, 13});
        files.put("half", text(demo.substring(0, demo.indexOf("gradual")) + " ["));
        files.put("latin", "gerdy: 1\ntitle: caf\u00e9\n".getBytes(StandardCharsets.ISO_8859_1));
        files.put("wide", demo.getBytes(StandardCharsets.UTF_16));
        files.put("deep", text("[".repeat(100_000)));
        files.put("deep-json", text("{\"a\":".repeat(100_000)));
        files.put("long-line", text("gerdy: " + "x".repeat(1_000_000)));
        files.put("huge-number", text(demo.replace("age: 34", "age: 1e999999999")));
        files.put("infinite", text(demo.replace("age: 34", "age: .inf")));
        files.put("not-a-number", text(demo.replace("age: 34", "age: .nan")));
        files.put("tag", text(demo.replace("age: 34", "age: !!java.net.URL [\"http://localhost\"]")));
        files.put("binary", text(demo.replace("age: 34", "age: !!binary aGVsbG8=")));
        files.put("merge", text("a: &a {gerdy: 1}\n<<: *a\n"));
        files.put("cycle", text("&a [*a]"));
        files.put("list", text("- gerdy: 1\n"));
        files.put("word", text("hello"));
        files.put("two", text(demo + "\n---\n" + demo));
        files.put("tabs", text(demo.replace("    ", "\t")));
        files.put("twice", text(demo + "case: other\n"));
        files.put("escape", text("gerdy: 1\ncase: \"\\u001b[31mred\"\nvisits: []\n"));
        files.put("many", text("gerdy: 1\ncase: a\nvisits:\n" + "  - {date: 2026-03-02, side: left}\n".repeat(600)));
        return files;
    }

    private static byte[] text(String text) {
        return text.getBytes(StandardCharsets.UTF_8);
    }

    private static byte[] noise(int length) {
        byte[] bytes = new byte[length];
        int state = 7;
        for (int i = 0; i < length; i++) {
            state = state * 1103515245 + 12345;
            bytes[i] = (byte) (state >> 16);
        }
        return bytes;
    }

    @Test
    void everyCommandTellsWhatIsWrongInWordsAndEndsWithOne() throws IOException {
        for (Map.Entry<String, byte[]> entry : files().entrySet()) {
            Path file = Files.write(directory.resolve(entry.getKey() + ".yaml"), entry.getValue());
            for (List<String> command : List.of(
                    List.of("triage", file.toString()),
                    List.of("check", file.toString()),
                    List.of("explain", file.toString()))) {
                Run run = Run.of(command.toArray(String[]::new));
                String what = command.get(0) + " " + entry.getKey() + ": " + run.out() + run.err();
                assertThat(run.code()).as(what).isEqualTo(1);
                assertThat(run.isCivil()).as(what).isTrue();
                assertThat(run.out() + run.err()).as(what).contains(file.toString());
            }
        }
    }

    @Test
    void aPathNoSystemTakesIsTold() {
        for (String command : List.of("triage", "check", "explain")) {
            Run run = Run.of(command, "a\0b");
            assertThat(run.code()).isEqualTo(1);
            assertThat(run.isCivil()).as(run.err()).isTrue();
        }
    }

    @Test
    void aFileThatMayNotBeReadIsTold() throws IOException {
        Path file = Files.createSymbolicLink(directory.resolve("loop.yaml"), directory.resolve("loop.yaml"));
        for (String command : List.of("triage", "check", "explain")) {
            Run run = Run.of(command, file.toString());
            assertThat(run.code()).isEqualTo(1);
            assertThat(run.isCivil()).as(run.out() + run.err()).isTrue();
        }
    }
}
