package org.gerdy.cli.intake;

import java.util.List;
import java.util.Map;
import org.gerdy.cli.document.CareDocuments;
import org.gerdy.cli.document.Rendering;
import org.gerdy.engine.intake.IntakeSession;

/** The referral letter of {@code gerdy letter}, about the visit as it stands. */
final class Letters {
    private final IntakeSession session;
    private final CareDocuments documents;
    private final Map<String, String> recipients;

    Letters(IntakeSession session) {
        this.session = session;
        this.documents = new CareDocuments(session.gerdy());
        this.recipients = documents.recipients();
    }

    /** Whom a letter can go to. */
    List<String> recipients() {
        return List.copyOf(recipients.keySet());
    }

    /** The letter to this recipient, one of {@link #recipients()}. */
    String to(String recipient) {
        return Rendering.text(documents.letter(
                session.gerdy().visit(session.caseFile(), session.visit()),
                session.caseFile(),
                session.observations(),
                recipients.getOrDefault(recipient, recipient)));
    }
}
