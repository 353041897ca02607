package org.gerdy.engine.casefile;

import java.io.StringReader;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;
import org.yaml.snakeyaml.DumperOptions;
import org.yaml.snakeyaml.LoaderOptions;
import org.yaml.snakeyaml.Yaml;
import org.yaml.snakeyaml.constructor.SafeConstructor;
import org.yaml.snakeyaml.nodes.MappingNode;
import org.yaml.snakeyaml.nodes.Node;
import org.yaml.snakeyaml.nodes.NodeId;
import org.yaml.snakeyaml.nodes.NodeTuple;
import org.yaml.snakeyaml.nodes.ScalarNode;
import org.yaml.snakeyaml.nodes.SequenceNode;
import org.yaml.snakeyaml.nodes.Tag;
import org.yaml.snakeyaml.representer.Representer;
import org.yaml.snakeyaml.resolver.Resolver;

/** Edits YAML as a tree that keeps comments, quoting and the layout of each block. */
final class YamlEditor implements DocumentEditor {
    /** Written bare although YAML gives them a type of their own: numbers as recorded, and days. */
    private static final Pattern BARE = Pattern.compile("-?(0|[1-9][0-9]*)(\\.[0-9]+)?|[0-9]{4}-[0-9]{2}-[0-9]{2}");

    private static final int WIDTH = 110;

    private final Yaml yaml;
    private final Resolver resolver = new Resolver();
    private final MappingNode root;

    private YamlEditor(Optional<String> text) {
        LoaderOptions load = new LoaderOptions();
        load.setProcessComments(true);
        DumperOptions dump = new DumperOptions();
        dump.setProcessComments(true);
        dump.setDefaultFlowStyle(DumperOptions.FlowStyle.BLOCK);
        dump.setWidth(WIDTH);
        dump.setSplitLines(false);
        dump.setIndent(2);
        dump.setIndicatorIndent(2);
        dump.setIndentWithIndicator(true);
        dump.setAllowUnicode(true);
        dump.setLineBreak(DumperOptions.LineBreak.UNIX);
        yaml = new Yaml(new SafeConstructor(load), new Representer(dump), dump, load, resolver);
        Node node = text.map(given -> yaml.compose(new StringReader(given))).orElseGet(YamlEditor::block);
        if (!(node instanceof MappingNode mapping)) {
            throw new IllegalArgumentException("The document is not a block of keys.");
        }
        root = mapping;
    }

    static YamlEditor empty() {
        return new YamlEditor(Optional.empty());
    }

    static YamlEditor of(String text) {
        return new YamlEditor(Optional.of(text));
    }

    private static MappingNode block() {
        return new MappingNode(Tag.MAP, new ArrayList<>(), DumperOptions.FlowStyle.BLOCK);
    }

    @Override
    public void put(List<Object> path, Object value) {
        put(root, path, value);
    }

    private void put(Node at, List<Object> path, Object value) {
        Object step = path.get(0);
        List<Object> rest = path.subList(1, path.size());
        if (at instanceof MappingNode mapping && step instanceof String key) {
            int index = index(mapping, key);
            if (index < 0) {
                Node made = rest.isEmpty() ? node(value) : rest.get(0) instanceof Integer ? list(List.of()) : block();
                mapping.getValue().add(new NodeTuple(scalar(key), made));
                index = mapping.getValue().size() - 1;
            } else if (rest.isEmpty()) {
                NodeTuple old = mapping.getValue().get(index);
                Node made = node(value);
                made.setInLineComments(old.getValueNode().getInLineComments());
                mapping.getValue().set(index, new NodeTuple(old.getKeyNode(), made));
            }
            if (!rest.isEmpty()) {
                put(mapping.getValue().get(index).getValueNode(), rest, value);
            }
        } else if (at instanceof SequenceNode sequence && step instanceof Integer index) {
            if (index == sequence.getValue().size()) {
                sequence.getValue().add(rest.isEmpty() ? node(value) : block());
            } else if (rest.isEmpty()) {
                sequence.getValue().set(index, node(value));
            }
            if (!rest.isEmpty()) {
                put(sequence.getValue().get(index), rest, value);
            }
        } else {
            throw new IllegalArgumentException("The document has another shape at '" + step + "'.");
        }
    }

    @Override
    public void remove(List<Object> path) {
        Node at = root;
        for (Object step : path.subList(0, path.size() - 1)) {
            if (at instanceof MappingNode mapping && step instanceof String key && index(mapping, key) >= 0) {
                at = mapping.getValue().get(index(mapping, key)).getValueNode();
            } else if (at instanceof SequenceNode sequence && step instanceof Integer index) {
                at = sequence.getValue().get(index);
            } else {
                return;
            }
        }
        Object last = path.get(path.size() - 1);
        if (at instanceof MappingNode mapping && last instanceof String key && index(mapping, key) >= 0) {
            mapping.getValue().remove(index(mapping, key));
        } else if (at instanceof SequenceNode sequence && last instanceof Integer index) {
            sequence.getValue().remove(index.intValue());
        }
    }

    private static int index(MappingNode mapping, String key) {
        for (int i = 0; i < mapping.getValue().size(); i++) {
            if (mapping.getValue().get(i).getKeyNode() instanceof ScalarNode scalar
                    && scalar.getValue().equals(key)) {
                return i;
            }
        }
        return -1;
    }

    private Node node(Object value) {
        if (value instanceof Map<?, ?> map) {
            boolean leaf = map.values().stream().noneMatch(inner -> inner instanceof Map || inner instanceof List);
            boolean sides = leaf && map.size() <= 2;
            List<NodeTuple> members = new ArrayList<>();
            map.forEach((key, inner) -> members.add(new NodeTuple(scalar(String.valueOf(key)), node(inner))));
            return new MappingNode(
                    Tag.MAP, members, sides ? DumperOptions.FlowStyle.FLOW : DumperOptions.FlowStyle.BLOCK);
        }
        if (value instanceof Prose prose) {
            return prose(prose.text());
        }
        return value instanceof List<?> items ? list(items) : scalar(String.valueOf(value));
    }

    private SequenceNode list(List<?> items) {
        List<Node> nodes = new ArrayList<>();
        boolean flow = !items.isEmpty();
        for (Object item : items) {
            nodes.add(node(item));
            flow &= !(item instanceof Map);
        }
        return new SequenceNode(Tag.SEQ, nodes, flow ? DumperOptions.FlowStyle.FLOW : DumperOptions.FlowStyle.BLOCK);
    }

    private ScalarNode scalar(String text) {
        return BARE.matcher(text).matches()
                ? new ScalarNode(
                        resolver.resolve(NodeId.scalar, text, true), text, null, null, DumperOptions.ScalarStyle.PLAIN)
                : prose(text);
    }

    private ScalarNode prose(String text) {
        Tag bare = resolver.resolve(NodeId.scalar, text, true);
        DumperOptions.ScalarStyle style = text.contains("\n")
                ? DumperOptions.ScalarStyle.LITERAL
                : bare.equals(Tag.STR) ? DumperOptions.ScalarStyle.PLAIN : DumperOptions.ScalarStyle.DOUBLE_QUOTED;
        return new ScalarNode(Tag.STR, text, null, null, style);
    }

    @Override
    public byte[] bytes() {
        StringWriter out = new StringWriter();
        yaml.serialize(root, out);
        return out.toString().getBytes(StandardCharsets.UTF_8);
    }
}
