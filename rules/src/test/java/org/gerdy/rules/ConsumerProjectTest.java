package org.gerdy.rules;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.File;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.concurrent.TimeUnit;
import java.util.stream.Collectors;
import javax.tools.ToolProvider;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A program of its own, compiled and run against the engine and the rules alone, as a clinic system would. */
class ConsumerProjectTest {
    private static final String PROGRAM = """
            import java.nio.file.Path;
            import org.gerdy.engine.Gerdy;
            import org.gerdy.engine.assessment.Assessment;
            import org.gerdy.engine.casefile.CaseFile;
            import org.gerdy.rules.LateralKnee;

            class Consumer {
                public static void main(String[] args) throws Exception {
                    Gerdy gerdy = LateralKnee.gerdy();
                    CaseFile caseFile = gerdy.read(Path.of(args[0]));
                    Assessment assessment = gerdy.assess(caseFile);
                    System.out.println(assessment.urgency());
                    assessment.raisedFlags().forEach(flag -> System.out.println(flag.id()));
                }
            }
            """;

    @Test
    void fiveLinesReadACaseAndAssessIt(@TempDir Path directory) throws Exception {
        Path source = Files.writeString(directory.resolve("Consumer.java"), PROGRAM);
        Path caseFile = Files.writeString(
                directory.resolve("case.yaml"),
                Patient.aged(41)
                        .with("acute-injury", "days-since-injury: 1", "four-steps-now: absent")
                        .yaml());
        String path = classPath();
        ByteArrayOutputStream told = new ByteArrayOutputStream();
        int compiled = ToolProvider.getSystemJavaCompiler()
                .run(null, told, told, "-proc:none", "-cp", path, "-d", directory.toString(), source.toString());
        assertThat(compiled).as(told.toString(StandardCharsets.UTF_8)).isZero();

        Process process = new ProcessBuilder(
                        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                        "-XX:+UseSerialGC",
                        "-XX:TieredStopAtLevel=1",
                        "-cp",
                        path + File.pathSeparator + directory,
                        "Consumer",
                        caseFile.toString())
                .redirectError(directory.resolve("errors").toFile())
                .start();
        String out = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        assertThat(process.waitFor(60, TimeUnit.SECONDS)).isTrue();
        assertThat(process.exitValue())
                .as(Files.readString(directory.resolve("errors")))
                .isZero();
        assertThat(out.lines()).contains("Optional[SAME_DAY]", "cannot-bear-weight", "possible-fracture");
    }

    /** What the two jars bring along, without anything of the tests. */
    private static String classPath() {
        String all = System.getProperty("surefire.test.class.path", System.getProperty("java.class.path"));
        return Arrays.stream(all.split(File.pathSeparator))
                .filter(entry -> !entry.endsWith("test-classes"))
                .filter(entry -> !entry.matches(".*(junit|jqwik|assertj|archunit|opentest4j).*\\.jar"))
                .collect(Collectors.joining(File.pathSeparator));
    }
}
