package org.gerdy.cli.intake;

import java.util.ArrayDeque;
import java.util.ArrayList;
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
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.CaseStore;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.intake.IntakeSession;
import org.gerdy.engine.intake.Suggestion;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.vocabulary.FindingDefinition;
import org.gerdy.engine.vocabulary.Kind;

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
    private final Finder finder;
    private final boolean plain;
    private final Deque<String> trail = new ArrayDeque<>();
    private Mode mode = Mode.QUESTION;
    private Optional<String> current = Optional.empty();
    private Optional<Side> turned = Optional.empty();
    private List<String> listed = List.of();
    private List<Flag> arrived = List.of();
    private String listHeading = "";
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
        this.finder = new Finder(knowledge.catalogue());
        this.plain = plain;
        goOn();
    }

    /** Takes up where another window stopped: the questions put off, and the one that was shown. */
    void resume(String progress) {
        for (String line : progress.lines().toList()) {
            String[] parts = line.split(" ", 2);
            if (parts.length == 2 && knowledge.catalogue().finding(parts[1]).isPresent()) {
                if (parts[0].equals("later")) {
                    session.putOff(parts[1]);
                } else if (parts[0].equals("at")) {
                    current = Optional.of(parts[1])
                            .filter(id -> !session.observations().isKnown(id));
                }
            }
        }
        if (current.isEmpty() || session.setAside().contains(current.get())) {
            goOn();
        }
        mode = current.isPresent() ? Mode.QUESTION : Mode.OFFER;
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
        return keeping.waiting().map(Pending::told);
    }

    Screen screen() {
        return switch (mode) {
            case QUESTION -> question();
            case FLAG ->
                screen(
                        arrived.size() == 1 ? "RED FLAG" : "RED FLAGS",
                        views.raised(arrived),
                        Order.list(Order.GO_ON, Order.BACK, Order.LETTER, Order.PICTURE, Order.QUIT),
                        Entry.key());
            case WHY ->
                screen(
                        "Why this is asked",
                        views.why(session, finding(current.orElseThrow())),
                        Order.list(Order.GO_ON),
                        Entry.key());
            case PICTURE -> screen("The picture so far", views.picture(session), Order.list(Order.GO_ON), Entry.key());
            case HELP -> screen("Keys", views.help(), Order.list(Order.GO_ON), Entry.key());
            case SECTIONS -> {
                List<Paragraph> body = new ArrayList<>();
                for (int i = 0; i < listed.size(); i++) {
                    body.add(new Paragraph(
                            String.format("%3d  ", i + 1), listed.get(i).replace('-', ' ')));
                }
                yield screen("Jump to a section", body, Order.list(Order.GO_ON), Entry.choice(listed.size()));
            }
            case LIST -> {
                List<Paragraph> body = new ArrayList<>();
                for (int i = 0; i < listed.size(); i++) {
                    body.add(views.listed(i + 1, finding(listed.get(i)), session));
                }
                yield screen(listHeading, body, Order.list(Order.GO_ON, Order.SEARCH), Entry.choice(listed.size()));
            }
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
                                new Paragraph("", message),
                                Paragraph.BLANK,
                                new Paragraph(
                                        "Waiting: ",
                                        keeping.waiting().map(Pending::told).orElse("nothing") + "."),
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
        return new Screen(views.status(session), heading, body, keys, entry, mode == Mode.TROUBLE ? "" : message);
    }

    private Screen question() {
        FindingDefinition finding = finding(current.orElseThrow());
        Optional<Side> side = side(finding);
        List<Order> orders = new ArrayList<>();
        if (finding.kind() == Kind.YES_NO) {
            orders.addAll(List.of(Order.YES, Order.NO, Order.UNABLE));
        }
        if (side.isPresent()) {
            orders.add(Order.OTHER);
        }
        if (session.observations().recorded(finding.id()).isPresent()) {
            orders.add(Order.ERASE);
        }
        orders.addAll(List.of(
                Order.LATER,
                Order.BACK,
                Order.JUMP,
                Order.SEARCH,
                Order.REMARK,
                Order.WHY,
                Order.PICTURE,
                Order.FINISH,
                Order.HELP,
                Order.QUIT));
        String heading = finding.section().replace('-', ' ') + (finding.topic().isEmpty() ? "" : ", " + finding.topic())
                + " (" + finding.id() + ")";
        return screen(
                heading,
                views.question(session, finding, side.map(this::named), plain),
                orders.stream().map(Order::shown).toList(),
                Views.entry(finding));
    }

    private String named(Side side) {
        boolean painful = session.visit().side().each().contains(side);
        return side.word() + (painful ? ", painful" : ", the other side");
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
            case QUESTION -> answerOrOrder(text);
            case WHY, PICTURE, HELP -> mode = current.isPresent() ? Mode.QUESTION : Mode.OFFER;
            case FLAG -> flag(text);
            case SECTIONS -> section(text);
            case LIST -> chosen(text);
            case SEARCH -> search(text);
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
            current.ifPresent(id -> text.append("at ").append(id).append('\n'));
        }
        keeping.progress(mode == Mode.CLOSED && session.setAside().isEmpty() ? "" : text.toString());
    }

    private void answerOrOrder(String text) {
        FindingDefinition finding = finding(current.orElseThrow());
        Optional<Order> order = finding.choices().contains(text) ? Optional.empty() : Order.of(text);
        if (finding.kind() == Kind.YES_NO && order.filter(Desk::isState).isPresent()) {
            answer(finding, side(finding), text);
        } else if (order.isPresent()) {
            common(order.get(), finding);
        } else if (text.isEmpty()) {
            notUnderstood("");
        } else if (!named(text)) {
            answer(finding, side(finding), text);
        }
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
        if (parts.length == 1) {
            visit(parts[0]);
        } else {
            String before = current.orElse("");
            visit(parts[0]);
            answer(meant.get(), side(meant.get()), parts[1].strip());
            if (!understood && !before.isEmpty()) {
                current = Optional.of(before);
            }
        }
        return true;
    }

    private void common(Order order, FindingDefinition finding) {
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
                    save(new Pending(
                            session.without(finding.id()), Optional.of(finding.id()), finding.id() + " not asked"));
                }
            }
            case BACK -> back();
            case JUMP -> {
                listed = finder.sections();
                mode = Mode.SECTIONS;
            }
            case SEARCH -> mode = Mode.SEARCH;
            case REMARK -> mode = Mode.REMARK;
            case WHY -> mode = Mode.WHY;
            case PICTURE -> mode = Mode.PICTURE;
            case HELP -> mode = Mode.HELP;
            case FINISH -> {
                current = Optional.empty();
                mode = Mode.OFFER;
            }
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
            Typed typed = Typed.read(knowledge, finding, text);
            CaseFile changed = session.caseFile();
            for (Map.Entry<Optional<Side>, Answer> one : typed.answers().entrySet()) {
                Optional<Side> on = finding.perSide() ? one.getKey().or(() -> side) : Optional.empty();
                changed = session.with(changed, finding.id(), on, one.getValue());
            }
            if (!typed.trials().isEmpty()) {
                changed = session.noted(changed, typed.trials());
            }
            String told = finding.id() + " "
                    + typed.answers().entrySet().stream()
                            .map(one -> (finding.perSide()
                                            ? one.getKey()
                                                    .or(() -> side)
                                                    .map(which -> which.word() + " ")
                                                    .orElse("")
                                            : "")
                                    + one.getValue().text())
                            .collect(Collectors.joining(" "));
            save(new Pending(changed, Optional.of(finding.id()), told));
        } catch (MendableException e) {
            notUnderstood(e.problems().get(0).message());
        }
    }

    /** To the disk first; only then to the next screen. */
    private void save(Pending what) {
        Optional<String> fault = keeping.keep(what);
        if (fault.isPresent()) {
            message = fault.get();
            mode = Mode.TROUBLE;
            return;
        }
        message = "Kept: " + what.told() + ".";
        if (what.finding().isEmpty()) {
            session.noteTaken(what.caseFile());
            mode = current.isPresent() ? Mode.QUESTION : Mode.OFFER;
            return;
        }
        Map<String, String> before = raisedLevels(session.assessment());
        Assessment after = session.proceed(what.caseFile(), what.finding().get());
        arrived = after.raisedFlags().stream()
                .filter(flag -> !level(flag).equals(before.get(flag.id())))
                .toList();
        turned = Optional.empty();
        FindingDefinition finding = finding(what.finding().get());
        boolean moreSides = session.observations().recorded(finding.id()).isPresent()
                && !session.observations().isKnown(finding.id())
                && session.sides(finding).stream().anyMatch(side -> session.observations()
                        .recorded(finding.id())
                        .flatMap(recorded -> recorded.on(side))
                        .isEmpty());
        if (!moreSides) {
            leave(finding.id());
        }
        mode = arrived.isEmpty() ? mode : Mode.FLAG;
    }

    /** Each raised flag with its urgency. */
    private static Map<String, String> raisedLevels(Assessment assessment) {
        return assessment.raisedFlags().stream().collect(Collectors.toMap(Flag::id, Desk::level));
    }

    private static String level(Flag flag) {
        return flag.urgency().orElseThrow().word();
    }

    private void leave(String finding) {
        trail.remove(finding);
        trail.push(finding);
        goOn();
    }

    private void goOn() {
        turned = Optional.empty();
        current = session.next().best().map(Suggestion::finding);
        mode = current.isPresent() ? Mode.QUESTION : Mode.OFFER;
    }

    private void visit(String finding) {
        turned = Optional.empty();
        current = Optional.of(finding);
        mode = Mode.QUESTION;
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
            case GO_ON -> mode = current.isPresent() ? Mode.QUESTION : Mode.OFFER;
            case BACK -> back();
            case LETTER -> letter();
            case PICTURE -> mode = Mode.PICTURE;
            case QUIT -> mode = Mode.CLOSED;
            default -> notUnderstood("A red flag is raised: g goes on, t writes the letter, b goes back, q quits.");
        }
    }

    private void section(String text) {
        Optional<Integer> number = number(text);
        if (number.isPresent()) {
            String section = listed.get(number.get() - 1);
            listHeading = section.replace('-', ' ');
            listed = finder.of(section);
            mode = Mode.LIST;
        } else {
            goBack(text);
        }
    }

    private void chosen(String text) {
        Optional<Integer> number = number(text);
        if (number.isPresent()) {
            visit(listed.get(number.get() - 1));
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
            mode = current.isPresent() ? Mode.QUESTION : Mode.OFFER;
        } else if (Order.of(text).equals(Optional.of(Order.QUIT))) {
            mode = Mode.CLOSED;
        } else {
            notUnderstood("Type a number of the list, g to go back, or q to quit.");
        }
    }

    private Optional<Integer> number(String text) {
        return text.matches("[0-9]{1,3}")
                ? Optional.of(Integer.parseInt(text)).filter(one -> one >= 1 && one <= listed.size())
                : Optional.empty();
    }

    private void search(String text) {
        if (text.isEmpty()) {
            mode = current.isPresent() ? Mode.QUESTION : Mode.OFFER;
            return;
        }
        List<String> found = finder.matching(text);
        if (found.isEmpty()) {
            notUnderstood(finder.nothing(text));
            return;
        }
        listed = found;
        listHeading = found.size() + (found.size() == 1 ? " question matches '" : " questions match '") + text + "'";
        mode = Mode.LIST;
    }

    private void remark(String text) {
        mode = current.isPresent() ? Mode.QUESTION : Mode.OFFER;
        if (!text.isEmpty()) {
            String line = current.map(id -> id + ": ").orElse("") + text;
            save(new Pending(session.noted(session.caseFile(), line), Optional.empty(), "remark"));
        }
    }

    private void offer(String text) {
        switch (Order.of(text).orElse(Order.HELP)) {
            case FINISH, QUIT -> mode = Mode.CLOSED;
            case AGAIN -> {
                session.takeUpAgain();
                goOn();
                message = mode == Mode.OFFER ? "There is nothing left to take up." : "";
            }
            case BACK -> back();
            case JUMP -> {
                listed = finder.sections();
                mode = Mode.SECTIONS;
            }
            case SEARCH -> mode = Mode.SEARCH;
            case REMARK -> mode = Mode.REMARK;
            case LETTER -> letter();
            default -> {
                if (!named(text)) {
                    notUnderstood("f finishes, a takes up what was put off, s searches, q quits.");
                }
            }
        }
    }

    private void letter() {
        Optional<String> told = keeping.letter(session);
        if (told.isPresent()) {
            message = told.get();
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
