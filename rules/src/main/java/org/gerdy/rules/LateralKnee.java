package org.gerdy.rules;

import java.io.BufferedReader;
import java.io.FileNotFoundException;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.Future;
import java.util.concurrent.FutureTask;
import java.util.function.Supplier;
import org.drools.model.Model;
import org.drools.modelcompiler.KieBaseBuilder;
import org.gerdy.engine.Gerdy;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.KnowledgeFiles;
import org.gerdy.engine.knowledge.KnowledgeIndex;
import org.gerdy.engine.knowledge.KnowledgeLoader;
import org.gerdy.engine.knowledge.RuleCompiler;
import org.kie.api.KieBase;

/** The shipped knowledge base. Its rules are compiled at build time and started directly from their model. */
public final class LateralKnee {
    private static final String INDEX = "index.json";
    private static final String MODEL_LIST = "/META-INF/kie/org.gerdy/gerdy-rules/drools-model";

    private LateralKnee() {}

    /** The engine over the shipped knowledge base. Make one and keep it; it serves many threads. */
    public static Gerdy gerdy() {
        return start().get();
    }

    /**
     * Starts the compiled rules on a thread of their own, while the caller does something else. The supplier reads the
     * tables and gives the engine over both.
     */
    public static Supplier<Gerdy> start() {
        Supplier<KieBase> rules = startRules();
        return () -> new Gerdy(knowledgeBase(rules));
    }

    /**
     * The shipped knowledge base. Its rules are started on a thread of their own beside the tables, and waited for when
     * a case is first assessed.
     */
    public static KnowledgeBase knowledgeBase() {
        return knowledgeBase(startRules());
    }

    private static Supplier<KieBase> startRules() {
        FutureTask<KieBase> rules = new FutureTask<>(LateralKnee::kieBase);
        Thread starting = new Thread(rules, "gerdy-rules");
        starting.setDaemon(true);
        starting.start();
        return () -> started(rules);
    }

    /** The shipped tables with these rules, for a program that has its own way to start the compiled rules. */
    public static KnowledgeBase knowledgeBase(Supplier<KieBase> rules) {
        KnowledgeIndex index = index();
        return KnowledgeLoader.load(files(index), index.identity(), index.rules(), rules);
    }

    private static KieBase started(Future<KieBase> rules) {
        boolean interrupted = false;
        try {
            while (true) {
                try {
                    return rules.get();
                } catch (InterruptedException e) {
                    interrupted = true;
                }
            }
        } catch (ExecutionException e) {
            throw new IllegalStateException("The compiled rules could not be started.", e.getCause());
        } finally {
            if (interrupted) {
                Thread.currentThread().interrupt();
            }
        }
    }

    private static KnowledgeIndex index() {
        try (InputStream in = resource(INDEX)) {
            return KnowledgeIndex.read(in);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** The files of the shipped knowledge base. */
    public static KnowledgeFiles files() {
        return files(index());
    }

    private static KnowledgeFiles files(KnowledgeIndex index) {
        return new KnowledgeFiles() {
            @Override
            public InputStream open(String path) throws IOException {
                return resource(path);
            }

            @Override
            public boolean has(String path) {
                return index.files().contains(path);
            }

            @Override
            public List<String> list() {
                return index.files();
            }
        };
    }

    private static InputStream resource(String path) throws IOException {
        InputStream in = LateralKnee.class.getResourceAsStream(path);
        if (in == null) {
            throw new FileNotFoundException(path + " is missing from the rules jar");
        }
        return in;
    }

    private static KieBase kieBase() {
        try (InputStream in = resource(MODEL_LIST);
                BufferedReader reader = new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8))) {
            List<Model> models = new ArrayList<>();
            for (String name : reader.lines().filter(RuleCompiler::isModel).toList()) {
                models.add(Class.forName(name.strip())
                        .asSubclass(Model.class)
                        .getDeclaredConstructor()
                        .newInstance());
            }
            return KieBaseBuilder.createKieBaseFromModel(models);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } catch (ReflectiveOperationException e) {
            throw new IllegalStateException("The compiled rules are not in the rules jar; build it again.", e);
        }
    }
}
