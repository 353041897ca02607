package org.gerdy.engine.load;

import java.util.OptionalDouble;

/** The arithmetic of training load over whole days. Every array holds one number a day, rest days as 0, none missing. */
public final class LoadMath {
    private LoadMath() {}

    /** The sum of the days. */
    public static double sum(double[] days) {
        double sum = 0;
        for (double day : days) {
            sum += day;
        }
        return sum;
    }

    /**
     * Mean over sample standard deviation (divisor n - 1) of the days, rest days included (Foster 1998; the paper does
     * not say which deviation). Empty when all days are equal: the ratio has no value then.
     */
    public static OptionalDouble monotony(double[] days) {
        double mean = sum(days) / days.length;
        double squares = 0;
        boolean equal = true;
        for (double day : days) {
            squares += (day - mean) * (day - mean);
            equal &= day == days[0];
        }
        return equal || days.length < 2
                ? OptionalDouble.empty()
                : OptionalDouble.of(mean / Math.sqrt(squares / (days.length - 1)));
    }

    /** Sum of the days times their monotony (Foster 1998); empty when the monotony is. */
    public static OptionalDouble strain(double[] days) {
        OptionalDouble monotony = monotony(days);
        return monotony.isEmpty() ? monotony : OptionalDouble.of(sum(days) * monotony.getAsDouble());
    }

    /** Change from one amount to the next in percent; empty when the first is zero: there is nothing to compare with. */
    public static OptionalDouble changePercent(double before, double now) {
        return before > 0 ? OptionalDouble.of(100 * (now - before) / before) : OptionalDouble.empty();
    }

    /** Recent mean over usual mean with the recent days inside the usual ones; never above their ratio of lengths. */
    public static OptionalDouble coupledRatio(double[] days, int acuteDays) {
        return ratio(tailMean(days, acuteDays), sum(days) / days.length);
    }

    /** Recent mean over the mean of the days before them (Windt and Gabbett 2019). */
    public static OptionalDouble uncoupledRatio(double[] days, int acuteDays) {
        int before = days.length - acuteDays;
        double sum = 0;
        for (int i = 0; i < before; i++) {
            sum += days[i];
        }
        return ratio(tailMean(days, acuteDays), sum / before);
    }

    private static double tailMean(double[] days, int count) {
        double sum = 0;
        for (int i = days.length - count; i < days.length; i++) {
            sum += days[i];
        }
        return sum / count;
    }

    private static OptionalDouble ratio(double part, double base) {
        return base > 0 ? OptionalDouble.of(part / base) : OptionalDouble.empty();
    }

    /**
     * The exponentially weighted mean on the last day, started from the first day, with weight 2 / (span + 1) on the
     * newest day (Williams 2017). The span is not a window: every earlier day keeps a share.
     */
    public static double weightedMean(double[] days, int span) {
        double weight = 2.0 / (span + 1);
        double mean = days[0];
        for (int i = 1; i < days.length; i++) {
            mean = weight * days[i] + (1 - weight) * mean;
        }
        return mean;
    }

    /** The share of the first day in such a mean after a number of days: (1 - weight) to the power days - 1. */
    public static double shareOfFirstDay(int days, int span) {
        return Math.pow(1 - 2.0 / (span + 1), days - 1);
    }
}
