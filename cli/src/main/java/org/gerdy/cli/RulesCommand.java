package org.gerdy.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.KnowledgeCheck;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** Lists and shows the knowledge base. */
@Command(
        name = "rules",
        mixinStandardHelpOptions = true,
        description = "The knowledge base as a clinician reads it.",
        subcommands = {
            RulesCommand.ListCommand.class,
            RulesCommand.CardCommand.class,
            RulesCommand.CheckKnowledgeCommand.class,
            RulesCommand.PagesCommand.class
        },
        footer = {"", "Examples:", "  gerdy rules list flags", "  gerdy rules card possible-fracture"})
final class RulesCommand implements Runnable {
    @Spec
    private CommandSpec spec = CommandSpec.create();

    @Override
    public void run() {
        spec.commandLine().usage(spec.commandLine().getOut());
    }

    /** Lists one kind of thing. */
    @Command(
            name = "list",
            mixinStandardHelpOptions = true,
            description =
                    "List rules, red flags, conditions, findings, referral thresholds, scores, factors, measures or sources.",
            footer = {"", "Example:", "  gerdy rules list conditions"})
    static final class ListCommand extends KnowledgeCommand {
        @Parameters(
                paramLabel = "KIND",
                arity = "0..1",
                description =
                        "rules, flags, conditions, findings, referrals, scores, factors, measures or sources; rules by default.")
        private String kind = "rules";

        @Override
        public Integer call() throws MendableException {
            KnowledgeBase base = gerdy().knowledge();
            Optional<List<String>> lines = new Cards(base).list(kind);
            PrintWriter out = out();
            if (lines.isEmpty()) {
                err().println("'" + kind + "' is not a kind; use one of: " + String.join(", ", Cards.KINDS) + ".");
                return 2;
            }
            lines.get().forEach(out::println);
            return 0;
        }
    }

    /** Shows one thing in full. */
    @Command(
            name = "card",
            mixinStandardHelpOptions = true,
            description =
                    "Show a rule, red flag, condition, finding, referral threshold, score, factor, measure or source in full.",
            footer = {"", "Example:", "  gerdy rules card iliotibial-band-syndrome"})
    static final class CardCommand extends KnowledgeCommand {
        @Parameters(paramLabel = "ID", arity = "1..*", description = "Ids, as listed.")
        private List<String> ids = List.of();

        @Override
        public Integer call() throws MendableException {
            Cards cards = new Cards(gerdy().knowledge());
            int code = 0;
            for (String id : ids) {
                Optional<String> card = cards.card(id);
                if (card.isPresent()) {
                    out().print(card.get());
                } else {
                    err().println(cards.unknown(id));
                    code = 1;
                }
            }
            return code;
        }
    }

    /** Looks the whole knowledge base over. */
    @Command(
            name = "check",
            mixinStandardHelpOptions = true,
            description = "Look a knowledge base over: what cannot be right, what contradicts, what lies unused.",
            footer = {
                "",
                "Exit code 0 without faults, 1 with. Lines that start with 'look:' are worth a look, not faults.",
                "",
                "Example:",
                "  gerdy rules check --rules my-rules"
            })
    static final class CheckKnowledgeCommand extends KnowledgeCommand {
        @Override
        public Integer call() throws MendableException {
            KnowledgeBase base = gerdy().knowledge();
            PrintWriter out = out();
            List<KnowledgeCheck.Remark> remarks =
                    KnowledgeCheck.of(base, knowledge().files());
            remarks.forEach(out::println);
            long faults = remarks.stream().filter(KnowledgeCheck.Remark::fault).count();
            out.println("Knowledge base " + base.identity().version() + ": "
                    + base.rules().size() + " rules, "
                    + base.redFlags().size() + " red flag rows, "
                    + base.conditions().size() + " conditions, "
                    + base.evidence().rows().size() + " evidence rows, "
                    + base.catalogue().findings().size()
                    + " findings; " + faults + (faults == 1 ? " fault." : " faults."));
            return faults == 0 ? 0 : 1;
        }
    }

    /** Writes the cards as Markdown pages. */
    @Command(
            name = "pages",
            mixinStandardHelpOptions = true,
            description = "Write every card as Markdown pages, one a kind.",
            footer = {"", "Example:", "  gerdy rules pages docs/knowledge"})
    static final class PagesCommand extends KnowledgeCommand {
        @Parameters(paramLabel = "DIR", description = "Where to write; made if it is not there.")
        private Path directory = Path.of(".");

        @Override
        public Integer call() throws MendableException {
            KnowledgePages pages = new KnowledgePages(gerdy().knowledge());
            try {
                Files.createDirectories(directory);
                for (Map.Entry<String, String> page : pages.pages().entrySet()) {
                    Files.writeString(directory.resolve(page.getKey()), page.getValue());
                }
            } catch (IOException e) {
                throw new MendableException(
                        directory.toString(),
                        "The pages could not be written: " + e.getMessage() + ". Choose another place.");
            }
            out().println(pages.pages().size() + " pages written to " + directory + ".");
            return 0;
        }
    }
}
