package org.gerdy.cli.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.gerdy.engine.Gerdy;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.CaseStore;
import org.gerdy.engine.casefile.Disk;
import org.gerdy.engine.casefile.Side;
import org.gerdy.engine.casefile.Visit;
import org.gerdy.engine.intake.IntakeSession;
import org.gerdy.rules.LateralKnee;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What the screens say when answers cannot be kept, and what they hold back. */
class DeskTest {
    private static final Gerdy GERDY = LateralKnee.gerdy();
    private static final LocalDate DAY = LocalDate.of(2026, 9, 14);

    @TempDir
    Path directory;

    private static CaseFile begun() {
        return begun(Side.LEFT);
    }

    private static CaseFile begun(Side side) {
        Visit visit = new Visit(DAY, side, Map.of(), "", Optional.empty());
        return new CaseFile("runner", "", "", Map.of(), List.of(visit), Optional.empty());
    }

    private static String body(Screen screen) {
        return screen.body().stream()
                .map(paragraph -> paragraph.lead() + paragraph.text())
                .collect(Collectors.joining("\n"));
    }

    private static void type(Desk desk, String... typed) {
        for (String one : typed) {
            desk.take(one);
        }
    }

    @ParameterizedTest
    @CsvSource({
        "No space left on device, the disk is full",
        "Read-only file system, this place is read-only",
        "Input/output error, Input/output error"
    })
    void anAnswerThatCannotBeKeptIsToldAtOnceHeldAndKeptWhenThereIsRoomAgain(String reason, String told)
            throws Exception {
        Path file = directory.resolve("runner.yaml");
        boolean[] broken = {false};
        Disk disk = (where, bytes) -> {
            if (broken[0]) {
                throw new IOException(reason);
            }
            Disk.REAL.replace(where, bytes);
        };
        try (CaseStore store = CaseStore.open(file, GERDY.reader(), disk);
                IntakeSession session = new IntakeSession(GERDY, begun(), DAY)) {
            store.save(begun());
            Desk desk = new Desk(session, store, false, line -> {});
            type(desk, "34", "n");
            broken[0] = true;
            desk.take("n");
            assertThat(desk.screen().heading()).isEqualTo("The last answer is not on the disk");
            assertThat(body(desk.screen())).contains(told).contains("four-steps-now absent");
            assertThat(desk.unsaved()).contains("four-steps-now absent");
            type(desk, "", "a");
            assertThat(body(desk.screen())).as("the reason stays in sight").contains(told);
            assertThat(desk.screen().message()).isEqualTo("Still not saved.");
            assertThat(Files.readString(file)).contains("acute-injury: absent").doesNotContain("four-steps-now");
            broken[0] = false;
            desk.take("a");
            assertThat(desk.screen().heading()).as("the flag the answer raises").isEqualTo("RED FLAG");
            assertThat(Files.readString(file)).contains("four-steps-now: absent");
            assertThat(desk.unsaved()).isEmpty();
        }
    }

    @Test
    void severalAnswersOfOneScreenAreKeptTogetherOrNotAtAll() throws Exception {
        Path file = directory.resolve("runner.yaml");
        boolean[] full = {false};
        Disk disk = (where, bytes) -> {
            if (full[0]) {
                throw new IOException("No space left on device");
            }
            Disk.REAL.replace(where, bytes);
        };
        try (CaseStore store = CaseStore.open(file, GERDY.reader(), disk);
                IntakeSession session = new IntakeSession(GERDY, begun(), DAY)) {
            store.save(begun());
            Desk desk = new Desk(session, store, false, line -> {});
            type(desk, "34", "n", "y");
            full[0] = true;
            desk.take("n");
            assertThat(body(desk.screen())).contains("chest-symptoms absent");
            assertThat(Files.readString(file)).doesNotContain("chest-symptoms");
            type(desk, "k", directory.resolve("elsewhere.yaml").toString());
            assertThat(body(desk.screen())).contains("the disk is full");
            full[0] = false;
            type(desk, "k", directory.resolve("elsewhere.yaml").toString());
            assertThat(desk.closed()).isTrue();
            assertThat(Files.readString(directory.resolve("elsewhere.yaml")))
                    .contains("chest-symptoms: absent")
                    .contains("saddle-or-sphincter-change: absent");
        }
    }

    @ParameterizedTest
    @CsvSource({"34, n, LEFT", "34, y, LEFT", "10, n, LEFT", "10, y, LEFT", "34, n, BOTH", "34, y, BOTH", "10, n, BOTH"
    })
    void questionsThatShareAScreenAreAllInSightInTheSmallestUsualWindow(String age, String injured, Side side)
            throws Exception {
        try (CaseStore store = CaseStore.open(directory.resolve("runner.yaml"), GERDY.reader());
                IntakeSession session = new IntakeSession(GERDY, begun(side), DAY)) {
            store.save(begun(side));
            Desk desk = new Desk(session, store, false, line -> {});
            type(desk, age, injured);
            int shared = 0;
            for (int i = 0; i < 60 && !desk.screen().heading().equals("Nothing more to ask"); i++) {
                Screen screen = desk.screen();
                if (screen.heading().startsWith("RED FLAG")) {
                    desk.take("g");
                    continue;
                }
                if (screen.entry().whole()) {
                    shared++;
                    assertThat(Layout.of(screen, 80, 24, 0, "").more())
                            .as(body(screen))
                            .isFalse();
                    desk.take("l");
                }
                desk.take("l");
            }
            assertThat(shared).isGreaterThanOrEqualTo(4);
        }
    }

    @Test
    void aRedFlagIsNotNamedAtTheFootOfAPageWithWhatToDoOverleaf() throws Exception {
        try (CaseStore store = CaseStore.open(directory.resolve("runner.yaml"), GERDY.reader());
                IntakeSession session = new IntakeSession(GERDY, begun(), DAY)) {
            store.save(begun());
            Desk desk = new Desk(session, store, false, line -> {});
            type(desk, "15", "n", "n");
            Screen screen = desk.screen();
            assertThat(screen.heading()).isEqualTo("RED FLAGS");
            assertThat(Layout.of(screen, 80, 24, 0, "").more()).isTrue();
            List<String> told = new ArrayList<>();
            for (int page = 0;
                    page == 0 || !Layout.of(screen, 80, 24, page - 1, "").last();
                    page++) {
                List<String> lines = Layout.of(screen, 80, 24, page, "").lines();
                assertThat(lines).hasSizeLessThanOrEqualTo(24);
                List<String> body = lines.stream()
                        .skip(lines.indexOf("RED FLAGS") + 1)
                        .takeWhile(line -> !line.startsWith("-----"))
                        .filter(line -> !line.isBlank())
                        .toList();
                assertThat(body.get(body.size() - 1)).doesNotContain("(now): ").doesNotContain("(today): ");
                told.addAll(body);
            }
            assertThat(String.join(" ", told).replaceAll("\\s+", " "))
                    .as("no word is lost between the pages")
                    .isEqualTo(body(screen).replaceAll("\\s+", " ").strip());
        }
    }

    @Test
    void aProvocativeTestReachedByHandSaysWhichDangerHoldsItBack() throws Exception {
        try (CaseStore store = CaseStore.open(directory.resolve("runner.yaml"), GERDY.reader());
                IntakeSession session = new IntakeSession(GERDY, begun(), DAY)) {
            store.save(begun());
            Desk desk = new Desk(session, store, false, line -> {});
            type(desk, "34", "y", "noble-compression");
            assertThat(body(desk.screen()))
                    .contains("Hold back: this test can hurt or harm")
                    .contains("possible fracture after injury");
            desk.take("p");
            assertThat(body(desk.screen())).contains("Held back: ").contains("provocative while");
        }
    }
}
