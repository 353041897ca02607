package org.gerdy.engine.knowledge;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.function.Function;
import org.junit.jupiter.api.Test;

class TableTest {
    private static Table table(String csv) {
        return Table.read(InMemory.with("t.csv", csv), "t.csv", List.of("id", "value"));
    }

    private static void faulty(String csv, Function<Table.Row, Object> read, String message) {
        assertThatThrownBy(() -> table(csv).map(read))
                .isInstanceOf(KnowledgeException.class)
                .hasMessage(message);
    }

    @Test
    void cellsAreStrippedAndListsSplitAtTheBar() {
        assertThat(table("id,value\na, x | y |z \n").map(row -> row.list("value")))
                .containsExactly(List.of("x", "y", "z"));
    }

    @Test
    void aQuotedCellMayHoldCommasQuotesAndLineEnds() {
        assertThat(table("id,value\na,\"one, \"\"two\"\"\nthree\"\n").map(row -> row.text("value")))
                .containsExactly("one, \"two\"\nthree");
    }

    @Test
    void aBlankIsUnknownAndNeverZero() {
        assertThat(table("id,value\na,\n").map(row -> row.number("value")).get(0))
                .isEmpty();
    }

    @Test
    void aMissingColumnIsToldByName() {
        assertThatThrownBy(() -> table("id,valeu\na,1\n"))
                .hasMessage("t.csv: the column 'value' is missing; add it to the header.");
    }

    @Test
    void aTableWithoutRowsIsRefused() {
        assertThatThrownBy(() -> table("id,value\n"))
                .hasMessage("t.csv: the table has no rows; an empty table would silence its rules.");
    }

    @Test
    void aMissingFileIsToldByName() {
        assertThatThrownBy(() -> Table.read(new InMemory(), "none.csv", List.of()))
                .isInstanceOf(KnowledgeException.class)
                .hasMessageStartingWith("none.csv: could not be read: ");
    }

    @Test
    void aRowWithACellTooManyIsToldAtItsLine() {
        assertThatThrownBy(() -> table("id,value\na,1\nb,2,3\n"))
                .hasMessage("t.csv:3: this row has 3 cells, the header has 2; put text with a comma in quotes.");
    }

    @Test
    void aWrongCellIsToldAtItsLine() {
        faulty("id,value\na,1\nb,x\n", row -> row.requiredNumber("value"), "t.csv:3: 'x' in 'value' is not a number.");
        faulty(
                "id,value\na,1\nb,\n",
                row -> row.requiredNumber("value"),
                "t.csv:3: the cell 'value' is blank; it takes a number.");
        faulty("id,value\n ,1\n", row -> row.required("id"), "t.csv:2: the cell 'id' is blank; fill it in.");
        faulty("id,value\na,maybe\n", row -> row.yes("value"), "t.csv:2: 'maybe' in 'value' should be yes or no.");
    }

    @Test
    void anyOtherFaultOfARowAlsoComesOutAtItsLine() {
        faulty(
                "id,value\na,1\nb,2\n",
                row -> {
                    if (row.text("id").equals("b")) {
                        throw new IllegalArgumentException("Not this one.");
                    }
                    return row;
                },
                "t.csv:3: Not this one.");
    }
}
