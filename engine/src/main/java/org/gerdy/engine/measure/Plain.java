package org.gerdy.engine.measure;

import java.math.BigDecimal;
import java.math.RoundingMode;

/** Numbers as people write them: at most four significant decimals, no trailing zeros, no exponent, point as sign. */
public final class Plain {
    private static final int DECIMALS = 4;
    private static final int FEW = 2;

    private Plain() {}

    /** To at most four decimals. */
    public static String number(double value) {
        return rounded(value, DECIMALS);
    }

    /** To at most two decimals. */
    public static String brief(double value) {
        return rounded(value, FEW);
    }

    private static String rounded(double value, int decimals) {
        BigDecimal number = BigDecimal.valueOf(value).setScale(decimals, RoundingMode.HALF_EVEN);
        return number.signum() == 0 ? "0" : number.stripTrailingZeros().toPlainString();
    }

    /** To at most two decimals, with its sign. */
    public static String signed(double value) {
        String text = brief(value);
        return value > 0 && !text.equals("0") ? "+" + text : text;
    }
}
