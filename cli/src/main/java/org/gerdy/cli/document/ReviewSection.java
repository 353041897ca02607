package org.gerdy.cli.document;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import java.util.Set;
import org.gerdy.cli.Words;
import org.gerdy.cli.document.Document.Block;
import org.gerdy.cli.document.Document.Bullets;
import org.gerdy.cli.document.Document.Fine;
import org.gerdy.cli.document.Document.Grid;
import org.gerdy.cli.document.Document.Heading;
import org.gerdy.cli.document.Document.Lead;
import org.gerdy.cli.document.Document.Para;
import org.gerdy.cli.document.Document.Section;
import org.gerdy.engine.care.Aftercare;
import org.gerdy.engine.review.Change;
import org.gerdy.engine.review.Measurement;
import org.gerdy.engine.review.Review;

/** What a review comes to, in the clinician's words. */
final class ReviewSection {
    private final Naming naming;

    ReviewSection(Naming naming) {
        this.naming = naming;
    }

    /** The review with thresholds, where they come from, and what others did. */
    Section of(Review review, Aftercare care) {
        return section(review, care, true);
    }

    /** The same without where the thresholds come from and what others did. */
    Section onSummary(Review review, Aftercare care) {
        return section(review, care, false);
    }

    private Section section(Review review, Aftercare care, boolean whole) {
        List<Block> blocks = new ArrayList<>();
        lead(review, blocks);
        blocks.add(new Para(Naming.weeks(review.weeks()) + " since the first visit. All scores together: "
                + response(review) + "."));
        if (review.changes().isEmpty()) {
            blocks.add(new Para("No score stands both at the first visit and today, so no change can be read."));
        } else {
            blocks.add(new Grid(
                    "Scores against their first value",
                    List.of("Score", "First", "Now", "Gain", "Error", "Change that matters", "Verdict"),
                    review.changes().stream().map(ReviewSection::row).toList()));
            blocks.add(ScoreChart.of(review.changes(), care.scores()));
            remarks(review.changes(), whole, blocks);
        }
        if (!review.stalled().isEmpty()) {
            blocks.add(new Para("Little change at two reviews in a row: " + String.join(", ", review.stalled()) + "."));
        }
        if (review.patientView().isPresent()) {
            blocks.add(new Para("The patient's own rating of the change: "
                    + Naming.number(review.patientView().getAsDouble()) + " (-7 to 7). "
                    + (review.viewDiffers()
                            ? "It points another way than the scores; both are shown, neither overrides the other."
                            : "It does not contradict the scores.")
                    + " Such a rating follows how things are now."));
        }
        due(review, blocks);
        if (whole) {
            blocks.add(new Heading("What others did"));
            blocks.add(new Bullets(review.expected().stream()
                    .map(row -> row.text() + " (" + row.population() + "; "
                            + row.basis().word() + ")")
                    .toList()));
            blocks.add(new Para("Each line is another group of people; together they make no curve."));
        }
        review.clinician().ifPresent(said -> {
            blocks.add(new Heading("The clinician's own decision"));
            blocks.add(new Para(said.decision() + " Reason: " + said.reason()));
        });
        return new Section("review", "Review", blocks);
    }

    /** The review in short. */
    Section brief(Review review) {
        List<Block> blocks = new ArrayList<>();
        lead(review, blocks);
        blocks.add(new Para(Naming.weeks(review.weeks()) + " since the first visit. All scores together: "
                + response(review) + ". 'gerdy review' shows the thresholds and where they come from."));
        blocks.add(new Bullets(review.changes().stream()
                .map(change -> change.instrument().label() + ": " + Naming.number(change.baseline()) + " to "
                        + Naming.number(change.now()) + ", " + change.verdict().words())
                .toList()));
        review.due().stream()
                .filter(Review.Due::certain)
                .forEach(due ->
                        blocks.add(new Para(due.row().text() + ": " + due.row().action())));
        review.clinician()
                .ifPresent(said -> blocks.add(
                        new Para("The clinician decided: " + said.decision() + " Reason: " + said.reason())));
        return new Section("review", "Review", blocks);
    }

    private void lead(Review review, List<Block> blocks) {
        if (!review.redFlags().raised().isEmpty()) {
            blocks.add(new Lead("Red flag at this visit: "
                    + String.join(
                            "; ",
                            review.redFlags().raised().stream()
                                    .map(naming.words()::flag)
                                    .toList())
                    + ". It comes before any score."));
        }
        if (!review.conclusive()) {
            blocks.add(new Lead("Ask the red flags again before any change is read: the danger questions of today are"
                    + " not all answered."));
        }
    }

    static String response(Review review) {
        return switch (review.response()) {
            case BETTER -> "better";
            case PARTIAL -> "partly better";
            case UNCHANGED -> "no sure change";
            case WORSE -> "worse";
            case NOT_KNOWN -> "cannot be told yet";
        };
    }

    private static List<String> row(Change change) {
        return List.of(
                change.instrument().label(),
                Naming.number(change.baseline()),
                Naming.number(change.now()),
                String.format(Locale.ROOT, "%+.2f", change.gain()).replaceAll("\\.?0+$", ""),
                points(change.threshold().errorPoints()),
                points(change.threshold().importantPoints()),
                change.verdict().words());
    }

    private static String points(OptionalDouble points) {
        return points.isPresent() ? Naming.number(points.getAsDouble()) : "not known";
    }

    private static void remarks(List<Change> changes, boolean whole, List<Block> blocks) {
        Set<String> remarks = new LinkedHashSet<>();
        for (Change change : changes) {
            if (!change.remark().isEmpty()) {
                remarks.add(change.instrument().label() + ": " + change.remark());
            }
            if (!change.threshold().borrowed().isEmpty()) {
                remarks.add(
                        change.instrument().label() + ": " + change.threshold().borrowed());
            }
            List<String> rows = new ArrayList<>();
            change.threshold().error().map(row -> "error " + source(row)).ifPresent(rows::add);
            change.threshold()
                    .important()
                    .map(row -> "change that matters " + source(row))
                    .ifPresent(rows::add);
            if (whole && !rows.isEmpty()) {
                remarks.add(change.instrument().label() + ", where the numbers come from: " + String.join("; ", rows)
                        + ".");
            }
        }
        if (!whole) {
            blocks.add(new Fine(String.join(" ", remarks)
                    + " 'gerdy review' says where each threshold comes from and what others did."));
        } else if (!remarks.isEmpty()) {
            blocks.add(new Bullets(List.copyOf(remarks)));
        }
    }

    private static String source(Measurement row) {
        return "from " + Words.plain(row.population()) + " (" + String.join(", ", row.sources()) + "; "
                + row.basis().word() + ")";
    }

    private void due(Review review, List<Block> blocks) {
        List<String> now = review.due().stream()
                .filter(Review.Due::certain)
                .map(due -> due.row().text() + ": " + due.row().action() + " ("
                        + due.row().within() + ")")
                .toList();
        List<String> ask = review.due().stream()
                .filter(due -> !due.certain())
                .map(due -> due.row().text() + ": find out first: "
                        + String.join(
                                "; ",
                                due.ask().stream().map(naming.words()::finding).toList()))
                .toList();
        if (now.isEmpty()) {
            blocks.add(new Para("Thresholds reached: none."));
        } else {
            blocks.add(new Heading("Thresholds reached"));
            blocks.add(new Bullets(now));
        }
        if (!ask.isEmpty()) {
            blocks.add(new Heading("Thresholds that more answers would settle"));
            blocks.add(new Bullets(ask));
        }
    }
}
