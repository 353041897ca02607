package org.gerdy.cli.document;

import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import com.openhtmltopdf.svgsupport.BatikSVGDrawer;
import com.openhtmltopdf.util.XRLog;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URL;
import java.nio.charset.StandardCharsets;
import java.util.logging.Level;
import java.util.logging.Logger;
import javax.xml.XMLConstants;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import org.xml.sax.SAXException;

/** The HTML of a document as PDF: text that can be selected, bookmarks, page numbers, tags for screen readers. */
public final class Pdf {
    /** Held so that its level stays; the writer warns of fonts it does not use. */
    private static final Logger QUIET = Logger.getLogger("org.apache.pdfbox");

    private static final String FAMILY = "Liberation Sans";

    private Pdf() {}

    /** The PDF of a page written by {@link Rendering#html}. */
    public static byte[] of(String html) {
        XRLog.setLoggingEnabled(false);
        QUIET.setLevel(Level.SEVERE);
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try {
            PdfRendererBuilder builder = new PdfRendererBuilder();
            builder.useSVGDrawer(new BatikSVGDrawer());
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

    /** The fonts by address, so that text in drawings is set in them too; long tables repeat their head. */
    private static String style() {
        return face("Regular", "normal") + face("Bold", "bold") + "table { -fs-table-paginate: paginate; }";
    }

    private static String face(String cut, String weight) {
        URL font = Pdf.class.getResource("/liberation/LiberationSans-" + cut + ".ttf");
        if (font == null) {
            throw new IllegalStateException("The font LiberationSans-" + cut + " is missing.");
        }
        return "@font-face { font-family: \"" + FAMILY + "\"; font-weight: " + weight + "; src: url(\"" + font
                + "\"); -fs-font-subset: subset; }\n";
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
        Element style = parsed.createElementNS(head.getNamespaceURI(), "style");
        style.setTextContent(style());
        head.appendChild(style);
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
