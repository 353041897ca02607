package org.gerdy.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.gerdy.cli.audit.HtmlReport;
import org.gerdy.cli.audit.JsonReport;
import org.gerdy.cli.audit.JunitReport;
import org.gerdy.cli.audit.Report;
import org.gerdy.cli.audit.TextReport;
import org.gerdy.engine.Gerdy;
import org.gerdy.engine.audit.Against;
import org.gerdy.engine.audit.Audit;
import org.gerdy.engine.audit.AuditCase;
import org.gerdy.engine.audit.CaseSet;
import org.gerdy.engine.audit.Drafts;
import org.gerdy.engine.audit.Mutants;
import org.gerdy.engine.audit.Mutation;
import org.gerdy.engine.audit.SafetyProof;
import org.gerdy.engine.audit.SignOffLog;
import org.gerdy.engine.audit.Watcher;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.knowledge.KnowledgeFiles;
import org.gerdy.engine.plan.PlanTables;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Holds a knowledge base to its cases, compares it with another, tries slips in it, and keeps the record of sign-offs. */
@Command(
        name = "audit",
        mixinStandardHelpOptions = true,
        description = "Run cases against what they expect; show what a changed rule does; sign it off.",
        footer = {
            "",
            "Exit code 0 when every case holds and nothing changed, 1 when a case file, the log or a knowledge base is"
                    + " faulty, 2 for wrong usage, 3 when a case differs, a conclusion changed or an invariant broke.",
            "",
            "Examples:",
            "  gerdy audit cases",
            "  gerdy audit cases --rules my-rules --against git:main --html audit.html",
            "  gerdy audit cases --rules my-rules --log sign-off.jsonl --sign-off 'lead clinician' \\",
            "      --reason 'Lower fever limit'",
            "  gerdy audit --verify-log sign-off.jsonl"
        })
final class AuditCommand extends KnowledgeCommand {
    private static final int PROOF_LIMIT = 60_000;
    private static final long SEED = 1;

    @Parameters(
            paramLabel = "CASES",
            arity = "0..*",
            description = "Case files, directories or patterns; .jsonl files hold one case a line.")
    private List<String> cases = new ArrayList<>();

    @Option(
            names = "--against",
            paramLabel = "PLACE",
            description = "Compare with this knowledge base: a directory, a zip or jar, git:REVISION, or 'shipped'.")
    private @Nullable String against;

    @Option(names = "--mutate", description = "Try every single slip and list those no case would notice.")
    private boolean mutate;

    @Option(
            names = "--draft",
            paramLabel = "DIR",
            description = "With --mutate: write draft cases that would notice the survivors, for a clinician to read.")
    private @Nullable Path draft;

    @Option(names = "--prove", description = "Visit every combination of answers of each red flag row.")
    private boolean prove;

    @Option(
            names = "--prove-limit",
            paramLabel = "N",
            description = "Combinations visited in full at a time (default: ${DEFAULT-VALUE}).")
    private int proveLimit = PROOF_LIMIT;

    @Option(names = "--everything", description = "List every rule, survivor and change.")
    private boolean everything;

    @Option(names = "--json", paramLabel = "FILE", description = "Also write the audit as JSON.")
    private @Nullable Path json;

    @Option(names = "--junit", paramLabel = "FILE", description = "Also write JUnit XML.")
    private @Nullable Path junit;

    @Option(names = "--html", paramLabel = "FILE", description = "Also write a page to read or print.")
    private @Nullable Path html;

    @Option(names = "--log", paramLabel = "FILE", description = "The sign-off log to add to.")
    private @Nullable Path log;

    @Option(names = "--sign-off", paramLabel = "ROLE", description = "Sign off, by role and never by name.")
    private @Nullable String role;

    @Option(names = "--reason", paramLabel = "TEXT", description = "Why the change was made; needed to sign off.")
    private @Nullable String reason;

    @Option(names = "--verify-log", paramLabel = "FILE", description = "Check every link of a sign-off log and stop.")
    private @Nullable Path verify;

    @Option(
            names = "--last-hash",
            paramLabel = "HASH",
            description = "With --verify-log: the last hash as noted elsewhere, which shows entries cut off the end.")
    private @Nullable String lastHash;

    @Override
    public Integer call() throws MendableException {
        PrintWriter out = out();
        PrintWriter err = err();
        if (verify != null) {
            return verified(out, verify);
        }
        if (cases.isEmpty()) {
            err.println(
                    "Name at least one case; an audit over no cases would prove nothing. See 'gerdy audit --help'.");
            return 2;
        }
        boolean signs = role != null || reason != null || log != null;
        if (signs && (role == null || role.isBlank() || reason == null || reason.isBlank() || log == null)) {
            err.println("To sign off give --log FILE, --sign-off ROLE and --reason TEXT together.");
            return 2;
        }
        if (draft != null && !mutate) {
            err.println("--draft writes cases for the slips --mutate finds; give both.");
            return 2;
        }
        KnowledgeFiles files = knowledge().files();
        Gerdy gerdy = gerdy();
        List<AuditCase> read = CaseSet.read(gerdy.reader(), cases);
        PlanTables tables = gerdy.careTables().plan();
        Watcher watcher = Bars.onTerminal();
        Audit audit = Audit.run(gerdy, read, watcher);
        Optional<Against> compared = Optional.empty();
        if (against != null) {
            compared = Optional.of(Against.run(other(against), new Against.Side(gerdy, files), read, watcher));
        }
        Optional<Mutation> mutation = mutate
                ? Optional.of(
                        Mutation.run(gerdy.knowledge(), tables, Mutants.of(gerdy.knowledge(), tables), read, watcher))
                : Optional.empty();
        Optional<SafetyProof> proof = prove
                ? Optional.of(SafetyProof.run(gerdy.knowledge(), tables, proveLimit, SEED, watcher))
                : Optional.empty();
        Report report = new Report(gerdy.knowledge(), audit, compared, mutation, proof);
        out.print(TextReport.of(report, everything));
        write(json, JsonReport.of(report));
        write(junit, JunitReport.of(report));
        write(html, HtmlReport.of(report));
        if (draft != null && mutation.isPresent()) {
            drafts(out, Drafts.of(gerdy.knowledge(), tables, mutation.get().survivors(), read, watcher), draft);
        }
        if (log != null && role != null && reason != null) {
            signOff(out, report, log, role, reason);
        }
        return report.foundDifference() ? 3 : 0;
    }

    private static Against.Side other(String place) throws MendableException {
        if (place.equals("shipped")) {
            return new Against.Side(org.gerdy.rules.LateralKnee.gerdy(), org.gerdy.rules.LateralKnee.files());
        }
        KnowledgeFiles files = KnowledgeOption.files(place);
        return new Against.Side(KnowledgeOption.gerdy(files), files);
    }

    private int verified(PrintWriter out, Path file) throws MendableException {
        if (!Files.exists(file)) {
            throw new MendableException(file.toString(), "There is no such log; check the path.");
        }
        SignOffLog.Verified found = new SignOffLog(file).verify();
        if (lastHash != null && !lastHash.equals(found.lastHash())) {
            throw new MendableException(
                    file.toString(),
                    "The last hash is " + found.lastHash() + ", not the one noted: entries were cut off or added.");
        }
        out.println(found.entries().size() + (found.entries().size() == 1 ? " entry" : " entries")
                + ", every link holds. Last hash " + found.lastHash() + ".");
        String running = gerdy().knowledge().identity().sha256();
        if (!found.entries().isEmpty()) {
            SignOffLog.SignOff last =
                    found.entries().get(found.entries().size() - 1).signOff();
            out.println(
                    last.after().equals(running)
                            ? "The knowledge base in use is the one signed off last, by the " + last.role() + "."
                            : "The knowledge base in use is not the one signed off last: it is " + running + ", signed"
                                    + " off is " + last.after() + ".");
        }
        return 0;
    }

    private static void signOff(PrintWriter out, Report report, Path log, String role, String reason)
            throws MendableException {
        SignOffLog record = new SignOffLog(log);
        List<SignOffLog.Entry> entries = record.verify().entries();
        String before = report.against()
                .map(found -> found.before().sha256())
                .orElse(
                        entries.isEmpty()
                                ? ""
                                : entries.get(entries.size() - 1).signOff().after());
        String hash = record.append(new SignOffLog.SignOff(
                Instant.now().truncatedTo(ChronoUnit.SECONDS),
                role,
                before,
                report.knowledge().identity().sha256(),
                report.knowledge().identity().version(),
                report.audit().results().size(),
                report.sentence(),
                reason));
        out.println("Signed off by the " + role + " as entry " + (entries.size() + 1) + " of " + log + ".");
        out.println("Note the last hash elsewhere: " + hash);
    }

    private static void drafts(PrintWriter out, Drafts.Drafted drafted, Path directory) throws MendableException {
        int count = 0;
        for (Map.Entry<String, List<String>> file : drafted.files().entrySet()) {
            write(directory.resolve(file.getKey()), String.join("\n", file.getValue()) + "\n");
            count += file.getValue().size();
        }
        out.println(count + " draft cases written to " + directory + ". They pin what the knowledge base says now;"
                + " read them before they count. For " + drafted.untold().size()
                + " slips no telling answers were found.");
    }

    private static void write(@Nullable Path file, String text) throws MendableException {
        if (file == null) {
            return;
        }
        try {
            Path parent = file.toAbsolutePath().getParent();
            if (parent != null) {
                Files.createDirectories(parent);
            }
            Files.writeString(file, text);
        } catch (IOException e) {
            throw new MendableException(
                    file.toString(), "Could not be written: " + e.getMessage() + ". Choose another place.");
        }
    }
}
