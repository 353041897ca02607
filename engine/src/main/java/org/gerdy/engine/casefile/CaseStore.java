package org.gerdy.engine.casefile;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Arrays;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * One case file, held by one window. Every save is whole or not at all: written beside, flushed to the disk, renamed over
 * the old file, the directory flushed. A file that did not load, or that another program changed meanwhile, is never
 * overwritten. A small file beside the case, {@code .NAME.intake}, carries the lock and where the intake stood.
 */
public final class CaseStore implements AutoCloseable {
    private final Path file;
    private final Path beside;
    private final CaseReader reader;
    private final Disk disk;
    private final FileChannel channel;
    private final FileLock lock;
    private Optional<CaseFile> held = Optional.empty();
    private byte @Nullable [] onDisk;

    private CaseStore(Path file, Path beside, CaseReader reader, Disk disk, FileChannel channel, FileLock lock) {
        this.file = file;
        this.beside = beside;
        this.reader = reader;
        this.disk = disk;
        this.channel = channel;
        this.lock = lock;
    }

    /**
     * Takes hold of a file, there or still to be made. Throws {@link MendableException} when another window has it, when
     * it has faults, or when nothing can be written beside it.
     */
    public static CaseStore open(Path named, CaseReader reader) throws MendableException {
        return open(named, reader, Disk.REAL);
    }

    /** As {@link #open(Path, CaseReader)}, saving by this disk. */
    public static CaseStore open(Path named, CaseReader reader, Disk disk) throws MendableException {
        String name = named.toString();
        Path file;
        try {
            file = Files.exists(named) ? named.toRealPath() : named.toAbsolutePath();
        } catch (IOException e) {
            throw new MendableException(name, "The file could not be found: " + told(e) + ".");
        }
        Path directory = file.getParent();
        if (directory == null || !Files.isDirectory(directory)) {
            throw new MendableException(name, "There is no directory " + directory + "; make it first.");
        }
        if (Files.isDirectory(file)) {
            throw new MendableException(name, "This is a directory; name a case file.");
        }
        Path beside = directory.resolve("." + file.getFileName() + ".intake");
        CaseStore store = locked(name, file, beside, reader, disk);
        try {
            store.load(name);
            return store;
        } catch (MendableException e) {
            store.close();
            throw e;
        }
    }

    private static CaseStore locked(String name, Path file, Path beside, CaseReader reader, Disk disk)
            throws MendableException {
        try {
            while (true) {
                FileChannel channel = FileChannel.open(
                        beside, StandardOpenOption.CREATE, StandardOpenOption.READ, StandardOpenOption.WRITE);
                FileLock lock = tried(channel);
                if (lock == null) {
                    channel.close();
                    throw new MendableException(
                            name, "Another window has this case open. Finish there, or close that window first.");
                }
                if (stillThere(beside, channel)) {
                    return new CaseStore(file, beside, reader, disk, channel, lock);
                }
                channel.close();
            }
        } catch (IOException e) {
            throw new MendableException(
                    name, "Answers cannot be kept here: " + told(e) + ". Choose a place that can be written.");
        }
    }

    private static @Nullable FileLock tried(FileChannel channel) throws IOException {
        try {
            return channel.tryLock();
        } catch (OverlappingFileLockException e) {
            return null;
        }
    }

    /**
     * The window before may have taken its file away between our opening and our locking it. Our file is lengthened
     * twice, and each time the file of that name has to show the new length. The name is not opened again: closing it
     * would give the lock back on POSIX systems.
     */
    private static boolean stillThere(Path beside, FileChannel channel) throws IOException {
        long end = channel.size();
        try {
            for (int longer = 1; longer <= 2; longer++) {
                channel.write(ByteBuffer.wrap(new byte[longer]), end);
                if (Files.size(beside) != end + longer) {
                    return false;
                }
            }
            return true;
        } catch (NoSuchFileException e) {
            return false;
        } finally {
            channel.truncate(end);
        }
    }

    private void load(String name) throws MendableException {
        try {
            byte[] bytes = Files.readAllBytes(file);
            held = Optional.of(reader.read(name, bytes));
            onDisk = bytes;
        } catch (NoSuchFileException e) {
            held = Optional.empty();
        } catch (IOException e) {
            throw new MendableException(name, "The file could not be read: " + told(e) + ".");
        }
    }

    /** The file, links followed. */
    public Path file() {
        return file;
    }

    /** The case as last read or saved; empty while the file is still to be made. */
    public Optional<CaseFile> caseFile() {
        return held;
    }

    /**
     * Puts a case on the disk, whole. When this returns, it survives the power going off. Throws
     * {@link MendableException} when it could not be done; the old file then stands untouched and what was to be saved
     * can be tried again.
     */
    public void save(CaseFile next) throws MendableException {
        byte[] known = onDisk;
        byte[] bytes = bytesOf(next);
        try {
            byte[] there = Files.exists(file) ? Files.readAllBytes(file) : null;
            if (!Arrays.equals(there, known)) {
                throw new MendableException(
                        file.toString(),
                        "Another program changed this file while it was open here. Look at it before saving.");
            }
            disk.replace(file, bytes);
        } catch (IOException e) {
            throw new MendableException(file.toString(), "Not saved: " + told(e) + ".");
        }
        held = Optional.of(next);
        onDisk = bytes;
    }

    /**
     * Puts a case that cannot be saved in its place into another file, whole, and returns where it is. Throws
     * {@link MendableException} when there is a file already or it could not be done.
     */
    public Path saveElsewhere(Path other, CaseFile next) throws MendableException {
        Path target = other.toAbsolutePath();
        if (Files.exists(target)) {
            throw new MendableException(target.toString(), "There is a file of that name already; choose another.");
        }
        try {
            disk.replace(target, bytesOf(next));
        } catch (IOException e) {
            throw new MendableException(target.toString(), "Not saved there: " + told(e) + ".");
        }
        return target;
    }

    private byte[] bytesOf(CaseFile next) throws MendableException {
        byte[] known = onDisk;
        return known == null || held.isEmpty() ? CaseWriter.write(next) : CaseWriter.update(known, held.get(), next);
    }

    /** What was kept beside the case about where the intake stood; empty at first. */
    public String progress() {
        try {
            byte[] bytes = new byte[(int) Math.min(channel.size(), 64 * 1024)];
            channel.read(ByteBuffer.wrap(bytes), 0);
            return new String(bytes, StandardCharsets.UTF_8);
        } catch (IOException e) {
            return "";
        }
    }

    /** Keeps where the intake stands. A convenience: failing to keep it loses no answer and is not told. */
    public void keepProgress(String text) {
        try {
            byte[] bytes = text.getBytes(StandardCharsets.UTF_8);
            channel.write(ByteBuffer.wrap(bytes), 0);
            channel.truncate(bytes.length);
        } catch (IOException e) {
            // The answers are in the case file; only the place in the order is forgotten.
        }
    }

    private static String told(IOException e) {
        if (e instanceof AccessDeniedException || String.valueOf(e.getMessage()).contains("Read-only")) {
            return "this place is read-only";
        }
        if (String.valueOf(e.getMessage()).contains("No space left")) {
            return "the disk is full";
        }
        String reason = e instanceof FileSystemException system ? system.getReason() : e.getMessage();
        return reason == null || reason.isBlank() ? e.getClass().getSimpleName() : reason;
    }

    /** Lets go of the file. The file beside the case goes too, unless it still says where the intake stood. */
    @Override
    public void close() {
        try {
            if (channel.isOpen()) {
                if (progress().isBlank()) {
                    Files.deleteIfExists(beside);
                }
                lock.release();
                channel.close();
            }
        } catch (IOException e) {
            // The system lets go of the lock when the program ends.
        }
    }
}
