package org.gerdy.cli.intake;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.intake.IntakeSession;
import org.gerdy.engine.vocabulary.FindingDefinition;
import org.gerdy.engine.vocabulary.Kind;

/** The screen of one question, or of several that stand on one screen, with the keys that mean something there. */
final class Asking {
    private final IntakeSession session;
    private final Views views;
    private final boolean plain;

    Asking(IntakeSession session, Views views, boolean plain) {
        this.session = session;
        this.views = views;
        this.plain = plain;
    }

    Screen one(FindingDefinition finding, Optional<Side> side, String message) {
        List<String> keys = new ArrayList<>();
        if (finding.kind() == Kind.YES_NO) {
            keys.addAll(Order.list(Order.YES, Order.NO, Order.UNABLE));
        }
        if (finding.kind() == Kind.CHOICE) {
            int choices = finding.choices().size();
            keys.add("1-" + choices + " choice" + (choices > 9 ? ", Enter" : ""));
        }
        if (side.isPresent()) {
            keys.add(Order.OTHER.shown());
        }
        if (session.observations().recorded(finding.id()).isPresent()) {
            keys.add(Order.ERASE.shown());
        }
        keys.addAll(common());
        String topic = finding.topic().isEmpty() ? "" : ", " + finding.topic();
        return new Screen(
                views.status(session),
                finding.section().replace('-', ' ') + topic + " (" + finding.id() + ")",
                views.question(session, finding, side.map(this::named), plain),
                keys,
                Views.entry(finding),
                message);
    }

    Screen several(List<FindingDefinition> findings, String message) {
        int count = findings.size();
        List<String> keys =
                new ArrayList<>(List.of("n none of these", "1-" + count + " yes, that one", Order.ONE_BY_ONE.shown()));
        keys.addAll(common());
        return new Screen(
                views.status(session),
                count == 2 ? "Is either of these 2 present?" : "Is any of these " + count + " present?",
                views.together(session, findings, this::named),
                keys,
                Screen.Entry.several(count),
                message);
    }

    /** With a flag raised a letter can be written from here. */
    private List<String> common() {
        List<String> keys = new ArrayList<>(Order.list(
                Order.LATER,
                Order.BACK,
                Order.JUMP,
                Order.SEARCH,
                Order.REMARK,
                Order.WHY,
                Order.PICTURE,
                Order.FINISH));
        if (!session.assessment().raisedFlags().isEmpty()) {
            keys.add(Order.LETTER.shown());
        }
        keys.addAll(Order.list(Order.HELP, Order.QUIT));
        return keys;
    }

    private String named(Side side) {
        boolean painful = session.visit().side().each().contains(side);
        return side.word() + (painful ? ", painful" : ", the other side");
    }
}
