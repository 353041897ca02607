package org.gerdy.engine.casefile;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import dev.harrel.jsonschema.Error;
import dev.harrel.jsonschema.Validator;
import dev.harrel.jsonschema.ValidatorFactory;
import dev.harrel.jsonschema.providers.JacksonNode;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.gerdy.engine.vocabulary.Catalogue;

/** Holds a document against the published JSON Schema and tells each fault at its place. */
final class CaseSchema {
    private static final String RESOURCE = "case.schema.json";
    private static final URI ID = URI.create("https://gerdy.example/case/1");
    private static final Pattern QUOTED = Pattern.compile("\\[([^\\[\\]]+)]");

    private final Validator validator;
    private final JsonNode schema;

    CaseSchema() {
        validator = new ValidatorFactory()
                .withJsonNodeFactory(new JacksonNode.Factory())
                .createValidator();
        validator.registerSchema(ID, text());
        try {
            schema = new com.fasterxml.jackson.databind.ObjectMapper().readTree(text());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** The schema as published, JSON Schema 2020-12. */
    static String text() {
        try (InputStream in = CaseSchema.class.getResourceAsStream(RESOURCE)) {
            if (in == null) {
                throw new IllegalStateException(RESOURCE + " is missing from the engine jar.");
            }
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Every fault of the document's shape. */
    List<Problem> faults(String file, Tree tree) {
        Map<String, Tree> places = new LinkedHashMap<>();
        JsonNode json = json(tree, "", places);
        Validator.Result result = validator.validate(ID, json);
        Map<String, Problem> byPlace = new LinkedHashMap<>();
        for (Error error : result.getErrors()) {
            told(file, error, places).ifPresent(problem -> byPlace.putIfAbsent(error.getInstanceLocation(), problem));
        }
        // A fault inside a part makes its whole fail too; the innermost is the one to mend.
        List<Problem> innermost = new ArrayList<>();
        byPlace.forEach((location, problem) -> {
            boolean inner = byPlace.keySet().stream()
                    .noneMatch(other -> other.length() > location.length() && other.startsWith(location + "/"));
            if (inner) {
                innermost.add(problem);
            }
        });
        return innermost;
    }

    private Optional<Problem> told(String file, Error error, Map<String, Tree> places) {
        String location = error.getInstanceLocation();
        Tree tree = places.getOrDefault(location, places.getOrDefault("", null));
        if (tree == null) {
            return Optional.empty();
        }
        String name = location.isEmpty() ? "The case" : "'" + location.substring(location.lastIndexOf('/') + 1) + "'";
        String keyword = error.getKeyword() == null ? "" : error.getKeyword();
        String sentence =
                switch (keyword) {
                    case "false", "additionalProperties", "" -> unknownKey(location, places);
                    case "required" -> missing(name, error.getError());
                    case "const" ->
                        location.equals("/gerdy")
                                ? "Format version " + shown(tree) + " is not known here; this program reads version 1."
                                : name + " has a value that is not allowed here.";
                    case "enum" -> name + " is " + shown(tree) + "; it takes one of: " + choices(error) + ".";
                    case "type" -> name + " should be " + kinds(error.getError()) + ", not " + shape(tree) + ".";
                    case "pattern" ->
                        location.equals("/case")
                                ? "The case id " + shown(tree)
                                        + " should be small letters, digits and hyphens, at most 80, and never a name."
                                : location.endsWith("/date") || location.endsWith("/start")
                                        ? "The date " + shown(tree)
                                                + " should be written year-month-day, as 2026-03-02."
                                        : name + " is " + shown(tree) + ", which is not written as expected here.";
                    case "minItems" -> name + " is empty; it needs at least one.";
                    case "minimum", "exclusiveMinimum" ->
                        name + " is " + shown(tree) + ", below the smallest it can be.";
                    case "maximum" -> name + " is " + shown(tree) + ", above the largest it can be.";
                    case "uniqueItems" -> name + " names something twice; keep one.";
                    case "anyOf", "allOf", "oneOf", "$ref", "propertyNames" -> "";
                    default -> name + ": " + error.getError() + ".";
                };
        if (sentence.isEmpty()) {
            return Optional.empty();
        }
        return Optional.of(new Problem(file, tree.place().line(), tree.place().column(), sentence));
    }

    private String unknownKey(String location, Map<String, Tree> places) {
        int slash = location.lastIndexOf('/');
        if (slash < 0) {
            return "";
        }
        String key = location.substring(slash + 1);
        String parent = location.substring(0, slash);
        List<String> allowed = allowedKeys(parent);
        if (allowed.isEmpty() || !places.containsKey(location)) {
            return "";
        }
        String hint = Catalogue.nearest(key, allowed)
                .map(nearest -> "did you mean '" + nearest + "'?")
                .orElse("allowed here: " + String.join(", ", allowed) + ".");
        return "'" + key + "' is not a key that stands here; " + hint;
    }

    private List<String> allowedKeys(String location) {
        String properties =
                switch (location.replaceAll("/[0-9]+", "/0")) {
                    case "" -> "/properties";
                    case "/visits/0" -> "/$defs/visit/properties";
                    case "/visits/0/decision" -> "/$defs/visit/properties/decision/properties";
                    case "/visits/0/runs/0" -> "/$defs/run/properties";
                    case "/visits/0/plan" -> "/$defs/plan/properties";
                    case "/visits/0/plan/return" -> "/$defs/return/properties";
                    case "/visits/0/plan/supported" -> "/$defs/supported/properties";
                    case "/visits/0/review" -> "/$defs/said/properties";
                    case "/expect" -> "/$defs/expect/properties";
                    default -> "";
                };
        List<String> keys = new ArrayList<>();
        if (!properties.isEmpty()) {
            schema.at(properties).fieldNames().forEachRemaining(keys::add);
        } else if (location.matches("/(patient|visits/[0-9]+/findings)/[^/]+")) {
            keys.addAll(List.of("left", "right"));
        }
        return keys;
    }

    private static String missing(String name, String message) {
        Matcher matcher = QUOTED.matcher(message);
        String what = matcher.find() ? matcher.group(1) : "a required key";
        return name + " has no '" + what.replace("\"", "") + "'; add it.";
    }

    /** The words of the list the value is not in, as the schema gives them. */
    private String choices(Error error) {
        String location = error.getSchemaLocation();
        String pointer = location.substring(location.indexOf('#') + 1);
        JsonNode words = schema.at(pointer.endsWith("/enum") ? pointer : pointer + "/enum");
        List<String> choices = new ArrayList<>();
        words.forEach(word -> choices.add(word.asText()));
        return String.join(", ", choices);
    }

    private static String kinds(String message) {
        String lower = message.toLowerCase(java.util.Locale.ROOT);
        List<String> kinds = new ArrayList<>();
        Map.of(
                        "object",
                        "a block of keys",
                        "array",
                        "a list",
                        "string",
                        "text",
                        "number",
                        "a number",
                        "integer",
                        "a whole number")
                .forEach((word, kind) -> {
                    int is = lower.indexOf(" is ");
                    if (lower.substring(Math.max(0, lower.lastIndexOf("expected")))
                                    .contains(word)
                            && (is < 0 || lower.contains("expected"))) {
                        kinds.add(kind);
                    }
                });
        return kinds.isEmpty()
                ? "of another type"
                : String.join(" or ", kinds.stream().sorted().toList());
    }

    private static String shown(Tree tree) {
        return tree instanceof Tree.Scalar scalar && scalar.type() != Tree.Type.NULL
                ? "'" + scalar.text() + "'"
                : shape(tree);
    }

    private static String shape(Tree tree) {
        if (tree instanceof Tree.Mapping) {
            return "a block of keys";
        }
        if (tree instanceof Tree.Sequence) {
            return "a list";
        }
        return tree instanceof Tree.Scalar scalar
                ? switch (scalar.type()) {
                    case TEXT -> "the text '" + scalar.text() + "'";
                    case NUMBER -> "the number " + scalar.text();
                    case BOOLEAN -> "'" + scalar.text() + "'";
                    case NULL -> "nothing";
                }
                : "nothing";
    }

    private static JsonNode json(Tree tree, String pointer, Map<String, Tree> places) {
        JsonNodeFactory nodes = JsonNodeFactory.instance;
        places.put(pointer, tree);
        if (tree instanceof Tree.Mapping mapping) {
            ObjectNode object = nodes.objectNode();
            mapping.members().forEach((key, member) -> {
                String escaped = key.replace("~", "~0").replace("/", "~1");
                object.set(key, json(member.value(), pointer + "/" + escaped, places));
            });
            return object;
        }
        if (tree instanceof Tree.Sequence sequence) {
            var array = nodes.arrayNode();
            int index = 0;
            for (Tree item : sequence.items()) {
                array.add(json(item, pointer + "/" + index++, places));
            }
            return array;
        }
        Tree.Scalar scalar = (Tree.Scalar) tree;
        return switch (scalar.type()) {
            case TEXT -> nodes.textNode(scalar.text());
            case BOOLEAN -> nodes.booleanNode(Boolean.parseBoolean(scalar.text()));
            case NULL -> nodes.nullNode();
            case NUMBER -> number(scalar.text());
        };
    }

    private static JsonNode number(String text) {
        try {
            BigDecimal decimal = new BigDecimal(text.replace("_", ""));
            return decimal.stripTrailingZeros().scale() <= 0
                            && decimal.abs().compareTo(BigDecimal.valueOf(1L << 53)) < 0
                    ? JsonNodeFactory.instance.numberNode(decimal.longValueExact())
                    : JsonNodeFactory.instance.numberNode(decimal);
        } catch (ArithmeticException | NumberFormatException e) {
            return JsonNodeFactory.instance.textNode(text);
        }
    }
}
