package org.gerdy.engine.load;

import java.io.InputStream;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import javax.xml.stream.XMLInputFactory;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.casefile.Problem;

/** An XML file read as a stream, with no document type, no entities of its own and nothing fetched. */
final class XmlEvents {
    /** Bound of a latitude, in degrees. */
    static final double POLE = 90;
    /** Bound of a longitude, in degrees. */
    static final double DATE_LINE = 180;

    private static final XMLInputFactory FACTORY = factory();
    /** Longer than any number, time or name that is read; more is not kept. */
    private static final int LONGEST_TEXT = 200;

    private final String file;
    private final XMLStreamReader xml;

    XmlEvents(String file, InputStream in) throws MendableException {
        this.file = file;
        try {
            this.xml = FACTORY.createXMLStreamReader(in);
        } catch (XMLStreamException e) {
            throw broken(e);
        }
    }

    private static XMLInputFactory factory() {
        XMLInputFactory factory = XMLInputFactory.newDefaultFactory();
        factory.setProperty(XMLInputFactory.SUPPORT_DTD, false);
        factory.setProperty(XMLInputFactory.IS_SUPPORTING_EXTERNAL_ENTITIES, false);
        factory.setProperty(XMLInputFactory.IS_COALESCING, false);
        factory.setXMLResolver((publicId, systemId, base, namespace) -> {
            throw new XMLStreamException("nothing outside the file is read");
        });
        return factory;
    }

    /** Moves to the next start or end of an element; false at the end of the file. */
    boolean next() throws MendableException {
        try {
            while (xml.hasNext()) {
                int event = xml.next();
                if (event == XMLStreamConstants.DTD || event == XMLStreamConstants.ENTITY_REFERENCE) {
                    throw at("The file declares a document type or uses an entity; neither belongs in a run file.");
                }
                if (event == XMLStreamConstants.START_ELEMENT || event == XMLStreamConstants.END_ELEMENT) {
                    return true;
                }
            }
            return false;
        } catch (XMLStreamException e) {
            throw broken(e);
        }
    }

    boolean isStart() {
        return xml.isStartElement();
    }

    /** Name without its namespace. */
    String name() {
        return xml.getLocalName();
    }

    int line() {
        return Math.max(0, xml.getLocation().getLineNumber());
    }

    Optional<String> attribute(String name) {
        return Optional.ofNullable(xml.getAttributeValue(null, name));
    }

    /** The number of an attribute, inside bounds. */
    OptionalDouble degrees(String name, double bound) throws MendableException {
        Optional<String> text = attribute(name);
        return text.isEmpty() ? OptionalDouble.empty() : OptionalDouble.of(degrees(name, text.get(), bound));
    }

    /** An angle inside plus or minus the bound. */
    double degrees(String name, String text, double bound) throws MendableException {
        double value = number(name, text);
        if (Math.abs(value) > bound) {
            throw at("'" + text + "' is no " + name + "; it lies within " + (int) bound + " degrees of zero.");
        }
        return value;
    }

    /** A finite number. */
    double number(String name, String text) throws MendableException {
        try {
            double value = Double.parseDouble(text.strip());
            if (Double.isFinite(value)) {
                return value;
            }
        } catch (NumberFormatException e) {
            throw at("'" + text + "' in " + name + " is not a number.");
        }
        throw at("'" + text + "' in " + name + " is not a number.");
    }

    /** The text of the element just started, up to its end. */
    String text() throws MendableException {
        StringBuilder text = new StringBuilder();
        int depth = 1;
        try {
            while (depth > 0 && xml.hasNext()) {
                int event = xml.next();
                if (event == XMLStreamConstants.START_ELEMENT) {
                    depth++;
                } else if (event == XMLStreamConstants.END_ELEMENT) {
                    depth--;
                } else if ((event == XMLStreamConstants.CHARACTERS || event == XMLStreamConstants.CDATA)
                        && text.length() < LONGEST_TEXT) {
                    text.append(xml.getText());
                } else if (event == XMLStreamConstants.ENTITY_REFERENCE) {
                    throw at("The file uses an entity of its own; none belongs in a run file.");
                }
            }
        } catch (XMLStreamException e) {
            throw broken(e);
        }
        return text.substring(0, Math.min(text.length(), LONGEST_TEXT)).strip();
    }

    MendableException at(String message) {
        return new MendableException(List.of(new Problem(file, line(), 0, message)));
    }

    private MendableException broken(XMLStreamException e) {
        int line = e.getLocation() == null ? 0 : Math.max(0, e.getLocation().getLineNumber());
        String reason = e.getMessage() == null ? "unreadable" : e.getMessage();
        int at = reason.indexOf("Message:");
        String told = (at < 0 ? reason : reason.substring(at + "Message:".length()))
                .lines()
                .findFirst()
                .orElse("unreadable")
                .strip();
        return new MendableException(List.of(new Problem(
                file,
                line,
                0,
                "This is not well-formed XML, or it was cut off: "
                        + (told.endsWith(".") ? told.substring(0, told.length() - 1) : told)
                        + ". Export the run again.")));
    }
}
