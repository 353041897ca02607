package org.gerdy.cli;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.List;
import org.gerdy.engine.Gerdy;
import org.gerdy.engine.casefile.CaseReader;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.casefile.Problem;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Checks case files and prints every fault with file, line and column. */
@Command(
        name = "check",
        mixinStandardHelpOptions = true,
        description = "Check case files: shape, words, units, ranges, sides, dates and answers that cannot both hold.",
        footer = {
            "",
            "Prints every fault as file:line:column: message. Exit code 0 when all are sound, 1 otherwise.",
            "",
            "Example:",
            "  gerdy check cases/demo/*.yaml"
        })
final class CheckCommand extends KnowledgeCommand {
    @Parameters(paramLabel = "FILE", arity = "0..*", description = "Case files, YAML or JSON; - is standard input.")
    private List<String> files = new ArrayList<>();

    @Option(names = "--schema", description = "Print the JSON Schema of case files and stop.")
    private boolean schema;

    @Override
    public Integer call() throws MendableException {
        PrintWriter out = out();
        if (schema) {
            out.print(CaseReader.schema());
            return 0;
        }
        if (files.isEmpty()) {
            err().println("Name at least one case file; see 'gerdy check --help'.");
            return 2;
        }
        Gerdy gerdy = gerdy();
        int faults = 0;
        for (String file : files) {
            List<Problem> problems = file.equals(Cases.STANDARD_INPUT)
                    ? gerdy.reader().check("standard input", Cases.standardInput())
                    : gerdy.reader().check(Cases.path(file));
            problems.forEach(out::println);
            faults += problems.size();
        }
        out.println(
                faults == 0
                        ? files.size() + (files.size() == 1 ? " case is sound." : " cases are sound.")
                        : faults + (faults == 1 ? " fault" : " faults") + " in " + files.size()
                                + (files.size() == 1 ? " case." : " cases."));
        return faults == 0 ? 0 : 1;
    }
}
