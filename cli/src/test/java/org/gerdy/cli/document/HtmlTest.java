package org.gerdy.cli.document;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assumptions.assumeThat;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import nu.validator.client.EmbeddedValidator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class HtmlTest {
    private static final Map<String, Document> DOCUMENTS = Patients.documents();
    private static final String AXE = "/META-INF/resources/webjars/axe-core/4.6.3/axe.min.js";

    @Test
    void everyPageIsValidHtml() throws Exception {
        for (Map.Entry<String, Document> entry : DOCUMENTS.entrySet()) {
            EmbeddedValidator validator = new EmbeddedValidator();
            validator.setOutputFormat(EmbeddedValidator.OutputFormat.GNU);
            String told = validator.validate(new ByteArrayInputStream(
                    Rendering.html(entry.getValue(), "A4").getBytes(StandardCharsets.UTF_8)));
            assertThat(told.lines().filter(line -> line.contains("error") || line.contains("warning")))
                    .as(entry.getKey())
                    .isEmpty();
        }
    }

    @Test
    void theValidatorSeesAFault() throws Exception {
        EmbeddedValidator validator = new EmbeddedValidator();
        validator.setOutputFormat(EmbeddedValidator.OutputFormat.GNU);
        String page = Rendering.html(DOCUMENTS.values().iterator().next(), "").replaceFirst("<main>", "<main><li>");
        assertThat(validator.validate(new ByteArrayInputStream(page.getBytes(StandardCharsets.UTF_8))))
                .contains("error");
    }

    @Test
    void noPageFetchesAnythingOrRunsAScript() {
        DOCUMENTS.forEach((name, document) -> {
            String page = Rendering.html(document, "")
                    .replace("http://www.w3.org/2000/svg", "")
                    .replace("http://www.w3.org/1999/xhtml", "");
            assertThat(page)
                    .as(name)
                    .doesNotContain("<script", "<link", "<img", "<iframe", "url(", "@import", "src=", "href=");
        });
    }

    @Test
    void everyPictureHasItsOwnTitleAndDescription() {
        int pictures = 0;
        for (Map.Entry<String, Document> entry : DOCUMENTS.entrySet()) {
            String page = Rendering.html(entry.getValue(), "");
            Matcher svg = Pattern.compile("<svg [^>]*>").matcher(page);
            while (svg.find()) {
                pictures++;
                Matcher labelled = Pattern.compile("role=\"img\" aria-labelledby=\"([^ ]+) ([^\"]+)\"")
                        .matcher(svg.group());
                assertThat(labelled.find()).as(svg.group()).isTrue();
                assertThat(page).containsPattern("<title id=\"" + labelled.group(1) + "\">[^<]{5,}</title>");
                assertThat(page).containsPattern("<desc id=\"" + labelled.group(2) + "\">[^<]{10,}</desc>");
            }
        }
        assertThat(pictures).isGreaterThan(15);
    }

    @Test
    void everyPictureIsBlackWhiteAndGrey() {
        DOCUMENTS.forEach((name, document) -> {
            Matcher colour = Pattern.compile("(?:fill|stroke|color|background)(?:=\"|: ?)#([0-9a-f]{3,6})")
                    .matcher(Rendering.html(document, ""));
            while (colour.find()) {
                assertThat(colour.group(1)).as(name).matches("([0-9a-f])\\1+");
            }
        });
    }

    @Test
    void everyPictureSaysItsContentInTheTextOfTheSameDocument() {
        for (Document document : DOCUMENTS.values()) {
            for (Document.Section section : document.sections()) {
                boolean table = section.blocks().stream().anyMatch(Document.Grid.class::isInstance);
                section.blocks().stream()
                        .filter(Document.Picture.class::isInstance)
                        .map(Document.Picture.class::cast)
                        .forEach(picture -> assertThat(table || !picture.words().isEmpty())
                                .as(picture.caption())
                                .isTrue());
            }
        }
    }

    @Test
    void everyPagePassesTheAccessibilityRulesInABrowser(@TempDir Path directory) throws Exception {
        Optional<String> browser = browser();
        assumeThat(browser)
                .as("no browser is installed; 'apt-get install chromium' lets this test run")
                .isPresent();
        for (Map.Entry<String, Document> entry : DOCUMENTS.entrySet()) {
            String dom = run(browser.get(), directory, Rendering.html(entry.getValue(), ""));
            assertThat(dom).as(entry.getKey()).contains("axe-passes-");
            assertThat(found(dom)).as(entry.getKey()).isEmpty();
        }
    }

    @Test
    void theAccessibilityRulesSeeAFault(@TempDir Path directory) throws Exception {
        Optional<String> browser = browser();
        assumeThat(browser).as("no browser is installed").isPresent();
        String page = Rendering.html(DOCUMENTS.values().iterator().next(), "").replace(" lang=\"en\"", "");
        assertThat(found(run(browser.get(), directory, page))).contains("html-has-lang");
    }

    private static List<String> found(String dom) {
        List<String> found = new ArrayList<>();
        Matcher violation = Pattern.compile("axe-violation-([a-z-]+)").matcher(dom);
        while (violation.find()) {
            found.add(violation.group(1));
        }
        return found;
    }

    /** The page as the browser leaves it after the rules have run and written what they found into it. */
    private static String run(String browser, Path directory, String page) throws Exception {
        String axe;
        try (InputStream in = HtmlTest.class.getResourceAsStream(AXE)) {
            axe = new String(in.readAllBytes(), StandardCharsets.UTF_8);
        }
        Files.writeString(directory.resolve("axe.js"), axe);
        Path file = directory.resolve("page.html");
        Files.writeString(
                file,
                page.replace(
                        "</body>",
                        "<script src=\"axe.js\"></script><script>axe.run(document).then(function(r){"
                                + "var s='';r.violations.forEach(function(v){s+=' axe-violation-'+v.id;});"
                                + "document.body.setAttribute('data-axe',s+' axe-passes-'+r.passes.length);});"
                                + "</script></body>"));
        Process process = new ProcessBuilder(
                        browser,
                        "--headless",
                        "--no-sandbox",
                        "--disable-gpu",
                        "--disable-dev-shm-usage",
                        "--allow-file-access-from-files",
                        "--user-data-dir=" + directory.resolve("profile"),
                        "--virtual-time-budget=20000",
                        "--dump-dom",
                        file.toUri().toString())
                .redirectError(ProcessBuilder.Redirect.DISCARD)
                .start();
        String dom = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        process.waitFor(60, TimeUnit.SECONDS);
        Matcher attribute = Pattern.compile("data-axe=\"([^\"]*)\"").matcher(dom);
        return attribute.find() ? attribute.group(1) : "";
    }

    private static Optional<String> browser() throws IOException {
        String path = System.getenv("PATH");
        for (String name : List.of("chromium", "chromium-browser", "google-chrome")) {
            Optional<Path> found = Stream.of(path.split(java.io.File.pathSeparator))
                    .map(directory -> Path.of(directory, name))
                    .filter(Files::isExecutable)
                    .findFirst();
            if (found.isPresent()) {
                return found.map(Path::toString);
            }
        }
        return Optional.empty();
    }
}
