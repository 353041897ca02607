package org.gerdy.engine.casefile;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** Each thing wrong with a file gives one sentence that says what, where and what to do. */
class CaseReaderFaultsTest {
    static List<Problem> problems(String text) {
        return problems(text.getBytes(StandardCharsets.UTF_8));
    }

    static List<Problem> problems(byte[] bytes) {
        MendableException wrong =
                catchThrowableOfType(MendableException.class, () -> Sample.READER.read("case.yaml", bytes));
        assertThat(wrong).as("the file is refused").isNotNull();
        return wrong.problems();
    }

    static Stream<Arguments> faults() {
        return Stream.of(
                Arguments.of(
                        "a finding nobody knows, with the nearest id",
                        Sample.with("fliud: absent"),
                        "case.yaml:7:7: There is no finding 'fliud'; did you mean 'fluid'?"),
                Arguments.of(
                        "a finding like nothing in the catalogue",
                        Sample.with("astrolabe-of-zinc: absent"),
                        "case.yaml:7:7: There is no finding 'astrolabe-of-zinc'; 'gerdy rules list findings' shows them all."),
                Arguments.of(
                        "a computed finding",
                        Sample.with("fresh-injury: present"),
                        "case.yaml:7:7: 'fresh-injury' is computed and never recorded; record injury, injury-days instead."),
                Arguments.of(
                        "a choice that does not exist",
                        Sample.with("trend: worst"),
                        "case.yaml:7:14: 'trend' is 'worst'; it takes one of: better, same, worse; did you mean 'worse'?"),
                Arguments.of(
                        "a state that does not exist",
                        Sample.with("injury: maybe"),
                        "case.yaml:7:15: 'injury' is 'maybe'; it takes present, absent or unable."),
                Arguments.of(
                        "a unit of another dimension",
                        Sample.with("strength: 12 kg"),
                        "case.yaml:7:17: 'strength' is in 'kg'; it takes N or kgf or lbf."),
                Arguments.of(
                        "a number outside what can be true",
                        Sample.with("age: 140"),
                        "case.yaml:7:12: 'age' is 140, outside 0 to 110 years; check the number and its unit."),
                Arguments.of(
                        "a number outside what can be true once converted",
                        Sample.with("girth: 40 in"),
                        "case.yaml:7:14: 'girth' is 40 in, outside 10 to 80 cm; check the number and its unit."),
                Arguments.of(
                        "a word where a number belongs",
                        Sample.with("age: old"),
                        "case.yaml:7:12: 'age' is 'old'; it takes a number in years."),
                Arguments.of(
                        "a step finer than half a point",
                        Sample.with("pain: 6.2"),
                        "case.yaml:7:13: 'pain' is 6.2; use whole or half steps from 0 to 10."),
                Arguments.of(
                        "a bare answer when both sides hurt",
                        Sample.with("both", "fluid: absent"),
                        "case.yaml:7:14: 'fluid' needs a side here; write {left: ..., right: ...} with what was found on each."),
                Arguments.of(
                        "sides on a finding about the person",
                        Sample.with("injury: {left: present}"),
                        "case.yaml:7:15: 'injury' is about the person, not a side; give one answer."),
                Arguments.of(
                        "a bare answer by side in the patient block",
                        "gerdy: 1\ncase: a\npatient: {fluid: absent}\nvisits:\n  - {date: 2026-03-02, side: left}\n",
                        "case.yaml:3:18: 'fluid' belongs to a visit, not to the patient block; write {left: ..., right: ...} with what was found on each."),
                Arguments.of(
                        "a side that is neither left nor right",
                        Sample.with("fluid: {middle: absent}"),
                        "case.yaml:7:23: 'middle' is not a key that stands here; allowed here: left, right."),
                Arguments.of(
                        "a finding without an answer",
                        Sample.with("injury:"),
                        "case.yaml:7:14: 'injury' is ''; it takes present, absent or unable."),
                Arguments.of(
                        "a finding answered with nothing",
                        Sample.with("injury: null"),
                        "case.yaml:7:15: 'injury' has no answer; write present, absent or unable or leave it out."),
                Arguments.of(
                        "a finding answered with a truth value",
                        Sample.with("injury: true"),
                        "case.yaml:7:15: 'injury' is 'true'; it takes present, absent or unable."),
                Arguments.of(
                        "a finding answered with a list",
                        Sample.with("injury: [present]"),
                        "case.yaml:7:15: 'injury' has no answer; write present, absent or unable or leave it out."),
                Arguments.of(
                        "a number for notes",
                        "gerdy: 1\ncase: a\nvisits:\n  - {date: 2026-03-02, side: left, notes: 5}\n",
                        "case.yaml:4:43: 'notes' should be text, not the number 5."),
                Arguments.of(
                        "a day the calendar lacks",
                        Sample.with("first-day: 2026-02-30"),
                        "case.yaml:7:18: 'first-day' is '2026-02-30'; write a day as year-month-day, such as 2026-03-02."),
                Arguments.of(
                        "a day after the visit",
                        Sample.with("first-day: 2026-03-03"),
                        "case.yaml:7:7: 'first-day' is 2026-03-03, after the visit of 2026-03-02; correct one of the two."),
                Arguments.of(
                        "a visit on a day the calendar lacks",
                        "gerdy: 1\ncase: a\nvisits:\n  - {date: 2026-02-30, side: left}\n",
                        "case.yaml:4:12: '2026-02-30' is not a day of the calendar; correct it."),
                Arguments.of(
                        "a date written another way",
                        "gerdy: 1\ncase: a\nvisits:\n  - {date: 2/3/2026, side: left}\n",
                        "case.yaml:4:12: The date '2/3/2026' should be written year-month-day, as 2026-03-02."),
                Arguments.of(
                        "visits out of order",
                        "gerdy: 1\ncase: a\nvisits:\n  - {date: 2026-03-02, side: left}\n  - {date: 2026-03-01, side: left}\n",
                        "case.yaml:5:12: The visit of 2026-03-01 stands after the one of 2026-03-02; put visits in order, one a day."),
                Arguments.of(
                        "two visits on one day",
                        "gerdy: 1\ncase: a\nvisits:\n  - {date: 2026-03-02, side: left}\n  - {date: 2026-03-02, side: left}\n",
                        "case.yaml:5:12: The visit of 2026-03-02 stands after the one of 2026-03-02; put visits in order, one a day."),
                Arguments.of(
                        "a side nobody has",
                        "gerdy: 1\ncase: a\nvisits:\n  - {date: 2026-03-02, side: top}\n",
                        "case.yaml:4:30: 'side' is 'top'; it takes one of: left, right, both."),
                Arguments.of(
                        "a finding of the patient block told again in a visit",
                        "gerdy: 1\ncase: a\npatient: {age: 41}\nvisits:\n  - date: 2026-03-02\n    side: left\n    findings: {age: 42}\n",
                        "case.yaml:7:16: 'age' stands under patient and again in this visit; keep one."),
                Arguments.of(
                        "a duplicate key",
                        Sample.with("injury: present\ninjury: absent"),
                        "case.yaml:8:7: 'injury' stands here a second time; the first is on line 7. Keep one of them."),
                Arguments.of(
                        "a format version of the future",
                        "gerdy: 2\ncase: a\nvisits:\n  - {date: 2026-03-02, side: left}\n",
                        "case.yaml:1:8: Format version '2' is not known here; this program reads version 1."),
                Arguments.of(
                        "a key nobody knows",
                        "gerdy: 1\ncase: a\nvisit:\n  - {date: 2026-03-02, side: left}\nvisits:\n  - {date: 2026-03-02, side: left}\n",
                        "case.yaml:4:3: 'visit' is not a key that stands here; did you mean 'visits'?"),
                Arguments.of("no visits", "gerdy: 1\ncase: a\n", "case.yaml:1:1: The case has no 'visits'; add it."),
                Arguments.of(
                        "an empty list of visits",
                        "gerdy: 1\ncase: a\nvisits: []\n",
                        "case.yaml:3:9: 'visits' is empty; it needs at least one."),
                Arguments.of(
                        "a case named like a person",
                        "gerdy: 1\ncase: Jane Doe\nvisits:\n  - {date: 2026-03-02, side: left}\n",
                        "case.yaml:2:7: The case id 'Jane Doe' should be small letters, digits and hyphens, at most 80, and never a name."),
                Arguments.of(
                        "an expected flag nobody knows",
                        Sample.GOOD.replace("raised: [some-flag]", "raised: [sone-flag]"),
                        "case.yaml:25:12: There is no red flag 'sone-flag'; did you mean 'some-flag'?"),
                Arguments.of(
                        "an expected rank that is no number",
                        Sample.GOOD.replace("some-condition: 3", "some-condition: 99999999999"),
                        "case.yaml:27:28: A rank is a whole number such as 3; correct it."));
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("faults")
    void eachFaultGivesOneSentenceAtItsPlace(String what, String text, String message) {
        assertThat(problems(text)).extracting(Problem::toString).containsExactly(message);
    }

    @Test
    void onePassTellsEveryFault() {
        String text = """
                gerdy: 7
                case: Bad Id
                patient: {aeg: 40}
                visits:
                  - date: 2026-03-02
                    side: left
                    findings:
                      fliud: absent
                      trend: sideways
                      strength: 12 kg
                      pain: 99
                """;
        assertThat(problems(text)).extracting(Problem::line).containsExactly(1, 2, 3, 8, 9, 10, 11);
    }

    @Test
    void aFileWithoutFaultsInItsShapeStillTellsEveryFaultOfItsWords() {
        assertThat(problems(Sample.with("fliud: absent\ninjury: maybe\nage: 200\nfirst-day: 2027-01-01")))
                .extracting(Problem::line)
                .containsExactly(7, 8, 9, 10);
    }
}
