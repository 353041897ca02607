package org.gerdy.engine.knowledge;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.net.URL;
import java.net.URLClassLoader;
import java.nio.charset.StandardCharsets;
import java.nio.file.AtomicMoveNotSupportedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Objects;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.drools.base.util.Drools;
import org.drools.compiler.kie.builder.impl.InternalKieModule;
import org.drools.model.Model;
import org.drools.model.codegen.ExecutableModelProject;
import org.drools.modelcompiler.KieBaseBuilder;
import org.kie.api.KieBase;
import org.kie.api.KieServices;
import org.kie.api.builder.KieBuilder;
import org.kie.api.builder.KieFileSystem;
import org.kie.api.builder.Message;
import org.kie.api.builder.ReleaseId;

/** Compiles the rules of an edited knowledge base to Java, once for each content and build, and keeps the result. */
public final class RuleCompiler {
    private static final Pattern IMPORT = Pattern.compile("^\\s*import\\s+([\\w.]+)", Pattern.MULTILINE);

    private RuleCompiler() {}

    /** Whether a line of a compiled module's list names a model class; the list also carries the compiler's version. */
    public static boolean isModel(String line) {
        return !line.isBlank() && line.indexOf(':') < 0;
    }

    /**
     * Loads the knowledge base of a directory, compiling its rules unless these very rules were compiled before.
     *
     * @param directory holds {@code knowledge/*.csv} and {@code *.drl} in directories by topic
     * @param cache where compiled rules are kept, by a digest over the rules and what they are compiled against
     * @throws KnowledgeException naming the file and line of a fault
     */
    public static KnowledgeBase load(Path directory, Path cache) {
        return load(KnowledgeFiles.in(directory), cache);
    }

    /** The same for files from anywhere. */
    public static KnowledgeBase load(KnowledgeFiles files, Path cache) {
        KnowledgeIndex index = KnowledgeIndex.of(files);
        KnowledgeBase knowledge = KnowledgeLoader.load(
                files, index.identity(), index.rules(), KnowledgeLoader.once(() -> kieBase(files, index, cache)));
        // Once the tables have proved sound, the rules are compiled before anything is asked of them.
        Objects.requireNonNull(knowledge.kieBase());
        return knowledge;
    }

    private static KieBase kieBase(KnowledgeFiles files, KnowledgeIndex index, Path cache) {
        try {
            // Tables are read at start; only the rules themselves are compiled and kept.
            Path jar = cache.resolve(key(files, rulesOf(index), RuleCompiler.class.getClassLoader()) + ".jar");
            if (!Files.isRegularFile(jar)) {
                keep(compile(files, index), jar);
            }
            return start(jar);
        } catch (IOException e) {
            throw new KnowledgeException(
                    "The compiled rules could not be kept in " + cache + ": " + e.getMessage()
                            + ". Make that directory writable.",
                    e);
        }
    }

    private static List<String> rulesOf(KnowledgeIndex index) {
        return index.files().stream().filter(path -> path.endsWith(".drl")).toList();
    }

    /**
     * Changes with the rules, with Drools, and with the classes the rules are written against: what was compiled for other
     * classes would fail only when it fires.
     */
    static String key(KnowledgeFiles files, List<String> rules, ClassLoader classes) throws IOException {
        try {
            MessageDigest digest = MessageDigest.getInstance("SHA-256");
            digest.update(KnowledgeIndex.digest(files, rules).getBytes(StandardCharsets.UTF_8));
            digest.update(Drools.getFullVersion().getBytes(StandardCharsets.UTF_8));
            SortedSet<String> imported = new TreeSet<>();
            for (String path : rules) {
                Matcher line = IMPORT.matcher(RuleIndexer.read(files, path));
                while (line.find()) {
                    imported.add(line.group(1).replace('.', '/') + ".class");
                }
            }
            for (String name : imported) {
                try (InputStream in = classes.getResourceAsStream(name)) {
                    if (in != null) {
                        digest.update(in.readAllBytes());
                    }
                }
            }
            return HexFormat.of().formatHex(digest.digest());
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("Every Java has SHA-256.", e);
        }
    }

    private static byte[] compile(KnowledgeFiles files, KnowledgeIndex index) throws IOException {
        KieServices services = KieServices.get();
        KieFileSystem system = services.newKieFileSystem();
        ReleaseId release =
                services.newReleaseId("org.gerdy", "edited", index.identity().sha256());
        system.generateAndWritePomXML(release);
        for (String path : rulesOf(index)) {
            system.write("src/main/resources/edited/" + path, RuleIndexer.read(files, path));
        }
        KieBuilder builder = services.newKieBuilder(system, RuleCompiler.class.getClassLoader());
        builder.buildAll(ExecutableModelProject.class);
        List<Message> errors = builder.getResults().getMessages(Message.Level.ERROR);
        if (!errors.isEmpty()) {
            throw new KnowledgeException(errors.stream()
                    .map(error ->
                            place(error) + error.getText().lines().findFirst().orElse("not a rule") + ".")
                    .distinct()
                    .collect(Collectors.joining("\n")));
        }
        byte[] bytes = ((InternalKieModule) builder.getKieModule()).getBytes();
        services.getRepository().removeKieModule(release);
        return bytes;
    }

    private static String place(Message error) {
        String path = error.getPath() == null ? "" : error.getPath().replaceFirst("^.*edited/", "");
        return path.isEmpty() ? "" : path + ":" + Math.max(1, error.getLine()) + ": ";
    }

    private static void keep(byte[] bytes, Path jar) throws IOException {
        Path directory = jar.toAbsolutePath().getParent();
        Files.createDirectories(directory);
        Path beside = Files.createTempFile(directory, "compiling", ".jar");
        Files.write(beside, bytes);
        try {
            Files.move(beside, jar, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
        } catch (AtomicMoveNotSupportedException e) {
            Files.move(beside, jar, StandardCopyOption.REPLACE_EXISTING);
        }
    }

    private static KieBase start(Path jar) throws IOException {
        // Stays open for the life of the knowledge base: rules load their classes when they first fire.
        @SuppressWarnings("MustBeClosedChecker")
        URLClassLoader loader =
                new URLClassLoader(new URL[] {jar.toUri().toURL()}, RuleCompiler.class.getClassLoader());
        List<Model> models = new ArrayList<>();
        for (String name : modelNames(loader)) {
            try {
                models.add(Class.forName(name, true, loader)
                        .asSubclass(Model.class)
                        .getDeclaredConstructor()
                        .newInstance());
            } catch (ReflectiveOperationException e) {
                Files.deleteIfExists(jar);
                throw new KnowledgeException(
                        "The compiled rules in " + jar + " are damaged; run the command again.", e);
            }
        }
        return KieBaseBuilder.createKieBaseFromModel(models);
    }

    private static List<String> modelNames(URLClassLoader loader) throws IOException {
        try (var jar = new java.util.jar.JarFile(loader.getURLs()[0].getPath())) {
            var entry = jar.stream()
                    .filter(one -> one.getName().endsWith("/drools-model"))
                    .findFirst()
                    .orElseThrow(() -> new IOException("no compiled model in the jar"));
            try (InputStream in = jar.getInputStream(entry);
                    BufferedReader reader = new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8))) {
                return reader.lines()
                        .filter(RuleCompiler::isModel)
                        .map(String::strip)
                        .toList();
            }
        }
    }
}
