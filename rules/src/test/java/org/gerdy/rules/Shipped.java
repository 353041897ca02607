package org.gerdy.rules;

import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.gerdy.engine.Gerdy;

/** The shipped knowledge base, loaded once for all tests, and its tables as plain rows. */
final class Shipped {
    static final Gerdy GERDY = LateralKnee.gerdy();

    /** The root of the repository. */
    static final Path ROOT = Path.of(System.getProperty("gerdy.root"));

    private Shipped() {}

    /** The rows of a table, read without the engine. */
    static List<Map<String, String>> table(String name) {
        try (InputStream in = LateralKnee.files().open("knowledge/" + name);
                Reader reader = new InputStreamReader(in, StandardCharsets.UTF_8)) {
            return CsvReader.builder().ofNamedCsvRecord(reader).stream()
                    .map(NamedCsvRecord::getFieldsAsMap)
                    .toList();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
