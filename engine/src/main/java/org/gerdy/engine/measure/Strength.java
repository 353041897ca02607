package org.gerdy.engine.measure;

import java.util.Optional;
import java.util.OptionalDouble;

/**
 * One force against a lever, scaled the four ways found in print. The four are different variables; none can be turned
 * into another without lever, mass and height.
 *
 * @param newtons force, above 0
 * @param leverMetres joint centre to the middle of the pad, above 0, if measured
 * @param massKilograms body mass, above 0, if known
 * @param heightMetres standing height, above 0, if known
 */
public record Strength(
        double newtons, OptionalDouble leverMetres, OptionalDouble massKilograms, OptionalDouble heightMetres) {
    /** Standard gravity in m/s2, third General Conference on Weights and Measures, 1901. */
    public static final double GRAVITY = 9.80665;

    /** Throws {@link IllegalArgumentException} when a number is not above 0. */
    public Strength {
        positive("force", OptionalDouble.of(newtons));
        positive("lever arm", leverMetres);
        positive("body mass", massKilograms);
        positive("height", heightMetres);
    }

    private static void positive(String what, OptionalDouble value) {
        if (value.isPresent() && !(value.getAsDouble() > 0 && Double.isFinite(value.getAsDouble()))) {
            throw new IllegalArgumentException("A " + what + " of " + value.getAsDouble() + " cannot be; correct it.");
        }
    }

    /** Force times lever, in Nm. */
    public OptionalDouble torque() {
        return leverMetres.isPresent()
                ? OptionalDouble.of(newtons * leverMetres.getAsDouble())
                : OptionalDouble.empty();
    }

    /** Torque over body mass, in Nm/kg (as in Ramskov 2014). */
    public OptionalDouble torquePerMass() {
        OptionalDouble torque = torque();
        return torque.isPresent() && massKilograms.isPresent()
                ? OptionalDouble.of(torque.getAsDouble() / massKilograms.getAsDouble())
                : OptionalDouble.empty();
    }

    /** Force in percent of body weight. */
    public OptionalDouble percentBodyWeight() {
        return massKilograms.isPresent()
                ? OptionalDouble.of(100 * newtons / (massKilograms.getAsDouble() * GRAVITY))
                : OptionalDouble.empty();
    }

    /** Torque in percent of body weight times height (as in Fredericson 2000). */
    public OptionalDouble percentBodyWeightHeight() {
        OptionalDouble torque = torque();
        return torque.isPresent() && massKilograms.isPresent() && heightMetres.isPresent()
                ? OptionalDouble.of(100
                        * torque.getAsDouble()
                        / (massKilograms.getAsDouble() * GRAVITY * heightMetres.getAsDouble()))
                : OptionalDouble.empty();
    }

    /** Force over body mass to the power 2/3 (as in Niemuth 2005), in N/kg^0.667. */
    public OptionalDouble allometric() {
        return massKilograms.isPresent()
                ? OptionalDouble.of(newtons / Math.pow(massKilograms.getAsDouble(), 2.0 / 3.0))
                : OptionalDouble.empty();
    }

    /** The strength in a named scale; an empty inner value says a number it needs is missing, an empty outer one that there is no such scale. */
    public Optional<OptionalDouble> in(String scale) {
        return switch (scale) {
            case "N" -> Optional.of(OptionalDouble.of(newtons));
            case "Nm" -> Optional.of(torque());
            case "Nm/kg" -> Optional.of(torquePerMass());
            case "%BW" -> Optional.of(percentBodyWeight());
            case "%BW*height" -> Optional.of(percentBodyWeightHeight());
            case "N/kg^0.667" -> Optional.of(allometric());
            default -> Optional.empty();
        };
    }
}
