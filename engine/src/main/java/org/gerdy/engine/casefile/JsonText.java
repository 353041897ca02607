package org.gerdy.engine.casefile;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonGenerator;
import com.fasterxml.jackson.core.util.DefaultIndenter;
import com.fasterxml.jackson.core.util.DefaultPrettyPrinter;
import java.io.IOException;
import java.io.Writer;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Collection;
import java.util.OptionalDouble;

/** JSON as the program writes it everywhere: the same indenting, lists and numbers. */
public final class JsonText {
    private static final JsonFactory FACTORY = new JsonFactory();
    /** Shares are written to four decimals; their bounds are far wider. */
    private static final int DECIMALS = 4;

    private JsonText() {}

    /** Writes to {@code out} and leaves it open: on one line, or indented with a line feed on every system. */
    public static JsonGenerator generator(Writer out, boolean pretty) throws IOException {
        JsonGenerator json = FACTORY.createGenerator(out);
        json.disable(JsonGenerator.Feature.AUTO_CLOSE_TARGET);
        if (pretty) {
            DefaultPrettyPrinter printer = new DefaultPrettyPrinter();
            printer.indentArraysWith(DefaultIndenter.SYSTEM_LINEFEED_INSTANCE.withLinefeed("\n"));
            printer.indentObjectsWith(DefaultIndenter.SYSTEM_LINEFEED_INSTANCE.withLinefeed("\n"));
            json.setPrettyPrinter(printer);
        }
        return json;
    }

    /** A list of texts as a field of this name. */
    public static void strings(JsonGenerator json, String name, Collection<String> values) throws IOException {
        json.writeArrayFieldStart(name);
        for (String value : values) {
            json.writeString(value);
        }
        json.writeEndArray();
    }

    /** A number to four decimals without needless zeros; null when there is none. */
    public static void number(JsonGenerator json, String name, OptionalDouble value) throws IOException {
        if (value.isPresent()) {
            number(json, name, value.getAsDouble());
        } else {
            json.writeNullField(name);
        }
    }

    /** A number to four decimals without needless zeros. */
    public static void number(JsonGenerator json, String name, double value) throws IOException {
        BigDecimal rounded = BigDecimal.valueOf(value).setScale(DECIMALS, RoundingMode.HALF_EVEN);
        json.writeNumberField(
                name,
                rounded.signum() == 0
                        ? BigDecimal.ZERO
                        : new BigDecimal(rounded.stripTrailingZeros().toPlainString()));
    }

    /** An answer as a case file holds it; what was found on the left only is written without its side. */
    public static void answer(JsonGenerator json, Recorded recorded) throws IOException {
        if (recorded instanceof Recorded.Sides sides && sides.right().isPresent()) {
            json.writeStartObject();
            json.writeFieldName("left");
            answer(json, sides.left().orElseThrow());
            json.writeFieldName("right");
            answer(json, sides.right().orElseThrow());
            json.writeEndObject();
        } else {
            answer(json, recorded.on(Side.LEFT).orElseThrow());
        }
    }

    private static void answer(JsonGenerator json, Answer answer) throws IOException {
        if (answer instanceof Answer.Quantity quantity) {
            json.writeNumber(
                    BigDecimal.valueOf(quantity.value()).stripTrailingZeros().toPlainString());
        } else {
            json.writeString(answer.text());
        }
    }
}
