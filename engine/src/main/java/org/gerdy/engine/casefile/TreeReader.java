package org.gerdy.engine.casefile;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonLocation;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.core.StreamReadConstraints;
import com.fasterxml.jackson.dataformat.yaml.JacksonYAMLParseException;
import com.fasterxml.jackson.dataformat.yaml.YAMLFactory;
import com.fasterxml.jackson.dataformat.yaml.YAMLParser;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.CharsetDecoder;
import java.nio.charset.CoderResult;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Reads YAML or JSON into a {@link Tree}, refusing what could be misread: duplicate keys, anchors, bad UTF-8, great depth. */
final class TreeReader {
    /** Deeper than any case needs; a file beyond it is not a case. */
    private static final int GREATEST_DEPTH = 40;
    /** In characters. */
    private static final int LONGEST_LINE = 200_000;

    private static final Pattern MARK = Pattern.compile("^ in .*, line ([0-9]+), column ([0-9]+):?$");

    private static final StreamReadConstraints LIMITS = StreamReadConstraints.builder()
            .maxNestingDepth(GREATEST_DEPTH)
            .maxStringLength(LONGEST_LINE)
            .build();
    private static final JsonFactory JSON =
            JsonFactory.builder().streamReadConstraints(LIMITS).build();
    private static final YAMLFactory YAML =
            YAMLFactory.builder().streamReadConstraints(LIMITS).build();

    private final String file;
    private final List<Problem> problems;

    TreeReader(String file, List<Problem> problems) {
        this.file = file;
        this.problems = problems;
    }

    /** The document, or an exception when its shape cannot be read at all. Lesser faults go to the problem list. */
    Tree read(byte[] bytes) throws MendableException {
        String text = decode(bytes);
        if (text.isBlank()) {
            throw new MendableException(file, "The file is empty; a case starts with 'gerdy: 1'.");
        }
        boolean json = text.stripLeading().startsWith("{");
        if (!json) {
            refuseEndlessLines(text);
        }
        JsonFactory factory = json ? JSON : YAML;
        try (JsonParser parser = factory.createParser(text)) {
            if (parser.nextToken() == null) {
                throw new MendableException(file, "The file holds only comments; a case starts with 'gerdy: 1'.");
            }
            Tree tree = value(parser);
            if (parser.nextToken() != null) {
                throw at(parser.currentTokenLocation(), "A second document starts here; a case file holds one case.");
            }
            return tree;
        } catch (JacksonYAMLParseException e) {
            throw notYaml(e);
        } catch (JsonProcessingException e) {
            String reason = firstLine(e.getOriginalMessage());
            String told = reason.contains("nesting depth")
                    ? "Nested more than " + GREATEST_DEPTH + " levels deep; a case needs fewer than ten."
                    : "This is not well-formed " + (json ? "JSON" : "YAML") + ": " + reason + ".";
            throw at(e.getLocation(), told);
        } catch (IOException e) {
            throw new MendableException(file, "The file could not be read: " + e.getMessage() + ".");
        }
    }

    private Tree value(JsonParser parser) throws IOException, MendableException {
        refuseAnchors(parser);
        Tree.Place place = place(parser.currentTokenLocation());
        return switch (parser.currentToken()) {
            case START_OBJECT -> mapping(parser, place);
            case START_ARRAY -> sequence(parser, place);
            case VALUE_STRING -> new Tree.Scalar(place, Tree.Type.TEXT, parser.getText());
            case VALUE_NUMBER_INT, VALUE_NUMBER_FLOAT -> new Tree.Scalar(place, Tree.Type.NUMBER, parser.getText());
            case VALUE_TRUE, VALUE_FALSE -> flag(place, parser.getText());
            default -> new Tree.Scalar(place, Tree.Type.NULL, "");
        };
    }

    /** YAML 1.1 reads a bare no, yes, on or off as true or false; in a case file they are words. */
    private static Tree flag(Tree.Place place, String text) {
        boolean meant = text.equals("true") || text.equals("false");
        return new Tree.Scalar(place, meant ? Tree.Type.BOOLEAN : Tree.Type.TEXT, text);
    }

    private Tree mapping(JsonParser parser, Tree.Place place) throws IOException, MendableException {
        Map<String, Tree.Member> members = new LinkedHashMap<>();
        while (parser.nextToken() == JsonToken.FIELD_NAME) {
            refuseAnchors(parser);
            Tree.Place key = place(parser.currentTokenLocation());
            String name = parser.currentName();
            parser.nextToken();
            Tree.Member member = new Tree.Member(key, value(parser));
            Tree.Member earlier = members.putIfAbsent(name, member);
            if (earlier != null) {
                problems.add(new Problem(
                        file,
                        key.line(),
                        key.column(),
                        "'" + name + "' stands here a second time; the first is on line "
                                + earlier.key().line() + ". Keep one of them."));
            }
        }
        return new Tree.Mapping(place, members);
    }

    private Tree sequence(JsonParser parser, Tree.Place place) throws IOException, MendableException {
        List<Tree> items = new ArrayList<>();
        while (parser.nextToken() != JsonToken.END_ARRAY) {
            items.add(value(parser));
        }
        return new Tree.Sequence(place, items);
    }

    /** Anchors and aliases can make a small file explode, and no case needs them. */
    private void refuseAnchors(JsonParser parser) throws IOException, MendableException {
        if (parser instanceof YAMLParser yaml && (yaml.isCurrentAlias() || yaml.getObjectId() != null)) {
            throw at(
                    parser.currentTokenLocation(),
                    "YAML anchors and aliases (& and *) are not read in case files; write the value out.");
        }
    }

    private String decode(byte[] bytes) throws MendableException {
        CharsetDecoder decoder = StandardCharsets.UTF_8
                .newDecoder()
                .onMalformedInput(CodingErrorAction.REPORT)
                .onUnmappableCharacter(CodingErrorAction.REPORT);
        ByteBuffer in = ByteBuffer.wrap(bytes);
        CharBuffer out = CharBuffer.allocate(bytes.length + 1);
        CoderResult result = decoder.decode(in, out, true);
        String text = out.flip().toString();
        if (result.isError()) {
            long line = text.chars().filter(c -> c == '\n').count() + 1;
            int column = text.length() - text.lastIndexOf('\n');
            throw new MendableException(List.of(new Problem(
                    file, (int) line, column, "A byte here is not UTF-8; save the file as UTF-8 text and try again.")));
        }
        return text.startsWith("\uFEFF") ? text.substring(1) : text;
    }

    private MendableException at(JsonLocation location, String message) {
        Tree.Place place = place(location);
        return new MendableException(List.of(new Problem(file, place.line(), place.column(), message)));
    }

    /** The parser tells where it stood and, last, what was wrong and where; the last is the one to mend. */
    private MendableException notYaml(JacksonYAMLParseException e) {
        List<String> lines = e.getOriginalMessage().lines().toList();
        for (int i = lines.size() - 1; i > 0; i--) {
            Matcher mark = MARK.matcher(lines.get(i));
            if (mark.find()) {
                String told = lines.get(i - 1).strip().replaceAll("\\.$", "");
                return new MendableException(List.of(new Problem(
                        file,
                        Integer.parseInt(mark.group(1)),
                        Integer.parseInt(mark.group(2)),
                        "This is not well-formed YAML: " + told + ".")));
            }
        }
        return at(e.getLocation(), "This is not well-formed YAML: " + firstLine(e.getOriginalMessage()) + ".");
    }

    /** The parser takes time by the square of a run without spaces; no case has such a line. */
    private void refuseEndlessLines(String text) throws MendableException {
        int line = 1;
        int start = 0;
        for (int end = text.indexOf('\n'); start < text.length(); end = text.indexOf('\n', start)) {
            if ((end < 0 ? text.length() : end) - start > LONGEST_LINE) {
                throw new MendableException(List.of(new Problem(
                        file, line, 0, "This line is longer than " + LONGEST_LINE + " characters; break it up.")));
            }
            if (end < 0) {
                return;
            }
            start = end + 1;
            line++;
        }
    }

    private static Tree.Place place(JsonLocation location) {
        return location == null
                ? new Tree.Place(1, 1)
                : new Tree.Place(Math.max(1, location.getLineNr()), Math.max(1, location.getColumnNr()));
    }

    private static String firstLine(String message) {
        String line = message.lines()
                .findFirst()
                .orElse("unreadable")
                .replaceFirst("\\s*\\(start marker.*$", "")
                .strip();
        return line.endsWith(".") ? line.substring(0, line.length() - 1) : line;
    }
}
