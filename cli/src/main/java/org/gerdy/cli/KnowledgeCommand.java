package org.gerdy.cli;

import java.io.PrintWriter;
import java.util.concurrent.Callable;
import org.gerdy.engine.Gerdy;
import org.gerdy.engine.casefile.MendableException;
import picocli.CommandLine;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

/** A command that runs a knowledge base. */
public abstract class KnowledgeCommand implements Callable<Integer> {
    @Mixin
    private KnowledgeOption knowledge = new KnowledgeOption();

    @Spec
    private CommandSpec spec = CommandSpec.create();

    /** Which knowledge base. */
    protected final KnowledgeOption knowledge() {
        return knowledge;
    }

    /** The engine over it. */
    protected final Gerdy gerdy() throws MendableException {
        return knowledge.gerdy();
    }

    /** Where results go. */
    protected final PrintWriter out() {
        return spec.commandLine().getOut();
    }

    /** Where faults go. */
    protected final PrintWriter err() {
        return spec.commandLine().getErr();
    }

    /** The command as parsed. */
    protected final CommandLine commandLine() {
        return spec.commandLine();
    }
}
