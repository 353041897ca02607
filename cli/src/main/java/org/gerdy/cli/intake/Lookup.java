package org.gerdy.cli.intake;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gerdy.cli.intake.Screen.Paragraph;
import org.gerdy.engine.intake.IntakeSession;
import org.gerdy.engine.vocabulary.Catalogue;

/** A list something is picked from by its number: sections, questions, addressees of a letter. */
final class Lookup {
    private final Catalogue catalogue;
    private final Finder finder;
    private final Views views;
    private String heading = "";
    private List<String> items = List.of();
    private boolean questions;

    Lookup(Catalogue catalogue, Views views) {
        this.catalogue = catalogue;
        this.finder = new Finder(catalogue);
        this.views = views;
    }

    void sections() {
        heading = "Jump to a section";
        items = finder.sections();
        questions = false;
    }

    void section(String section) {
        heading = section.replace('-', ' ');
        items = finder.of(section);
        questions = true;
    }

    void recipients(List<String> ids) {
        heading = "To whom does the letter go?";
        items = ids;
        questions = false;
    }

    /** Looks for questions by words; what to say when there is none. */
    Optional<String> search(String words) {
        List<String> found = finder.matching(words);
        if (found.isEmpty()) {
            return Optional.of(finder.nothing(words));
        }
        heading = found.size() + (found.size() == 1 ? " question matches '" : " questions match '") + words + "'";
        items = found;
        questions = true;
        return Optional.empty();
    }

    String heading() {
        return heading;
    }

    int size() {
        return items.size();
    }

    List<String> keys(Order... orders) {
        List<String> keys =
                new ArrayList<>(List.of("1-" + items.size() + " choice" + (items.size() > 9 ? ", Enter" : "")));
        keys.addAll(Order.list(orders));
        return keys;
    }

    /** The item of this number; empty when it is none. */
    Optional<String> picked(String text) {
        return text.matches("[0-9]{1,3}")
                ? Optional.of(Integer.parseInt(text))
                        .filter(one -> one >= 1 && one <= items.size())
                        .map(one -> items.get(one - 1))
                : Optional.empty();
    }

    List<Paragraph> body(IntakeSession session) {
        List<Paragraph> body = new ArrayList<>();
        for (int i = 0; i < items.size(); i++) {
            body.add(
                    questions
                            ? views.listed(
                                    i + 1, catalogue.finding(items.get(i)).orElseThrow(), session)
                            : new Paragraph(
                                    String.format("%3d  ", i + 1), items.get(i).replace('-', ' ')));
        }
        return body;
    }
}
