package org.gerdy.cli.bench;

/** Does nothing: what any Java program takes to start and end. */
public final class EmptyProgram {
    private EmptyProgram() {}

    /** Does nothing. */
    public static void main(String[] args) {}
}
