package org.gerdy.rules;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A second, separate reading of the expression language: false, unknown and true are -1, 0 and 1, so that AND is the
 * least, OR the greatest and NOT the negative. Shares no code with the engine's.
 */
interface Three {
    int in(World world);

    /** What atoms are asked of. */
    interface World {
        int state(String id, String state);

        int number(String id, String sign, double cutOff);

        int sides(String id, String sign, double cutOff);
    }

    static int of(boolean value) {
        return value ? 1 : -1;
    }

    static boolean holds(double value, String sign, double cutOff) {
        return switch (sign) {
            case ">=" -> value >= cutOff;
            case "<=" -> value <= cutOff;
            case ">" -> value > cutOff;
            case "<" -> value < cutOff;
            default -> value == cutOff;
        };
    }

    static Three read(String text) {
        Reading reading = new Reading(text);
        Three whole = reading.or();
        if (reading.at < reading.tokens.size()) {
            throw new IllegalArgumentException("Left over: " + reading.tokens.get(reading.at) + " in " + text);
        }
        return whole;
    }

    /** One pass over the tokens. */
    final class Reading {
        private static final Pattern TOKEN =
                Pattern.compile("\\s*(>=|<=|[><=(),:]|-?[0-9]+(?:\\.[0-9]+)?(?![0-9a-z-])|[A-Za-z0-9][A-Za-z0-9-]*)");

        private final List<String> tokens = new ArrayList<>();
        private int at;

        Reading(String text) {
            Matcher matcher = TOKEN.matcher(text);
            int end = 0;
            while (matcher.find()) {
                if (matcher.start() != end) {
                    throw new IllegalArgumentException("Cannot read " + text.substring(end));
                }
                tokens.add(matcher.group(1));
                end = matcher.end();
            }
            if (!text.substring(end).isBlank()) {
                throw new IllegalArgumentException("Cannot read " + text.substring(end));
            }
        }

        private String next() {
            return tokens.get(at++);
        }

        private boolean take(String token) {
            if (at < tokens.size() && tokens.get(at).equals(token)) {
                at++;
                return true;
            }
            return false;
        }

        private void need(String token) {
            if (!take(token)) {
                throw new IllegalArgumentException(
                        "Expected " + token + " before " + tokens.subList(at, tokens.size()));
            }
        }

        Three or() {
            Three left = and();
            while (take("OR")) {
                Three first = left;
                Three second = and();
                left = world -> Math.max(first.in(world), second.in(world));
            }
            return left;
        }

        private Three and() {
            Three left = not();
            while (take("AND")) {
                Three first = left;
                Three second = not();
                left = world -> Math.min(first.in(world), second.in(world));
            }
            return left;
        }

        private Three not() {
            if (take("NOT")) {
                Three inner = not();
                return world -> -inner.in(world);
            }
            if (take("(")) {
                Three inner = or();
                need(")");
                return inner;
            }
            String word = next();
            if (word.startsWith("at-least-")) {
                return atLeast(Integer.parseInt(word.substring(9)));
            }
            return switch (word) {
                case "points" -> points();
                case "recorded" -> {
                    need("(");
                    Three inner = or();
                    need(")");
                    yield world -> of(inner.in(world) == 1);
                }
                case "side-diff" -> {
                    need("(");
                    String id = next();
                    need(")");
                    String sign = next();
                    double cutOff = Double.parseDouble(next());
                    yield world -> world.sides(id, sign, cutOff);
                }
                default -> atom(word);
            };
        }

        private Three atom(String id) {
            String sign = next();
            String value = next();
            if (value.matches("-?[0-9]+(\\.[0-9]+)?")) {
                double cutOff = Double.parseDouble(value);
                return world -> world.number(id, sign, cutOff);
            }
            return world -> world.state(id, value);
        }

        private Three atLeast(int needed) {
            need("(");
            List<Three> parts = new ArrayList<>();
            do {
                parts.add(or());
            } while (take(","));
            need(")");
            return world -> {
                long yes = parts.stream().filter(part -> part.in(world) == 1).count();
                long no = parts.stream().filter(part -> part.in(world) == -1).count();
                return yes >= needed ? 1 : parts.size() - no < needed ? -1 : 0;
            };
        }

        private Three points() {
            need("(");
            List<Double> weights = new ArrayList<>();
            List<Three> items = new ArrayList<>();
            do {
                weights.add(Double.parseDouble(next()));
                need(":");
                items.add(or());
            } while (take(","));
            need(")");
            String sign = next();
            double cutOff = Double.parseDouble(next());
            return world -> {
                double low = 0;
                double high = 0;
                for (int i = 0; i < items.size(); i++) {
                    int truth = items.get(i).in(world);
                    double weight = weights.get(i);
                    low += truth == 1 || (truth == 0 && weight < 0) ? weight : 0;
                    high += truth == 1 || (truth == 0 && weight > 0) ? weight : 0;
                }
                boolean one = holds(low, sign, cutOff);
                return one == holds(high, sign, cutOff) ? of(one) : 0;
            };
        }
    }
}
