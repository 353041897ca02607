package org.gerdy.cli.document;

import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder.FontStyle;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import com.openhtmltopdf.svgsupport.BatikSVGDrawer;
import com.openhtmltopdf.util.XRLog;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import javax.xml.XMLConstants;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import org.xml.sax.SAXException;

/** The HTML of a document as PDF: text that can be selected, bookmarks, page numbers, tags for screen readers. */
public final class Pdf {
    private static final String FAMILY = "Liberation Sans";

    private Pdf() {}

    /** The PDF of a page written by {@link Rendering#html}. */
    public static byte[] of(String html) {
        XRLog.setLoggingEnabled(false);
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try {
            PdfRendererBuilder builder = new PdfRendererBuilder();
            builder.useSVGDrawer(new BatikSVGDrawer());
            font(builder, "Regular", 400, FontStyle.NORMAL);
            font(builder, "Bold", 700, FontStyle.NORMAL);
            builder.usePdfUaAccessibility(true);
            builder.withProducer("gerdy");
            builder.withW3cDocument(withBookmarks(html), null);
            builder.toStream(out);
            builder.run();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return out.toByteArray();
    }

    private static void font(PdfRendererBuilder builder, String cut, int weight, FontStyle style) {
        builder.useFont(
                () -> {
                    InputStream in = Pdf.class.getResourceAsStream("/liberation/LiberationSans-" + cut + ".ttf");
                    if (in == null) {
                        throw new IllegalStateException("The font LiberationSans-" + cut + " is missing.");
                    }
                    return in;
                },
                FAMILY,
                weight,
                style,
                true);
    }

    /** Bookmarks are no part of HTML; they are made from the headings for this use alone. */
    private static org.w3c.dom.Document withBookmarks(String html) throws IOException {
        org.w3c.dom.Document parsed = parse(html);
        Element head = (Element) parsed.getElementsByTagName("head").item(0);
        Element bookmarks = parsed.createElementNS(null, "bookmarks");
        NodeList headings = parsed.getElementsByTagName("h2");
        for (int i = 0; i < headings.getLength(); i++) {
            Element heading = (Element) headings.item(i);
            Element bookmark = parsed.createElementNS(null, "bookmark");
            bookmark.setAttribute("name", heading.getTextContent());
            bookmark.setAttribute("href", "#" + heading.getAttribute("id"));
            bookmarks.appendChild(bookmark);
        }
        head.appendChild(bookmarks);
        return parsed;
    }

    private static org.w3c.dom.Document parse(String html) throws IOException {
        try {
            DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
            factory.setNamespaceAware(true);
            factory.setFeature(XMLConstants.FEATURE_SECURE_PROCESSING, true);
            factory.setAttribute(XMLConstants.ACCESS_EXTERNAL_DTD, "");
            return factory.newDocumentBuilder().parse(new ByteArrayInputStream(html.getBytes(StandardCharsets.UTF_8)));
        } catch (ParserConfigurationException | SAXException e) {
            throw new IllegalStateException("The page is not well-formed: " + e.getMessage(), e);
        }
    }
}
