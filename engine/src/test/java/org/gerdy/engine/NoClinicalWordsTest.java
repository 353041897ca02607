package org.gerdy.engine;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** The engine serves any body region: its sources and resources name no part of one. */
class NoClinicalWordsTest {
    /** Word stems stand anywhere; short words only by themselves, so that "relationship" and "footer" pass. */
    private static final Pattern CLINICAL = Pattern.compile(
            "(?i)knee|femur|femoral|tibia|fibula|patell|iliotibial|menisc|\\bhips?\\b|pelvi|\\bfoot\\b|\\bfeet\\b");

    /** Units keep their names: one foot is a length there. */
    private static final Pattern UNIT = Pattern.compile("One pound, foot, inch and mile by international definition");

    @Test
    void noSourceOrResourceOfTheEngineNamesABodyPart() throws IOException {
        Path main = Path.of(System.getProperty("gerdy.root"), "engine", "src", "main");
        List<String> found = new ArrayList<>();
        int files = 0;
        try (Stream<Path> paths = Files.walk(main)) {
            for (Path path : paths.filter(Files::isRegularFile).toList()) {
                files++;
                List<String> lines = Files.readAllLines(path);
                for (int i = 0; i < lines.size(); i++) {
                    if (CLINICAL.matcher(lines.get(i)).find()
                            && !UNIT.matcher(lines.get(i)).find()) {
                        found.add(main.relativize(path) + ":" + (i + 1) + ": "
                                + lines.get(i).strip());
                    }
                }
            }
        }
        assertThat(files).as("files scanned").isGreaterThan(50);
        assertThat(found).as("lines that name a body part").isEmpty();
    }

    @Test
    void theScanSeesWhatItShouldAndLetsOrdinaryWordsPass() {
        assertThat(List.of("Knee", "patellar", "a hip sign", "the foot", "meniscal"))
                .allMatch(line -> CLINICAL.matcher(line).find());
        assertThat(List.of("relationship", "ownership", "footer", "footnote", "chip", "shipped"))
                .noneMatch(line -> CLINICAL.matcher(line).find());
    }
}
