package org.gerdy.cli;

import java.io.IOException;
import me.tongfei.progressbar.ConsoleProgressBarConsumer;
import me.tongfei.progressbar.ProgressBar;
import me.tongfei.progressbar.ProgressBarBuilder;
import me.tongfei.progressbar.ProgressBarStyle;
import org.gerdy.engine.audit.Watcher;
import org.jline.terminal.spi.SystemStream;
import org.jline.terminal.spi.TerminalProvider;

/** A bar for long work on the terminal behind standard error, gone when the work is done. */
final class Bars {
    private static final int REFRESH_MS = 250;

    private Bars() {}

    /** Shows bars when standard error is a terminal, nothing otherwise. */
    static Watcher onTerminal() {
        return onTerminal(false);
    }

    /** The same for work whose results come out along the way: bars only when they go elsewhere. */
    static Watcher besideResults(boolean toFile) {
        return onTerminal(!toFile);
    }

    private static Watcher onTerminal(boolean resultsOnOutput) {
        try {
            TerminalProvider terminal = TerminalProvider.load("jni");
            if (!terminal.isSystemStream(SystemStream.Error)
                    || (resultsOnOutput && terminal.isSystemStream(SystemStream.Output))) {
                return Watcher.NOBODY;
            }
            int columns = terminal.systemStreamWidth(SystemStream.Error);
            return (what, steps) -> bar(what, steps, columns > 0 ? columns : Page.WIDTH);
        } catch (IOException | LinkageError e) {
            // No terminal can be asked on this machine; the work goes on unwatched.
            return Watcher.NOBODY;
        }
    }

    private static Watcher.Steps bar(String what, long steps, int columns) {
        ProgressBar bar = new ProgressBarBuilder()
                .setTaskName(what)
                .setInitialMax(steps)
                .setStyle(ProgressBarStyle.ASCII)
                .setUpdateIntervalMillis(REFRESH_MS)
                .setConsumer(new ConsoleProgressBarConsumer(System.err, columns - 1))
                .clearDisplayOnFinish()
                .build();
        return new Watcher.Steps() {
            @Override
            public void done(long more) {
                bar.stepBy(more);
            }

            @Override
            public void close() {
                bar.close();
            }
        };
    }
}
