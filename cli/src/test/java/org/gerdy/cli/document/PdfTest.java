package org.gerdy.cli.document;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.pdmodel.interactive.documentnavigation.outline.PDOutlineItem;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;

class PdfTest {
    private static final Map<String, Document> DOCUMENTS = Patients.documents();

    @Test
    void everyPdfHasSelectableTextBookmarksAndPageNumbers() throws Exception {
        for (Map.Entry<String, Document> entry : DOCUMENTS.entrySet()) {
            Document document = entry.getValue();
            try (PDDocument pdf = Loader.loadPDF(Pdf.of(Rendering.html(document, "A4")))) {
                String text = new PDFTextStripper().getText(pdf);
                assertThat(text).as(entry.getKey()).contains(document.title());
                List<String> headings = document.sections().stream()
                        .map(Document.Section::heading)
                        .toList();
                assertThat(text).contains(headings);
                assertThat(bookmarks(pdf)).containsExactlyElementsOf(headings);
                int pages = pdf.getNumberOfPages();
                for (int page = 1; page <= pages; page++) {
                    assertThat(text).contains("Page " + page + " of " + pages);
                }
                assertThat(pdf.getDocumentCatalog().getMarkInfo().isMarked()).isTrue();
                assertThat(pdf.getDocumentCatalog().getLanguage()).isEqualTo("en");
            }
        }
    }

    @Test
    void whatADrawingShowsStandsAsTextBesideItAndFontsAreEmbedded() throws Exception {
        Document summary = DOCUMENTS.get("demo-marlow-review summary");
        try (PDDocument pdf = Loader.loadPDF(Pdf.of(Rendering.html(summary, "A4")))) {
            assertThat(new PDFTextStripper().getText(pdf).replaceAll("\\s+", " "))
                    .contains("1: outer bump of the thigh bone (outer view)")
                    .containsPattern("[0-9]+% \\([0-9]+% to [0-9]+%\\), leading")
                    .contains("Scores against their first value")
                    .contains("Runs to come");
            int fonts = 0;
            for (PDPage page : pdf.getPages()) {
                for (var name : page.getResources().getFontNames()) {
                    fonts++;
                    assertThat(page.getResources().getFont(name).isEmbedded()).isTrue();
                }
            }
            assertThat(fonts).isPositive();
        }
    }

    @Test
    void aPdfIsWrittenForA4AndForLetter() throws Exception {
        Document handout = DOCUMENTS.get("demo-marlow-review handout");
        assertSize(Pdf.of(Rendering.html(handout, "A4")), PDRectangle.A4);
        assertSize(Pdf.of(Rendering.html(handout, "letter")), PDRectangle.LETTER);
    }

    private static void assertSize(byte[] bytes, PDRectangle size) throws Exception {
        try (PDDocument pdf = Loader.loadPDF(bytes)) {
            for (PDPage page : pdf.getPages()) {
                assertThat(page.getMediaBox().getWidth()).isBetween(size.getWidth() - 1, size.getWidth() + 1);
                assertThat(page.getMediaBox().getHeight()).isBetween(size.getHeight() - 1, size.getHeight() + 1);
            }
        }
    }

    private static List<String> bookmarks(PDDocument pdf) {
        List<String> titles = new ArrayList<>();
        for (PDOutlineItem item : pdf.getDocumentCatalog().getDocumentOutline().children()) {
            titles.add(item.getTitle());
        }
        return titles;
    }
}
