package org.gerdy.cli.intake;

import java.nio.file.Path;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import org.gerdy.cli.intake.Keeping.Pending;
import org.gerdy.cli.intake.Screen.Entry;
import org.gerdy.cli.intake.Screen.Paragraph;
import org.gerdy.engine.assessment.Assessment;
import org.gerdy.engine.assessment.Flag;
import org.gerdy.engine.casefile.Answer;
import org.gerdy.engine.casefile.CaseStore;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.intake.IntakeSession;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.vocabulary.FindingDefinition;
import org.gerdy.engine.vocabulary.Kind;
import org.gerdy.engine.vocabulary.Urgency;

/**
 * The intake as a conversation: shows a screen, takes what was typed, moves on. Knows no terminal. An answer is on the
 * disk before this moves to the next screen.
 */
final class Desk {
    private enum Mode {
        QUESTION,
        FLAG,
        WHY,
        PICTURE,
        HELP,
        SECTIONS,
        LIST,
        SEARCH,
        LETTER,
        REMARK,
        OFFER,
        TROUBLE,
        ELSEWHERE,
        CLOSED
    }

    private final IntakeSession session;
    private final Keeping keeping;
    private final KnowledgeBase knowledge;
    private final Views views;
    private final Asking asking;
    private final Answering answering;
    private final Lookup lookup;
    private final Letters letters;
    private final boolean plain;
    private final Deque<List<String>> trail = new ArrayDeque<>();
    private Mode mode = Mode.QUESTION;
    /** What is asked: one question, or several that stand on one screen; none when nothing is left to ask. */
    private List<String> current = List.of();

    private Optional<Side> turned = Optional.empty();
    private List<Flag> arrived = List.of();
    private boolean puttingOff;
    private String fault = "";
    private String message = "";
    private boolean understood = true;

    /**
     * @param plain whether screens are read out line by line
     * @param recorder is told every answer as {@code finding answer}, once it is on the disk
     */
    Desk(IntakeSession session, CaseStore store, boolean plain, Consumer<String> recorder) {
        this.session = session;
        this.keeping = new Keeping(store, recorder);
        this.knowledge = session.gerdy().knowledge();
        this.views = new Views(knowledge);
        this.asking = new Asking(session, views, plain);
        this.answering = new Answering(session);
        this.lookup = new Lookup(knowledge.catalogue(), views);
        this.letters = new Letters(session);
        this.plain = plain;
        goOn();
    }

    /** Takes up where another window stopped: the questions put off, and the one that was shown. */
    void resume(String progress) {
        Optional<String> at = Optional.empty();
        for (String line : progress.lines().toList()) {
            String[] parts = line.split(" ", 2);
            if (parts.length == 2 && knowledge.catalogue().finding(parts[1]).isPresent()) {
                if (parts[0].equals("later")) {
                    session.putOff(parts[1]);
                } else if (parts[0].equals("at")) {
                    at = Optional.of(parts[1]);
                }
            }
        }
        goOn();
        at.filter(id -> !session.observations().isKnown(id)
                        && !session.setAside().contains(id)
                        && !current.contains(id))
                .ifPresent(id -> visit(List.of(id)));
    }

    boolean closed() {
        return mode == Mode.CLOSED;
    }

    /** Whether the last thing typed meant something here. */
    boolean understood() {
        return understood;
    }

    /** The one-line answer to the last thing typed. */
    String message() {
        return message;
    }

    /** Whether some answer could not be put on the disk and waits. */
    Optional<String> unsaved() {
        return keeping.waiting().map(Pending::line);
    }

    Screen screen() {
        return switch (mode) {
            case QUESTION ->
                current.size() == 1
                        ? asking.one(finding(current.get(0)), side(finding(current.get(0))), message)
                        : asking.several(current.stream().map(this::finding).toList(), message);
            case FLAG ->
                screen(
                        arrived.size() == 1 ? "RED FLAG" : "RED FLAGS",
                        views.raised(arrived),
                        Order.list(Order.GO_ON, Order.BACK, Order.LETTER, Order.PICTURE, Order.QUIT),
                        Entry.key());
            case WHY ->
                screen(
                        "Why this is asked",
                        current.size() == 1
                                ? views.why(session, finding(current.get(0)))
                                : views.whyTogether(session, current),
                        Order.list(Order.GO_ON),
                        Entry.key());
            case PICTURE -> screen("The picture so far", views.picture(session), Order.list(Order.GO_ON), Entry.key());
            case HELP -> screen("Keys", views.help(), Order.list(Order.GO_ON), Entry.key());
            case SECTIONS, LETTER ->
                screen(lookup.heading(), lookup.body(session), lookup.keys(Order.GO_ON), Entry.choice(lookup.size()));
            case LIST ->
                screen(
                        lookup.heading(),
                        lookup.body(session),
                        lookup.keys(Order.GO_ON, Order.SEARCH),
                        Entry.choice(lookup.size()));
            case SEARCH ->
                screen(
                        "Search a question",
                        List.of(new Paragraph("", "Words of the question, the test or its id. Empty goes back.")),
                        List.of(),
                        Entry.text("Search: "));
            case REMARK ->
                screen(
                        "Remark",
                        List.of(new Paragraph("", "Kept in the notes of this visit. Never a name. Empty goes back.")),
                        List.of(),
                        Entry.text("Remark: "));
            case OFFER ->
                screen(
                        "Nothing more to ask",
                        views.offer(session),
                        Order.list(
                                Order.FINISH,
                                Order.AGAIN,
                                Order.BACK,
                                Order.JUMP,
                                Order.SEARCH,
                                Order.REMARK,
                                Order.LETTER,
                                Order.QUIT),
                        Entry.key());
            case TROUBLE ->
                screen(
                        "The last answer is not on the disk",
                        List.of(
                                new Paragraph("", fault),
                                Paragraph.BLANK,
                                new Paragraph(
                                        "Waiting: ",
                                        keeping.waiting().map(Pending::line).orElse("nothing") + "."),
                                new Paragraph(
                                        "",
                                        "Every answer before it is safe in " + keeping.file()
                                                + ". Make room or mend the place, then try again; or keep the whole"
                                                + " case in another file.")),
                        List.of("a again", "k keep elsewhere", "q quit without it"),
                        Entry.key());
            case ELSEWHERE ->
                screen(
                        "Keep the case elsewhere",
                        List.of(new Paragraph("", "Path of a new file. Empty goes back.")),
                        List.of(),
                        Entry.text("File: "));
            case CLOSED -> screen("Closed", List.of(), List.of(), Entry.key());
        };
    }

    private Screen screen(String heading, List<Paragraph> body, List<String> keys, Entry entry) {
        return new Screen(views.status(session), heading, body, keys, entry, message);
    }

    /** The side being answered: the one turned to, else the first still without an answer. */
    private Optional<Side> side(FindingDefinition finding) {
        List<Side> sides = session.sides(finding);
        if (sides.isEmpty()) {
            return Optional.empty();
        }
        return turned.or(() -> sides.stream()
                        .filter(side -> session.observations()
                                .recorded(finding.id())
                                .flatMap(recorded -> recorded.on(side))
                                .isEmpty())
                        .findFirst())
                .or(() -> Optional.of(sides.get(0)));
    }

    private FindingDefinition finding(String id) {
        return knowledge.catalogue().finding(id).orElseThrow();
    }

    /** Takes what was typed: one key, or a line. */
    void take(String typed) {
        understood = true;
        message = "";
        String text = typed.strip();
        switch (mode) {
            case QUESTION -> {
                if (current.size() == 1) {
                    answerOrOrder(text);
                } else {
                    answerTogether(text);
                }
            }
            case WHY, PICTURE, HELP -> goBackToQuestion();
            case FLAG -> flag(text);
            case SECTIONS -> section(text);
            case LIST -> chosen(text);
            case SEARCH -> search(text);
            case LETTER -> letter(text);
            case REMARK -> remark(text);
            case OFFER -> offer(text);
            case TROUBLE -> trouble(text);
            case ELSEWHERE -> elsewhere(text);
            case CLOSED -> {}
        }
        keepProgress();
    }

    private void keepProgress() {
        StringBuilder text = new StringBuilder();
        session.setAside().forEach(id -> text.append("later ").append(id).append('\n'));
        if (!session.setAside().isEmpty() || mode == Mode.QUESTION) {
            current.stream()
                    .limit(1)
                    .forEach(id -> text.append("at ").append(id).append('\n'));
        }
        keeping.progress(mode == Mode.CLOSED && session.setAside().isEmpty() ? "" : text.toString());
    }

    private void answerOrOrder(String text) {
        FindingDefinition finding = finding(current.get(0));
        Optional<Order> order = finding.choices().contains(text) ? Optional.empty() : Order.of(text);
        if (finding.kind() == Kind.YES_NO && order.filter(Desk::isState).isPresent()) {
            answer(finding, side(finding), text);
        } else if (order.isPresent()) {
            single(order.get(), finding);
        } else if (text.isEmpty() || (text.length() == 1 && finding.kind() == Kind.YES_NO)) {
            notUnderstood("");
        } else if (!named(text)) {
            answer(finding, side(finding), text);
        }
    }

    /** Several questions on one screen: none of them, the number of one that is there, or any other order. */
    private void answerTogether(String text) {
        boolean putOff = puttingOff;
        puttingOff = false;
        Optional<String> one = text.matches("[0-9]{1,2}") ? numbered(Integer.parseInt(text)) : Optional.empty();
        Optional<Order> order = text.equalsIgnoreCase("none") ? Optional.of(Order.NO) : Order.of(text);
        if (one.isPresent() && putOff) {
            session.putOff(one.get());
            message = "Put off: " + one.get() + ".";
            leave(one.get());
        } else if (one.isPresent()) {
            String id = one.get();
            if (session.sides(finding(id)).size() > 1) {
                visit(List.of(id));
            } else {
                save(answering.all(List.of(id), Answer.State.PRESENT));
            }
        } else if (order.isEmpty()) {
            if (text.isEmpty() || !named(text)) {
                notUnderstood("n records 'no' for each; a number says yes to that one; h shows the keys.");
            }
        } else {
            switch (order.get()) {
                case NO -> save(answering.all(current, Answer.State.ABSENT));
                case LATER -> {
                    if (putOff) {
                        current.forEach(session::putOff);
                        message = "Put off: " + current.size() + " questions.";
                        leave(current);
                    } else {
                        puttingOff = true;
                        message = "Later: a number puts that one off, l again all of them.";
                    }
                }
                case ONE_BY_ONE -> {
                    session.takeApart(current);
                    visit(current.subList(0, 1));
                }
                case YES, UNABLE, OTHER, ERASE ->
                    notUnderstood("Type the number of the one that is there, or i to answer one by one.");
                default -> common(order.get());
            }
        }
    }

    private Optional<String> numbered(int number) {
        return number >= 1 && number <= current.size() ? Optional.of(current.get(number - 1)) : Optional.empty();
    }

    private static boolean isState(Order order) {
        return order == Order.YES || order == Order.NO || order == Order.UNABLE;
    }

    /** {@code finding answer}: answers any question by its id. */
    private boolean named(String text) {
        String[] parts = text.split("[\\s:=]+", 2);
        Optional<FindingDefinition> meant = knowledge.catalogue().finding(parts[0]);
        if (meant.isEmpty()) {
            return false;
        }
        turned = Optional.empty();
        List<String> before = current;
        visit(List.of(parts[0]));
        if (parts.length > 1) {
            answer(meant.get(), side(meant.get()), parts[1].strip());
            if (!understood && !before.isEmpty()) {
                current = before;
            }
        }
        return true;
    }

    private void single(Order order, FindingDefinition finding) {
        switch (order) {
            case UNABLE, LATER -> {
                session.putOff(finding.id());
                message = order == Order.UNABLE
                        ? "Put off: only a yes-or-no test records 'unable'; this stays open."
                        : "Put off: " + finding.id() + ".";
                leave(finding.id());
            }
            case OTHER -> {
                Optional<Side> side = side(finding);
                turned = side.map(Side::other);
                if (side.isEmpty()) {
                    notUnderstood("This question has no sides.");
                }
            }
            case ERASE -> {
                if (session.observations().recorded(finding.id()).isEmpty()) {
                    notUnderstood("Nothing is recorded here.");
                } else {
                    save(answering.erased(finding.id()));
                }
            }
            default -> common(order);
        }
    }

    /** What means the same on every question, and where nothing is left to ask. */
    private void common(Order order) {
        switch (order) {
            case BACK -> back();
            case JUMP -> {
                lookup.sections();
                mode = Mode.SECTIONS;
            }
            case SEARCH -> mode = Mode.SEARCH;
            case REMARK -> mode = Mode.REMARK;
            case WHY -> mode = Mode.WHY;
            case PICTURE -> mode = Mode.PICTURE;
            case HELP -> mode = Mode.HELP;
            case FINISH -> {
                current = List.of();
                mode = Mode.OFFER;
            }
            case LETTER -> chooseRecipient();
            case QUIT -> mode = Mode.CLOSED;
            default -> notUnderstood("");
        }
    }

    private void notUnderstood(String why) {
        understood = false;
        message = why.isEmpty() ? "That key does nothing here; h shows what does." : why;
    }

    private void answer(FindingDefinition finding, Optional<Side> side, String text) {
        try {
            save(answering.typed(finding, side, text));
        } catch (MendableException e) {
            String first = text.split("\\s+", 2)[0];
            Optional<String> near = text.contains(" ") ? knowledge.catalogue().nearest(first) : Optional.empty();
            notUnderstood(e.problems().get(0).message()
                    + near.map(id -> " Did you mean '" + id + "'?").orElse(""));
        }
    }

    /** To the disk first; only then to the next screen. */
    private void save(Pending what) {
        Optional<String> wrong = keeping.keep(what);
        if (wrong.isPresent()) {
            fault = wrong.get();
            message = mode == Mode.TROUBLE ? "Still not saved." : "";
            mode = Mode.TROUBLE;
            return;
        }
        boolean several = what.findings().size() > 1;
        message = several && !plain
                ? "Kept: no to each of the " + what.findings().size() + "."
                : what.told().stream().map(told -> "Kept: " + told + ".").collect(Collectors.joining("\n"));
        if (what.findings().isEmpty()) {
            session.noteTaken(what.caseFile());
            goBackToQuestion();
            return;
        }
        Map<String, Urgency> before = raisedLevels(session.assessment());
        what.findings().forEach(id -> session.proceed(what.caseFile(), id));
        arrived = session.assessment().raisedFlags().stream()
                .filter(flag -> Optional.ofNullable(before.get(flag.id()))
                        .map(was -> level(flag).compareTo(was) > 0)
                        .orElse(true))
                .toList();
        turned = Optional.empty();
        if (several || !moreSides(finding(what.findings().get(0)))) {
            leave(what.findings());
        }
        mode = arrived.isEmpty() ? mode : Mode.FLAG;
    }

    /** Whether a side of it still waits for its answer. */
    private boolean moreSides(FindingDefinition finding) {
        return session.observations().recorded(finding.id()).isPresent()
                && !session.observations().isKnown(finding.id())
                && session.sides(finding).stream().anyMatch(side -> session.observations()
                        .recorded(finding.id())
                        .flatMap(recorded -> recorded.on(side))
                        .isEmpty());
    }

    /** Each raised flag with its urgency. */
    private static Map<String, Urgency> raisedLevels(Assessment assessment) {
        return assessment.raisedFlags().stream().collect(Collectors.toMap(Flag::id, Desk::level));
    }

    private static Urgency level(Flag flag) {
        return flag.urgency().orElseThrow();
    }

    private void leave(String finding) {
        leave(List.of(finding));
    }

    private void leave(List<String> findings) {
        trail.remove(findings);
        trail.push(findings);
        goOn();
    }

    private void goOn() {
        visit(session.next().together());
    }

    private void visit(List<String> findings) {
        turned = Optional.empty();
        puttingOff = false;
        current = findings;
        goBackToQuestion();
    }

    private void goBackToQuestion() {
        mode = current.isEmpty() ? Mode.OFFER : Mode.QUESTION;
    }

    private void back() {
        if (trail.isEmpty()) {
            notUnderstood("This is where you started.");
        } else {
            visit(trail.pop());
        }
    }

    private void flag(String text) {
        switch (Order.of(text).orElse(Order.HELP)) {
            case GO_ON -> goBackToQuestion();
            case BACK -> back();
            case LETTER -> chooseRecipient();
            case PICTURE -> mode = Mode.PICTURE;
            case QUIT -> mode = Mode.CLOSED;
            default -> {
                // A recorded intake holds answers only; one by its id says as well that the intake goes on.
                if (text.isEmpty() || !named(text)) {
                    notUnderstood("A red flag is raised: g goes on, t writes the letter, b goes back, q quits.");
                } else if (!understood) {
                    mode = Mode.FLAG;
                }
            }
        }
    }

    private void section(String text) {
        Optional<String> section = lookup.picked(text);
        if (section.isPresent()) {
            lookup.section(section.get());
            mode = Mode.LIST;
        } else {
            goBack(text);
        }
    }

    private void chosen(String text) {
        Optional<String> finding = lookup.picked(text);
        if (finding.isPresent()) {
            visit(List.of(finding.get()));
        } else if (Order.of(text).equals(Optional.of(Order.SEARCH))) {
            mode = Mode.SEARCH;
        } else {
            goBack(text);
        }
    }

    private void goBack(String text) {
        if (text.isEmpty()
                || Order.of(text)
                        .filter(Set.of(Order.GO_ON, Order.BACK)::contains)
                        .isPresent()) {
            goBackToQuestion();
        } else if (Order.of(text).equals(Optional.of(Order.QUIT))) {
            mode = Mode.CLOSED;
        } else {
            notUnderstood("Type a number of the list, g to go back, or q to quit.");
        }
    }

    private void search(String text) {
        if (text.isEmpty()) {
            goBackToQuestion();
            return;
        }
        Optional<String> nothing = lookup.search(text);
        if (nothing.isPresent()) {
            notUnderstood(nothing.get());
        } else {
            mode = Mode.LIST;
        }
    }

    private void remark(String text) {
        goBackToQuestion();
        if (!text.isEmpty()) {
            save(answering.remark((current.size() == 1 ? current.get(0) + ": " : "") + text));
        }
    }

    private void offer(String text) {
        Optional<Order> order = Order.of(text);
        switch (order.orElse(Order.HELP)) {
            case FINISH, QUIT -> mode = Mode.CLOSED;
            case AGAIN -> {
                session.takeUpAgain();
                goOn();
                message = mode == Mode.OFFER ? "There is nothing left to take up." : "";
            }
            case BACK, JUMP, SEARCH, REMARK -> common(order.orElseThrow());
            case LETTER -> chooseRecipient();
            default -> {
                if (text.isEmpty() || !named(text)) {
                    notUnderstood("f finishes, a takes up what was put off, s searches, q quits.");
                }
            }
        }
    }

    private void chooseRecipient() {
        lookup.recipients(letters.recipients());
        mode = Mode.LETTER;
    }

    private void letter(String text) {
        Optional<String> recipient = lookup.picked(text)
                .or(() -> Optional.of(text.replace(' ', '-')).filter(letters.recipients()::contains));
        if (recipient.isEmpty()) {
            goBack(text);
            return;
        }
        Optional<Path> written = keeping.letter(recipient.get(), letters.to(recipient.get()));
        if (written.isPresent()) {
            message = "The letter is in " + written.get() + ".";
            mode = Mode.CLOSED;
        } else {
            notUnderstood("The letter could not be written beside the case; the answers are safe.");
        }
    }

    private void trouble(String text) {
        switch (text.toLowerCase(Locale.ROOT)) {
            case "a", "again" -> save(keeping.waiting().orElseThrow());
            case "k", "keep elsewhere" -> mode = Mode.ELSEWHERE;
            case "q", "quit", "quit without it" -> mode = Mode.CLOSED;
            default -> {
                understood = false;
                message = "Not saved yet. a tries again, k keeps the case elsewhere, q quits without this answer.";
            }
        }
    }

    private void elsewhere(String text) {
        message = keeping.elsewhere(text);
        mode = keeping.waiting().isEmpty() ? Mode.CLOSED : Mode.TROUBLE;
    }
}
