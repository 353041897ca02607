package org.gerdy.cli.bench;

import com.sun.management.OperatingSystemMXBean;
import java.io.BufferedReader;
import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.lang.management.ManagementFactory;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import org.gerdy.cli.Main;

/** The program in a process of its own that writes down at its end what it took. */
public final class Watched {
    private Watched() {}

    /**
     * What a run took.
     *
     * @param clock seconds from start to end
     * @param processor seconds on all cores together
     * @param peak most memory of the whole process at once, in MB; 0 where the system does not tell
     */
    record Took(double clock, double processor, double peak) {}

    /** Runs the program on {@code args} after the first, and writes processor seconds and peak memory to the file {@code args[0]}. */
    public static void main(String[] args) {
        Path told = Path.of(args[0]);
        Runtime.getRuntime().addShutdownHook(new Thread(() -> tell(told)));
        Main.main(Arrays.copyOfRange(args, 1, args.length));
    }

    private static void tell(Path file) {
        long nanos = ((OperatingSystemMXBean) ManagementFactory.getOperatingSystemMXBean()).getProcessCpuTime();
        try {
            Files.writeString(file, nanos / 1e9 + " " + peak());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Linux keeps the high water mark of the resident memory. */
    private static double peak() throws IOException {
        Path status = Path.of("/proc/self/status");
        if (!Files.isReadable(status)) {
            return 0;
        }
        for (String line : Files.readAllLines(status)) {
            if (line.startsWith("VmHWM:")) {
                return Double.parseDouble(line.replaceAll("[^0-9]", "")) / 1024;
            }
        }
        return 0;
    }

    /** Runs the program with these options of the virtual machine and drops what it prints. */
    static Took run(List<String> options, String... args) throws IOException, InterruptedException {
        return run(options, line -> {}, args);
    }

    /** The same, each printed line handed on and kept nowhere. */
    static Took run(List<String> options, Consumer<String> printed, String... args)
            throws IOException, InterruptedException {
        Path told = Files.createTempFile("gerdy-watched", ".txt");
        try {
            List<String> command = new ArrayList<>();
            command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
            command.addAll(options);
            command.addAll(List.of("-cp", classPath(), Watched.class.getName(), told.toString()));
            command.addAll(List.of(args));
            long start = System.nanoTime();
            Process process = new ProcessBuilder(command)
                    .redirectError(ProcessBuilder.Redirect.INHERIT)
                    .start();
            try (BufferedReader out = process.inputReader(StandardCharsets.UTF_8)) {
                out.lines().forEach(printed);
            }
            int code = process.waitFor();
            double clock = (System.nanoTime() - start) / 1e9;
            if (code != 0) {
                throw new IllegalStateException("Exit code " + code + " of " + command);
            }
            String[] parts = Files.readString(told).split(" ");
            return new Took(clock, Double.parseDouble(parts[0]), Double.parseDouble(parts[1]));
        } finally {
            Files.deleteIfExists(told);
        }
    }

    private static String classPath() {
        return Arrays.stream(System.getProperty("java.class.path").split(File.pathSeparator))
                .map(entry -> Path.of(entry).toAbsolutePath().toString())
                .collect(Collectors.joining(File.pathSeparator));
    }
}
