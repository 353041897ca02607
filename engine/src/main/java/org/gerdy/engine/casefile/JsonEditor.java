package org.gerdy.engine.casefile;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.cfg.JsonNodeFeature;
import com.fasterxml.jackson.databind.json.JsonMapper;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;

/** Edits JSON; numbers keep the digits they were written with. */
final class JsonEditor implements DocumentEditor {
    private static final ObjectMapper JSON = JsonMapper.builder()
            .enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS)
            .disable(JsonNodeFeature.STRIP_TRAILING_BIGDECIMAL_ZEROES)
            .build();
    private static final Pattern WHOLE = Pattern.compile("-?(0|[1-9][0-9]{0,14})");

    private final ObjectNode root;

    private JsonEditor(ObjectNode root) {
        this.root = root;
    }

    static JsonEditor of(String text) {
        try {
            if (JSON.readTree(text) instanceof ObjectNode root) {
                return new JsonEditor(root);
            }
        } catch (JsonProcessingException e) {
            throw new IllegalArgumentException("The document is not JSON.", e);
        }
        throw new IllegalArgumentException("The document is not a block of keys.");
    }

    @Override
    public void put(List<Object> path, Object value) {
        JsonNode at = root;
        for (int i = 0; i < path.size() - 1; i++) {
            at = inner(at, path.get(i), path.get(i + 1) instanceof Integer);
        }
        Object last = path.get(path.size() - 1);
        if (at instanceof ObjectNode object && last instanceof String key) {
            object.set(key, node(value));
        } else if (at instanceof ArrayNode array && last instanceof Integer index) {
            if (index == array.size()) {
                array.add(node(value));
            } else {
                array.set(index, node(value));
            }
        }
    }

    private static JsonNode inner(JsonNode at, Object step, boolean list) {
        if (at instanceof ObjectNode object && step instanceof String key) {
            if (!object.has(key)) {
                object.set(key, list ? JSON.createArrayNode() : JSON.createObjectNode());
            }
            return object.get(key);
        }
        if (at instanceof ArrayNode array && step instanceof Integer index) {
            if (index == array.size()) {
                array.addObject();
            }
            return array.get(index);
        }
        throw new IllegalArgumentException("The document has another shape at '" + step + "'.");
    }

    @Override
    public void remove(List<Object> path) {
        JsonNode at = root;
        for (Object step : path.subList(0, path.size() - 1)) {
            at = step instanceof Integer index ? at.path(index) : at.path((String) step);
        }
        Object last = path.get(path.size() - 1);
        if (at instanceof ObjectNode object && last instanceof String key) {
            object.remove(key);
        } else if (at instanceof ArrayNode array && last instanceof Integer index) {
            array.remove(index.intValue());
        }
    }

    private static JsonNode node(Object value) {
        if (value instanceof Map<?, ?> map) {
            ObjectNode object = JSON.createObjectNode();
            map.forEach((key, inner) -> object.set(String.valueOf(key), node(inner)));
            return object;
        }
        if (value instanceof List<?> items) {
            ArrayNode array = JSON.createArrayNode();
            items.forEach(item -> array.add(node(item)));
            return array;
        }
        if (value instanceof Prose prose) {
            return JSON.getNodeFactory().textNode(prose.text());
        }
        String text = String.valueOf(value);
        return WHOLE.matcher(text).matches()
                ? JSON.getNodeFactory().numberNode(Long.parseLong(text))
                : JSON.getNodeFactory().textNode(text);
    }

    @Override
    public byte[] bytes() {
        return (root.toPrettyString() + "\n").getBytes(StandardCharsets.UTF_8);
    }
}
