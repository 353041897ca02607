package org.gerdy.cli;

import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.List;
import java.util.function.Supplier;
import java.util.stream.Stream;
import org.gerdy.cli.drill.DrillCommand;
import org.gerdy.cli.intake.IntakeCommand;
import org.gerdy.engine.Gerdy;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.casefile.Problem;
import org.gerdy.engine.knowledge.KnowledgeException;
import org.gerdy.rules.LateralKnee;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.HelpCommand;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

/** The {@code gerdy} command. Exit codes: 0 done, 1 the input has errors, 2 wrong usage, 3 an audit found a difference. */
@Command(
        name = "gerdy",
        mixinStandardHelpOptions = true,
        versionProvider = Main.Version.class,
        description = {
            "Triage of pain on the outside of the knee in active people.",
            "Decision support for licensed clinicians; local codes and scope of practice come first."
        },
        footer = {"", "Example:", "  gerdy triage cases/demo/first-visit.yaml"},
        subcommands = {
            IntakeCommand.class,
            TriageCommand.class,
            ExplainCommand.class,
            WhatIfCommand.class,
            DrillCommand.class,
            PlanCommand.class,
            ReviewCommand.class,
            LetterCommand.class,
            HandoutCommand.class,
            CheckCommand.class,
            LoadCommand.class,
            MeasureCommand.class,
            RulesCommand.class,
            AuditCommand.class,
            SimulateCommand.class,
            HelpCommand.class
        })
public final class Main implements Runnable {
    @Spec
    private CommandSpec spec = CommandSpec.create();

    /** Runs one command and ends the process with its exit code. */
    public static void main(String[] args) {
        PrintWriter out = new PrintWriter(System.out, false, StandardCharsets.UTF_8);
        PrintWriter err = new PrintWriter(System.err, true, StandardCharsets.UTF_8);
        int code = run(out, err, args);
        out.flush();
        err.flush();
        // Leaves at once: nothing is left to do, and the virtual machine's own tidying takes longer than the triage.
        System.exit(code);
    }

    /** Runs one command against these streams. */
    static int run(PrintWriter out, PrintWriter err, String... args) {
        if (TriageText.isAllOf(args)) {
            return TriageText.print(List.of(args).subList(1, args.length), out, err);
        }
        CommandLine line = commandLine(args);
        line.setOut(out);
        line.setErr(err);
        line.setUsageHelpWidth(80);
        line.setCaseInsensitiveEnumValuesAllowed(true);
        line.registerConverter(LocalDate.class, Main::day);
        line.setExecutionExceptionHandler((exception, command, parsed) -> told(exception, err));
        return line.execute(args);
    }

    private static LocalDate day(String text) {
        try {
            return LocalDate.parse(text);
        } catch (DateTimeException e) {
            throw new CommandLine.TypeConversionException("'" + text + "' is not a day; write it as 2026-03-02.");
        }
    }

    /**
     * The whole tree of commands, or only the one command that is named first: looking all of them over by reflection
     * takes longer than a triage.
     */
    private static CommandLine commandLine(String... args) {
        String first = args.length == 0 ? "" : args[0];
        Class<?>[] commands = Main.class.getAnnotation(Command.class).subcommands();
        for (Class<?> command : commands) {
            if (command != HelpCommand.class
                    && command.getAnnotation(Command.class).name().equals(first)) {
                CommandSpec root = CommandSpec.wrapWithoutInspection(new Main()).name("gerdy");
                return new CommandLine(root.addSubcommand(first, one(command, args)));
            }
        }
        return new CommandLine(new Main());
    }

    /** One command. Where it runs the shipped rules, they start while the command is looked over. */
    private static CommandLine one(Class<?> command, String... args) {
        boolean others = Stream.of(args).anyMatch(arg -> arg.startsWith(KnowledgeOption.RULES));
        if (others || !KnowledgeCommand.class.isAssignableFrom(command)) {
            return new CommandLine(command);
        }
        Supplier<Gerdy> engine = LateralKnee.start();
        CommandLine line = new CommandLine(command);
        KnowledgeCommand knowing = line.getCommand();
        knowing.knowledge().underWay(engine);
        return line;
    }

    private static int told(Exception exception, PrintWriter err) throws Exception {
        if (exception instanceof MendableException mendable) {
            mendable.problems().forEach((Problem problem) -> err.println(problem));
            return 1;
        }
        if (exception instanceof KnowledgeException) {
            err.println("The knowledge base cannot be used: " + exception.getMessage());
            return 1;
        }
        throw exception;
    }

    @Override
    public void run() {
        spec.commandLine().usage(spec.commandLine().getOut());
    }

    /** The program's version, from its jar. */
    static final class Version implements CommandLine.IVersionProvider {
        @Override
        public String[] getVersion() {
            String version = Main.class.getPackage().getImplementationVersion();
            return new String[] {"gerdy " + (version == null ? "(built from source)" : version)};
        }
    }
}
