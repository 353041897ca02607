package org.gerdy.cli.intake;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicBoolean;
import org.gerdy.cli.intake.Screen.Entry;
import org.jline.terminal.Attributes;
import org.jline.terminal.Terminal;
import org.jline.utils.InfoCmp.Capability;
import org.jline.utils.NonBlockingReader;

/** The intake on a terminal: one screen at a time, keys only. */
final class TerminalFront implements Front {
    private static final int CTRL_C = 3;
    private static final int CTRL_D = 4;
    private static final int BACKSPACE = 8;
    private static final int ESCAPE = 27;
    private static final int DELETE = 127;
    private static final long ESCAPE_MILLIS = 30;

    private final Terminal terminal;
    private final Attributes before;
    private final boolean emphasis;
    private final AtomicBoolean closed = new AtomicBoolean();
    private final StringBuilder typed = new StringBuilder();
    private Screen shown = new Screen(List.of(), "", List.of(), List.of(), Entry.key(), "");
    private int page;
    private boolean more;
    private boolean seen;

    /**
     * @param emphasis whether headings may be bold
     */
    TerminalFront(Terminal terminal, boolean emphasis) {
        this.terminal = terminal;
        this.emphasis = emphasis;
        this.before = terminal.enterRawMode();
        Attributes raw = terminal.getAttributes();
        raw.setLocalFlag(Attributes.LocalFlag.ISIG, false);
        terminal.setAttributes(raw);
        terminal.puts(Capability.enter_ca_mode);
        terminal.handle(Terminal.Signal.WINCH, signal -> draw());
    }

    @Override
    public Optional<String> ask(Screen screen) {
        synchronized (this) {
            shown = screen;
            typed.setLength(0);
            page = 0;
            seen = false;
        }
        draw();
        NonBlockingReader keys = terminal.reader();
        try {
            while (true) {
                int key = keys.read();
                if (key < 0 || key == CTRL_C || key == CTRL_D) {
                    return Optional.empty();
                }
                if (key == ESCAPE && keys.peek(ESCAPE_MILLIS) >= 0) {
                    swallow(keys);
                    continue;
                }
                Optional<String> done = press(key);
                if (done.isPresent()) {
                    return done;
                }
                draw();
            }
        } catch (IOException e) {
            return Optional.empty();
        }
    }

    /** Arrow and function keys send several characters; none of them means anything here. */
    private static void swallow(NonBlockingReader keys) throws IOException {
        int key = keys.read(ESCAPE_MILLIS);
        while (key >= 0 && !Character.isLetter(key) && key != '~') {
            key = keys.read(ESCAPE_MILLIS);
        }
        if (key == 'O') {
            keys.read(ESCAPE_MILLIS);
        }
    }

    private synchronized Optional<String> press(int key) {
        Entry entry = shown.entry();
        boolean enter = key == '\r' || key == '\n';
        if (key == ESCAPE) {
            boolean empty = typed.isEmpty();
            typed.setLength(0);
            return entry.kind() == Entry.Kind.TEXT ? Optional.of("") : empty ? Optional.of("b") : Optional.empty();
        }
        if (key == BACKSPACE || key == DELETE) {
            typed.setLength(Math.max(0, typed.length() - 1));
            return Optional.empty();
        }
        if (enter) {
            return typed.isEmpty() && entry.kind() != Entry.Kind.TEXT
                    ? entry.kind() == Entry.Kind.KEY && more ? turned() : Optional.of("")
                    : Optional.of(typed.toString());
        }
        if (key < ' ') {
            return Optional.empty();
        }
        String letter = Character.toString(key);
        if (entry.kind() == Entry.Kind.TEXT) {
            typed.append(letter);
            return Optional.empty();
        }
        if (entry.kind() == Entry.Kind.NUMBER) {
            if (typed.isEmpty() && Character.isLetter(key)) {
                return Optional.of(letter);
            }
            typed.append(letter);
            return Optional.empty();
        }
        if (key == ' ') {
            return more ? turned() : Optional.empty();
        }
        if (entry.choices() > 0 && Character.isDigit(key)) {
            typed.append(letter);
            boolean settled = Integer.parseInt(typed.toString()) * 10 > entry.choices();
            return settled ? Optional.of(typed.toString()) : Optional.empty();
        }
        return entry.whole() && !seen && key == 'n' ? turned() : Optional.of(letter);
    }

    private Optional<String> turned() {
        page++;
        return Optional.empty();
    }

    private synchronized void draw() {
        if (closed.get()) {
            return;
        }
        int columns = Math.max(20, terminal.getWidth() == 0 ? 80 : terminal.getWidth());
        int rows = Math.max(8, terminal.getHeight() == 0 ? 24 : terminal.getHeight());
        Layout.Drawn drawn = Layout.of(shown, columns, rows, page, typed.toString());
        page = drawn.page();
        more = drawn.more();
        seen |= drawn.last();
        terminal.puts(Capability.cursor_home);
        List<String> lines = new ArrayList<>(drawn.lines());
        for (int i = 0; i < lines.size(); i++) {
            boolean bold = emphasis && i == drawn.heading();
            if (bold) {
                terminal.puts(Capability.enter_bold_mode);
            }
            terminal.writer().print(lines.get(i));
            if (bold) {
                terminal.puts(Capability.exit_attribute_mode);
            }
            terminal.puts(Capability.clr_eol);
            if (i + 1 < lines.size()) {
                terminal.writer().print("\r\n");
            }
        }
        terminal.puts(Capability.clr_eos);
        terminal.flush();
    }

    @Override
    public void tell(String message, boolean understood) {
        if (!understood) {
            terminal.puts(Capability.bell);
        }
    }

    @Override
    public void close() {
        if (closed.compareAndSet(false, true)) {
            terminal.puts(Capability.exit_ca_mode);
            terminal.flush();
            terminal.setAttributes(before);
            try {
                terminal.close();
            } catch (IOException e) {
                // The terminal is gone; there is nothing to give back.
            }
        }
    }
}
