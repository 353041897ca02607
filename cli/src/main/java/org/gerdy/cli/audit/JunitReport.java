package org.gerdy.cli.audit;

import java.io.StringWriter;
import java.util.Map;
import java.util.stream.Collectors;
import javax.xml.stream.XMLOutputFactory;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamWriter;
import org.gerdy.engine.audit.Against;
import org.gerdy.engine.audit.Audit;
import org.gerdy.engine.audit.Coverage;
import org.gerdy.engine.audit.Difference;
import org.gerdy.engine.audit.Expected;

/** An audit as JUnit XML: one test a case, one a rule or row (skipped when nothing guards it), one a changed case. */
public final class JunitReport {
    private JunitReport() {}

    /** The document. */
    public static String of(Report report) {
        StringWriter out = new StringWriter();
        try {
            XMLStreamWriter xml = XMLOutputFactory.newFactory().createXMLStreamWriter(out);
            xml.writeStartDocument("UTF-8", "1.0");
            xml.writeCharacters("\n");
            xml.writeStartElement("testsuites");
            xml.writeAttribute(
                    "name", "gerdy audit " + report.knowledge().identity().sha256());
            cases(xml, report.audit());
            guarded(xml, "rules", report.audit().coverage().rules());
            guarded(xml, "rows", report.audit().coverage().rows());
            guarded(xml, "evidence", report.audit().coverage().evidence());
            guarded(xml, "instruments", report.audit().coverage().instruments());
            if (report.against().isPresent()) {
                against(xml, report.against().get());
            }
            xml.writeEndElement();
            xml.writeCharacters("\n");
            xml.writeEndDocument();
            xml.close();
        } catch (XMLStreamException e) {
            throw new IllegalStateException("XML in memory cannot fail.", e);
        }
        return out.toString();
    }

    private static void suite(XMLStreamWriter xml, String name, int tests, int failures, int skipped)
            throws XMLStreamException {
        xml.writeStartElement("testsuite");
        xml.writeAttribute("name", name);
        xml.writeAttribute("tests", Integer.toString(tests));
        xml.writeAttribute("failures", Integer.toString(failures));
        xml.writeAttribute("errors", "0");
        xml.writeAttribute("skipped", Integer.toString(skipped));
    }

    private static void test(XMLStreamWriter xml, String suite, String name) throws XMLStreamException {
        xml.writeStartElement("testcase");
        xml.writeAttribute("classname", suite);
        xml.writeAttribute("name", clean(name));
    }

    private static void cases(XMLStreamWriter xml, Audit audit) throws XMLStreamException {
        suite(xml, "cases", audit.results().size(), audit.differing().size(), 0);
        for (Audit.Result result : audit.results()) {
            String title = result.auditCase().caseFile().title();
            test(xml, "cases", result.auditCase().id() + (title.isEmpty() ? "" : ": " + title));
            if (!result.holds()) {
                failure(
                        xml,
                        result.differences().stream().map(Difference::toString).collect(Collectors.joining("\n")));
            }
            xml.writeEndElement();
        }
        xml.writeEndElement();
    }

    private static void failure(XMLStreamWriter xml, String text) throws XMLStreamException {
        xml.writeStartElement("failure");
        xml.writeAttribute("message", clean(text.lines().findFirst().orElse("")));
        xml.writeCharacters(clean(text));
        xml.writeEndElement();
    }

    private static void guarded(XMLStreamWriter xml, String suite, Map<String, Coverage.Touched> all)
            throws XMLStreamException {
        int bare = (int) all.values().stream().filter(one -> !one.guarded()).count();
        suite(xml, suite, all.size(), 0, bare);
        for (Map.Entry<String, Coverage.Touched> one : all.entrySet()) {
            test(xml, suite, one.getKey());
            if (!one.getValue().guarded()) {
                xml.writeStartElement("skipped");
                xml.writeAttribute(
                        "message", one.getValue().fire().isEmpty() ? "no case fires it" : "no case just misses it");
                xml.writeEndElement();
            }
            xml.writeEndElement();
        }
        xml.writeEndElement();
    }

    private static void against(XMLStreamWriter xml, Against against) throws XMLStreamException {
        suite(xml, "against", against.cases().size(), against.cases().size(), 0);
        for (Against.Changed one : against.cases()) {
            test(xml, "against", one.auditCase().id());
            failure(
                    xml,
                    (one.fall() > 0 ? "URGENCY FELL from " : "urgency from ") + Expected.word(one.before()) + " to "
                            + Expected.word(one.after()) + "\n"
                            + one.conclusions().stream()
                                    .map(moved -> moved.conclusion() + ": " + moved.before() + " -> " + moved.after())
                                    .collect(Collectors.joining("\n")));
            xml.writeEndElement();
        }
        xml.writeEndElement();
    }

    /** Characters XML 1.0 cannot hold become a question mark. */
    private static String clean(String text) {
        return text.codePoints()
                .map(c -> c == 9
                                || c == 10
                                || c == 13
                                || (c >= 32 && c <= 0xD7FF)
                                || (c >= 0xE000 && c <= 0xFFFD)
                                || c >= 0x10000
                        ? c
                        : '?')
                .collect(StringBuilder::new, StringBuilder::appendCodePoint, StringBuilder::append)
                .toString();
    }
}
