package org.gerdy.rules.drill;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.gerdy.engine.Gerdy;
import org.gerdy.engine.casefile.CaseFile;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.drill.Difficulty;
import org.gerdy.engine.drill.DrillMaster;
import org.gerdy.engine.drill.DrillPatient;
import org.gerdy.engine.drill.DrillTables;
import org.gerdy.engine.drill.FilePatients;
import org.gerdy.engine.drill.Marker;
import org.gerdy.engine.drill.PatientMaker;
import org.gerdy.engine.knowledge.FactorTablesReader;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.measure.FactorTables;
import org.gerdy.engine.plan.PlanTables;
import org.gerdy.rules.LateralKnee;

/** The shipped knowledge base set up for practice, and the patients of the pool. */
final class DrillSchool {
    static final KnowledgeBase KNOWLEDGE = LateralKnee.knowledgeBase();
    static final DrillTables TABLES = DrillTables.load(LateralKnee.files(), KNOWLEDGE);
    static final FactorTables FACTORS = FactorTablesReader.factors(LateralKnee.files());
    static final PlanTables PLANS = PlanTables.load(
            LateralKnee.files(),
            KNOWLEDGE.catalogue(),
            new PlanTables.Ids(
                    KNOWLEDGE.rowsByFlag().keySet(), KNOWLEDGE.conditions().keySet()));
    static final DrillMaster MASTER = new DrillMaster(KNOWLEDGE, TABLES, FACTORS, PLANS);
    static final PatientMaker MAKER = new PatientMaker(KNOWLEDGE, TABLES, FACTORS);
    static final FilePatients FILES = new FilePatients(KNOWLEDGE, TABLES, MAKER);
    static final Marker MARKER = new Marker(MASTER);

    private DrillSchool() {}

    /** Whether every condition comes at every difficulty, instead of at one. */
    static boolean wholePool() {
        return System.getProperty("gerdy.drill.pool", "sample").equals("whole");
    }

    /** Made patients and the case files fit to practise on. */
    static List<DrillPatient> pool() {
        List<DrillPatient> pool = new ArrayList<>();
        int turn = 0;
        for (String condition : MAKER.conditions()) {
            for (Difficulty difficulty : Difficulty.values()) {
                if (wholePool() || difficulty.ordinal() == turn % Difficulty.values().length) {
                    pool.add(MAKER.make(MAKER.seed(condition, difficulty, 0)));
                }
            }
            turn++;
        }
        for (CaseFile caseFile : caseFiles()) {
            DrillPatient patient = FILES.of(caseFile);
            if (FILES.unfit(caseFile, patient).isEmpty()) {
                pool.add(patient);
            }
        }
        return pool;
    }

    static List<CaseFile> caseFiles() {
        Path cases = Path.of(System.getProperty("gerdy.root"), "cases");
        Gerdy gerdy = new Gerdy(KNOWLEDGE);
        List<CaseFile> files = new ArrayList<>();
        for (String directory : List.of("demo", "published")) {
            try (Stream<Path> list = Files.list(cases.resolve(directory))) {
                for (Path path : list.filter(one -> one.toString().endsWith(".yaml"))
                        .sorted()
                        .toList()) {
                    files.add(gerdy.read(path));
                }
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            } catch (MendableException e) {
                throw new IllegalStateException(e);
            }
        }
        return files;
    }
}
