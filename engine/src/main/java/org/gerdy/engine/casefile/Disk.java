package org.gerdy.engine.casefile;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;

/** How a file is replaced. */
public interface Disk {
    /** Replaces the file's content so that at any moment either the old or the new content stands there, whole. */
    void replace(Path file, byte[] bytes) throws IOException;

    /**
     * Write beside, flush, rename, flush the directory. The name beside is always the same, so that what a power cut
     * left is written over; whoever shares the file takes turns.
     */
    Disk REAL = (file, bytes) -> replace(file, ".saving", bytes);

    /** The same for a file that several programs may be writing at once: each has a name of its own beside it. */
    Disk SHARED = (file, bytes) -> replace(file, "." + Long.toString(System.nanoTime(), 36) + ".saving", bytes);

    private static void replace(Path file, String beside, byte[] bytes) throws IOException {
        Path written = file.resolveSibling("." + file.getFileName() + beside);
        try {
            try (FileChannel out = FileChannel.open(
                    written,
                    StandardOpenOption.CREATE,
                    StandardOpenOption.WRITE,
                    StandardOpenOption.TRUNCATE_EXISTING)) {
                ByteBuffer left = ByteBuffer.wrap(bytes);
                while (left.hasRemaining()) {
                    out.write(left);
                }
                out.force(true);
            }
            keepPermissions(file, written);
            try {
                Files.move(written, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
            } catch (AtomicMoveNotSupportedException e) {
                Files.move(written, file, StandardCopyOption.REPLACE_EXISTING);
            }
        } catch (IOException e) {
            Files.deleteIfExists(written);
            throw e;
        }
        flush(file.resolveSibling("."));
    }

    private static void keepPermissions(Path file, Path written) throws IOException {
        if (Files.exists(file) && Files.getFileStore(file).supportsFileAttributeView("posix")) {
            Files.setPosixFilePermissions(written, Files.getPosixFilePermissions(file));
        }
    }

    /** Where directories cannot be opened, the rename is as durable as the system makes it. */
    private static void flush(Path directory) {
        try (FileChannel opened = FileChannel.open(directory, StandardOpenOption.READ)) {
            opened.force(true);
        } catch (IOException e) {
            // Windows does not open directories; its rename is in the journal already.
        }
    }
}
