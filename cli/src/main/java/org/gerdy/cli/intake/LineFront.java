package org.gerdy.cli.intake;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.PrintWriter;
import java.util.List;
import java.util.Optional;
import org.gerdy.cli.Page;
import org.gerdy.cli.intake.Screen.Paragraph;

/** The intake as plain lines: for pipes, scripts and screen readers. Nothing is drawn, moved or coloured. */
final class LineFront implements Front {
    private final BufferedReader in;
    private final PrintWriter out;
    private final boolean echo;
    private List<String> status = List.of();
    private String keys = "";
    private int misunderstood;

    /**
     * @param echo whether what is read is written out, for input nobody sees
     */
    LineFront(BufferedReader in, PrintWriter out, boolean echo) {
        this.in = in;
        this.out = out;
        this.echo = echo;
    }

    @Override
    public Optional<String> ask(Screen screen) {
        Page page = new Page();
        for (int i = 0; i < screen.status().size(); i++) {
            if (i >= status.size() || !status.get(i).equals(screen.status().get(i))) {
                page.hanging("", screen.status().get(i));
            }
        }
        status = screen.status();
        page.blank();
        page.hanging("", screen.heading());
        for (Paragraph paragraph : screen.body()) {
            if (!paragraph.equals(Paragraph.BLANK)) {
                page.hanging(paragraph.lead(), Math.min(4, paragraph.lead().length()), paragraph.text());
            }
        }
        String offered = String.join(", ", screen.keys());
        if (!offered.isEmpty() && !offered.equals(keys)) {
            page.hanging("Keys: ", 2, offered);
            keys = offered;
        }
        out.print(page);
        out.print(screen.entry().prompt().isEmpty() ? "> " : screen.entry().prompt());
        out.flush();
        try {
            String line = in.readLine();
            while (line != null && line.startsWith("#")) {
                line = in.readLine();
            }
            out.println(echo && line != null ? line : "");
            return Optional.ofNullable(line);
        } catch (IOException e) {
            return Optional.empty();
        }
    }

    @Override
    public void tell(String message, boolean understood) {
        if (!understood) {
            misunderstood++;
        }
        if (!message.isEmpty()) {
            out.println(message);
            out.flush();
        }
    }

    /** How many lines meant nothing where they stood. */
    int misunderstood() {
        return misunderstood;
    }

    /** Whether input is written out as it is read. */
    boolean echoes() {
        return echo;
    }

    @Override
    public void close() {
        out.flush();
    }
}
