package org.gerdy.cli;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Path;

/** One command as run, with what it printed. */
record Ran(int code, String out, String err) {
    static Ran gerdy(String... args) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        PrintWriter outWriter = new PrintWriter(out);
        PrintWriter errWriter = new PrintWriter(err);
        int code = Main.run(outWriter, errWriter, args);
        outWriter.flush();
        errWriter.flush();
        return new Ran(code, out.toString(), err.toString());
    }

    /** A path below the top of the repository. */
    static Path root(String path) {
        return Path.of(System.getProperty("gerdy.root", "..")).resolve(path);
    }

    /** The shipped rules as files. */
    static Path rules() {
        return root("rules/src/main/resources/org/gerdy/rules");
    }

    /** Whether the long forms of the tests run. */
    static boolean thorough() {
        return Integer.getInteger("jqwik.tries.default", 1000) >= 100_000;
    }
}
