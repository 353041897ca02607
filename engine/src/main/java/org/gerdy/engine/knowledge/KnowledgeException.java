package org.gerdy.engine.knowledge;

/** A knowledge base that cannot be used as it stands. The message names the file and line and says what to mend. */
public final class KnowledgeException extends RuntimeException {
    private static final long serialVersionUID = 1L;

    /** A fault of the knowledge base. */
    public KnowledgeException(String message) {
        super(message);
    }

    /** A fault of the knowledge base, with what brought it to light. */
    public KnowledgeException(String message, Throwable cause) {
        super(message, cause);
    }
}
