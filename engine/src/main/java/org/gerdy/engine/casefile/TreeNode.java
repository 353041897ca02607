package org.gerdy.engine.casefile;

import dev.harrel.jsonschema.JsonNode;
import dev.harrel.jsonschema.JsonNodeFactory;
import dev.harrel.jsonschema.SimpleType;
import java.math.BigDecimal;
import java.math.BigInteger;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** A tree as the schema validator sees it, so that a document is parsed once and no second JSON model is loaded. */
final class TreeNode implements JsonNode {
    /** Whole numbers from here on are not exact in other readers of JSON, so they do not count as whole. */
    private static final BigDecimal LARGEST_WHOLE = BigDecimal.valueOf(1L << 53);

    private final Tree tree;
    private final String pointer;

    private TreeNode(Tree tree, String pointer) {
        this.tree = tree;
        this.pointer = pointer;
    }

    /** The whole document. */
    static TreeNode of(Tree tree) {
        return new TreeNode(tree, "");
    }

    /** Every part of the tree by its JSON pointer, outer parts first. */
    static Map<String, Tree> places(Tree tree) {
        Map<String, Tree> places = new LinkedHashMap<>();
        of(tree).addTo(places);
        return places;
    }

    private void addTo(Map<String, Tree> places) {
        places.put(pointer, tree);
        if (tree instanceof Tree.Mapping mapping) {
            mapping.members()
                    .forEach((key, member) -> child(key, member.value()).addTo(places));
        } else if (tree instanceof Tree.Sequence sequence) {
            for (int i = 0; i < sequence.items().size(); i++) {
                item(sequence, i).addTo(places);
            }
        }
    }

    private TreeNode child(String key, Tree value) {
        return new TreeNode(value, pointer + "/" + JsonNode.encodeJsonPointer(key));
    }

    private TreeNode item(Tree.Sequence sequence, int index) {
        return new TreeNode(sequence.items().get(index), pointer + "/" + index);
    }

    @Override
    public String getJsonPointer() {
        return pointer;
    }

    @Override
    public SimpleType getNodeType() {
        if (tree instanceof Tree.Mapping) {
            return SimpleType.OBJECT;
        }
        if (tree instanceof Tree.Sequence) {
            return SimpleType.ARRAY;
        }
        return switch (((Tree.Scalar) tree).type()) {
            case TEXT -> SimpleType.STRING;
            case BOOLEAN -> SimpleType.BOOLEAN;
            case NULL -> SimpleType.NULL;
            case NUMBER -> numberType(asString());
        };
    }

    private static SimpleType numberType(String text) {
        try {
            BigDecimal number = decimal(text);
            boolean whole =
                    number.stripTrailingZeros().scale() <= 0 && number.abs().compareTo(LARGEST_WHOLE) < 0;
            return whole ? SimpleType.INTEGER : SimpleType.NUMBER;
        } catch (ArithmeticException | NumberFormatException e) {
            // YAML writes some numbers as JSON cannot, such as .inf; they stay text.
            return SimpleType.STRING;
        }
    }

    private static BigDecimal decimal(String text) {
        return new BigDecimal(text.replace("_", ""));
    }

    @Override
    public boolean asBoolean() {
        return Boolean.parseBoolean(asString());
    }

    @Override
    public String asString() {
        return ((Tree.Scalar) tree).text();
    }

    @Override
    public BigInteger asInteger() {
        return asNumber().toBigInteger();
    }

    @Override
    public BigDecimal asNumber() {
        return decimal(asString());
    }

    @Override
    public List<JsonNode> asArray() {
        Tree.Sequence sequence = (Tree.Sequence) tree;
        List<JsonNode> items = new ArrayList<>();
        for (int i = 0; i < sequence.items().size(); i++) {
            items.add(item(sequence, i));
        }
        return items;
    }

    @Override
    public Map<String, JsonNode> asObject() {
        Map<String, JsonNode> members = new LinkedHashMap<>();
        ((Tree.Mapping) tree).members().forEach((key, member) -> members.put(key, child(key, member.value())));
        return members;
    }

    /** Makes nodes of text and of trees. */
    static final class Factory implements JsonNodeFactory {
        @Override
        public JsonNode wrap(Object node) {
            return node instanceof JsonNode made ? made : of((Tree) node);
        }

        @Override
        public JsonNode create(String json) {
            try {
                return of(new TreeReader("schema", new ArrayList<>()).read(json.getBytes(StandardCharsets.UTF_8)));
            } catch (MendableException e) {
                throw new IllegalArgumentException(e.getMessage(), e);
            }
        }
    }
}
