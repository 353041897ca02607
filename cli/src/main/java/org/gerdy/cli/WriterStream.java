package org.gerdy.cli;

import java.io.OutputStream;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;

/** UTF-8 bytes onto a command's own writer. Hand it whole characters at a time; closing leaves the writer open. */
final class WriterStream extends OutputStream {
    private final PrintWriter writer;

    WriterStream(PrintWriter writer) {
        this.writer = writer;
    }

    @Override
    public void write(int one) {
        write(new byte[] {(byte) one}, 0, 1);
    }

    @Override
    public void write(byte[] bytes, int from, int length) {
        writer.write(new String(bytes, from, length, StandardCharsets.UTF_8));
    }

    @Override
    public void flush() {
        writer.flush();
    }
}
