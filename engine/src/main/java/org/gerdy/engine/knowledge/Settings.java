package org.gerdy.engine.knowledge;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.Map;

/** Single numbers of the method, each with its basis in the settings table. */
public final class Settings {
    private final Map<String, Double> values;

    /** Settings by name. */
    public Settings(Map<String, Double> values) {
        this.values = Collections.unmodifiableMap(new LinkedHashMap<>(values));
    }

    /** Every setting by name, in the order of the table. */
    public Map<String, Double> all() {
        return values;
    }

    /** The value of a setting. Throws {@link KnowledgeException} when the table lacks it. */
    public double value(String name) {
        Double value = values.get(name);
        if (value == null) {
            throw new KnowledgeException("settings.csv: the setting '" + name + "' is missing; add its row.");
        }
        return value;
    }
}
