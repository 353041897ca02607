package org.gerdy.engine.drill;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.KnowledgeException;
import org.gerdy.engine.knowledge.KnowledgeFiles;
import org.gerdy.engine.knowledge.KnownWords;
import org.gerdy.engine.knowledge.Settings;
import org.gerdy.engine.knowledge.Table;
import org.gerdy.engine.logic.Expression;
import org.gerdy.engine.vocabulary.Basis;
import org.gerdy.engine.vocabulary.FindingDefinition;
import org.gerdy.engine.vocabulary.Kind;
import org.gerdy.engine.vocabulary.Urgency;

/**
 * What practice needs beside the rules: how patients are made and how work is marked. Simulated patients begin as these
 * do. Read only for either.
 *
 * @param settings single numbers
 * @param urgency how much of the safety points a stated urgency keeps, by the needed one and the stated one, 0 to 1
 * @param normals ordinary answers, by finding
 * @param profiles who has a condition, by condition
 * @param openings what the patient says on coming in, by onset
 * @param words the finding that plays each role in making a patient
 */
public record DrillTables(
        Settings settings,
        Map<Urgency, Map<Urgency, Double>> urgency,
        Map<String, Normal> normals,
        Map<String, Profile> profiles,
        Map<String, String> openings,
        Map<String, String> words) {

    private static final List<String> ROLES = List.of("age", "sex", "activity", "onset", "duration", "injury");

    /**
     * The ordinary answer to a finding.
     *
     * @param answer a state or choice; empty for a number
     * @param low smallest ordinary number, in the finding's unit
     * @param high largest ordinary number
     * @param step distance between the numbers drawn
     */
    public record Normal(String answer, OptionalDouble low, OptionalDouble high, double step) {}

    /**
     * Who has a condition and how it comes on.
     *
     * @param ageLow years
     * @param ageHigh years
     * @param sex the only sex drawn, or empty
     * @param activities main activities drawn from
     * @param injury whether a definite injury began it
     * @param onset a choice of the onset finding
     * @param weeksLow shortest time it has lasted, weeks
     * @param weeksHigh longest time, weeks
     * @param always what every patient with it shows
     */
    public record Profile(
            String condition,
            int ageLow,
            int ageHigh,
            String sex,
            List<String> activities,
            boolean injury,
            String onset,
            int weeksLow,
            int weeksHigh,
            List<Expression> always) {}

    /** Reads the tables. Throws {@link KnowledgeException} naming file and line of any fault. */
    public static DrillTables load(KnowledgeFiles files, KnowledgeBase knowledge) {
        Map<String, Double> settings = new LinkedHashMap<>();
        files.table("drill-settings.csv", "name", "value", "basis").map(row -> {
            Basis ignored = Basis.of(row.required("basis"));
            return settings.put(row.required("name"), row.requiredNumber("value"));
        });
        Map<Urgency, Map<Urgency, Double>> urgency = new EnumMap<>(Urgency.class);
        files.table("drill-urgency.csv", "needed", "stated", "share", "basis")
                .map(row -> urgency.computeIfAbsent(level(row, "needed"), ignored -> new EnumMap<>(Urgency.class))
                        .put(level(row, "stated"), share(row)));
        for (Urgency needed : Urgency.values()) {
            for (Urgency stated : Urgency.values()) {
                if (!urgency.getOrDefault(needed, Map.of()).containsKey(stated)) {
                    throw new KnowledgeException("knowledge/drill-urgency.csv: the row for " + needed.word()
                            + " answered by " + stated.word() + " is missing; add it.");
                }
            }
        }
        Map<String, Normal> normals = new LinkedHashMap<>();
        files.table("drill-normals.csv", "finding", "answer", "low", "high", "step", "basis")
                .map(row -> normals.put(row.required("finding"), normal(row, knowledge)));
        Map<String, Profile> profiles = new LinkedHashMap<>();
        files.table("drill-patients.csv", "condition", "age_low", "age_high", "activity")
                .map(row -> profiles.put(row.required("condition"), profile(row, knowledge)));
        Map<String, String> openings = new LinkedHashMap<>();
        files.table("drill-openings.csv", "onset", "text", "basis")
                .map(row -> openings.put(row.required("onset"), row.required("text")));
        for (Profile profile : profiles.values()) {
            if (!openings.containsKey(profile.onset())) {
                throw new KnowledgeException(
                        "knowledge/drill-openings.csv: there is no opening for the onset '" + profile.onset() + "'.");
            }
        }
        for (String needed : List.of("unrecorded", "unrecorded-injured")) {
            if (!openings.containsKey(needed)) {
                throw new KnowledgeException("knowledge/drill-openings.csv: the row '" + needed + "' is missing.");
            }
        }
        Map<String, String> words = new LinkedHashMap<>();
        files.table("drill-words.csv", "role", "finding", "basis")
                .map(row -> words.put(
                        row.required("role"),
                        known(row, knowledge, row.required("finding")).id()));
        for (String role : ROLES) {
            if (!words.containsKey(role)) {
                throw new KnowledgeException(
                        "knowledge/drill-words.csv: the role '" + role + "' has no finding; add its row.");
            }
        }
        return new DrillTables(new Settings(settings), urgency, normals, profiles, openings, words);
    }

    private static Urgency level(Table.Row row, String column) {
        return Urgency.of(row.required(column))
                .orElseThrow(() -> row.wrong("'" + row.required(column) + "' is not an urgency."));
    }

    private static double share(Table.Row row) {
        double share = row.requiredNumber("share");
        if (!(share >= 0 && share <= 1)) {
            throw row.wrong("the share should lie between 0 and 1.");
        }
        return share;
    }

    private static Normal normal(Table.Row row, KnowledgeBase knowledge) {
        FindingDefinition finding = known(row, knowledge, row.required("finding"));
        String answer = row.text("answer");
        boolean legal =
                switch (finding.kind()) {
                    case YES_NO -> answer.equals("present") || answer.equals("absent");
                    case CHOICE -> finding.choices().contains(answer);
                    case NUMBER, SCALE_0_10, DURATION ->
                        answer.isEmpty()
                                && row.requiredNumber("low") <= row.requiredNumber("high")
                                && row.requiredNumber("step") > 0;
                    case DATE -> false;
                };
        if (!legal) {
            throw row.wrong("'" + finding.id() + "' cannot be answered so.");
        }
        return new Normal(
                answer,
                row.number("low"),
                row.number("high"),
                row.number("step").orElse(1));
    }

    private static FindingDefinition known(Table.Row row, KnowledgeBase knowledge, String id) {
        return knowledge
                .catalogue()
                .finding(id)
                .orElseThrow(() -> row.wrong(KnownWords.noFinding(knowledge.catalogue(), id)));
    }

    private static Profile profile(Table.Row row, KnowledgeBase knowledge) {
        String condition = row.required("condition");
        if (!knowledge.conditions().containsKey(condition)) {
            throw row.wrong("there is no condition '" + condition + "'.");
        }
        List<Expression> always = new ArrayList<>();
        for (String text : row.list("always")) {
            Expression expression = Expression.parse(text);
            expression.findings().forEach(id -> {
                if (!knowledge.catalogue().knows(id)) {
                    throw row.wrong("there is no finding '" + id + "'.");
                }
            });
            always.add(expression);
        }
        int low = (int) row.requiredNumber("age_low");
        int high = (int) row.requiredNumber("age_high");
        double least = knowledge.condition(condition).ageMin().orElse(0);
        double most = knowledge.condition(condition).ageMax().orElse(120);
        if (low > high || low < least || high > most) {
            throw row.wrong("the ages lie outside what the condition allows, " + least + " to " + most + ".");
        }
        String sex = Optional.of(row.text("sex"))
                .filter(one -> !one.isEmpty())
                .orElse(knowledge.condition(condition).sex());
        return new Profile(
                condition,
                low,
                high,
                sex,
                row.list("activity"),
                row.yes("injury"),
                row.required("onset"),
                (int) row.requiredNumber("weeks_low"),
                (int) row.requiredNumber("weeks_high"),
                List.copyOf(always));
    }

    /** The finding that plays this role: age, sex, activity, onset, duration or injury. */
    public String word(String role) {
        return java.util.Objects.requireNonNull(words.get(role));
    }

    /** The ordinary answer: from the table, else absent for a plain question; empty where none can be given. */
    Optional<Normal> normal(FindingDefinition finding) {
        Normal row = normals.get(finding.id());
        if (row != null) {
            return Optional.of(row);
        }
        return finding.kind() == Kind.YES_NO
                ? Optional.of(new Normal("absent", OptionalDouble.empty(), OptionalDouble.empty(), 1))
                : Optional.empty();
    }
}
