package org.gerdy.cli;

import java.io.ByteArrayInputStream;
import java.io.InputStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;

/** What one command printed and how it ended. */
record Run(int code, String out, String err) {
    /** The root of the repository. */
    static final Path ROOT = Path.of(System.getProperty("gerdy.root"));

    static final String DEMO = ROOT.resolve("cases/demo/first-visit.yaml").toString();

    static Run of(String... args) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        int code = Main.run(new PrintWriter(out), new PrintWriter(err), args);
        return new Run(code, out.toString(), err.toString());
    }

    /** The same with this text as standard input. */
    static Run fed(String text, String... args) {
        InputStream before = System.in;
        System.setIn(new ByteArrayInputStream(text.getBytes(StandardCharsets.UTF_8)));
        try {
            return of(args);
        } finally {
            System.setIn(before);
        }
    }

    static String boundary(String name) {
        return ROOT.resolve("cases/boundary/" + name + ".yaml").toString();
    }

    List<String> linesWiderThan(int columns) {
        return out.lines()
                .filter(line -> line.codePointCount(0, line.length()) > columns)
                .toList();
    }

    /** Neither stream shows the inside of the program. */
    boolean isCivil() {
        return !(out + err).matches("(?s).*(\\tat [a-z]+\\.|Exception[: ]|java\\.lang).*");
    }
}
