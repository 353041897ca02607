package org.gerdy.cli.intake;

import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import org.gerdy.engine.vocabulary.Catalogue;
import org.gerdy.engine.vocabulary.FindingDefinition;

/** Finds questions by section or by words. */
final class Finder {
    private final Catalogue catalogue;

    Finder(Catalogue catalogue) {
        this.catalogue = catalogue;
    }

    /** The sections, in catalogue order. */
    List<String> sections() {
        return catalogue.findings().stream()
                .map(FindingDefinition::section)
                .distinct()
                .toList();
    }

    /** The questions of a section. */
    List<String> of(String section) {
        return catalogue.findings().stream()
                .filter(finding -> finding.section().equals(section))
                .map(FindingDefinition::id)
                .toList();
    }

    /** The questions in whose id, words or test every one of these words stands. */
    List<String> matching(String words) {
        List<String> wanted = List.of(words.toLowerCase(Locale.ROOT).split("\\s+"));
        return catalogue.findings().stream()
                .filter(finding -> wanted.stream().allMatch(spoken(finding)::contains))
                .map(FindingDefinition::id)
                .toList();
    }

    /** What to say when nothing matches. */
    String nothing(String words) {
        Set<String> ids = new TreeSet<>();
        catalogue.findings().forEach(finding -> ids.add(finding.id()));
        return "Nothing matches '" + words + "'."
                + Catalogue.nearest(words, ids)
                        .map(near -> " Did you mean '" + near + "'?")
                        .orElse("");
    }

    private static String spoken(FindingDefinition finding) {
        return String.join(
                        " ",
                        finding.id(),
                        finding.id().replace('-', ' '),
                        finding.question(),
                        finding.technique(),
                        finding.section(),
                        finding.topic())
                .toLowerCase(Locale.ROOT);
    }
}
