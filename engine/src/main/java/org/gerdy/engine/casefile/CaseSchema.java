package org.gerdy.engine.casefile;

import dev.harrel.jsonschema.Error;
import dev.harrel.jsonschema.JsonNode;
import dev.harrel.jsonschema.Validator;
import dev.harrel.jsonschema.ValidatorFactory;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.gerdy.engine.vocabulary.Catalogue;

/** Holds a document against the published JSON Schema and tells each fault at its place. */
final class CaseSchema {
    private static final String RESOURCE = "case.schema.json";
    private static final URI ID = URI.create("https://gerdy.example/case/1");
    private static final Pattern QUOTED = Pattern.compile("\\[([^\\[\\]]+)]");
    private static final Pattern WANTED = Pattern.compile("should be \\[([^\\[\\]]+)]");
    private static final Map<String, String> KINDS = Map.of(
            "object", "a block of keys",
            "array", "a list",
            "string", "text",
            "number", "a number",
            "integer", "a whole number");

    private final Validator validator;
    private final JsonNode schema;

    CaseSchema() {
        TreeNode.Factory nodes = new TreeNode.Factory();
        // The schema is ours and a test holds it against its own meta-schema; doing so at each start costs time.
        validator = new ValidatorFactory()
                .withJsonNodeFactory(nodes)
                .withDisabledSchemaValidation(true)
                .createValidator();
        schema = nodes.create(text());
        validator.registerSchema(ID, schema);
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
        Validator.Result result = validator.validate(ID, TreeNode.of(tree));
        if (result.isValid()) {
            return List.of();
        }
        Map<String, Tree> places = TreeNode.places(tree);
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
                    case "/visits/0/runs" -> "/$defs/runs/properties";
                    case "/visits/0/runs/sessions/0" -> "/$defs/session/properties";
                    case "/visits/0/run-log/0" -> "/$defs/run/properties";
                    case "/visits/0/plan" -> "/$defs/plan/properties";
                    case "/visits/0/plan/return" -> "/$defs/return/properties";
                    case "/visits/0/plan/supported" -> "/$defs/supported/properties";
                    case "/visits/0/review" -> "/$defs/said/properties";
                    case "/expect" -> "/$defs/expect/properties";
                    default -> "";
                };
        List<String> keys = new ArrayList<>();
        if (!properties.isEmpty()) {
            JsonNode at = schema;
            for (String key : properties.substring(1).split("/", -1)) {
                at = Objects.requireNonNull(at.asObject().get(key), key);
            }
            keys.addAll(at.asObject().keySet());
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
        JsonNode at = schema;
        for (String key : location.substring(location.indexOf('#') + 1).split("/", -1)) {
            if (!key.isEmpty() && at.isObject() && at.asObject().containsKey(key)) {
                at = Objects.requireNonNull(at.asObject().get(key), key);
            }
        }
        if (at.isObject() && at.asObject().containsKey("enum")) {
            at = Objects.requireNonNull(at.asObject().get("enum"), "enum");
        }
        return at.isArray()
                ? String.join(
                        ", ", at.asArray().stream().map(JsonNode::asString).toList())
                : "what the schema lists";
    }

    /** The kinds a type error names as wanted, in words. */
    private static String kinds(String message) {
        Matcher wanted = WANTED.matcher(message);
        return wanted.find()
                ? Arrays.stream(wanted.group(1).split(", "))
                        .map(kind -> KINDS.getOrDefault(kind, kind))
                        .collect(Collectors.joining(" or "))
                : "of another type";
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
}
