package org.gerdy.cli.drill;

import java.nio.file.Path;
import org.gerdy.cli.KnowledgeOption;
import org.gerdy.engine.Gerdy;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.engine.drill.DrillMaster;
import org.gerdy.engine.drill.DrillTables;
import org.gerdy.engine.drill.FilePatients;
import org.gerdy.engine.drill.Marker;
import org.gerdy.engine.drill.PatientMaker;
import org.gerdy.engine.knowledge.FactorTablesReader;
import org.gerdy.engine.knowledge.KnowledgeBase;
import org.gerdy.engine.knowledge.KnowledgeFiles;
import org.gerdy.engine.measure.FactorTables;
import org.gerdy.engine.plan.PlanTables;

/**
 * All that practice needs, read once.
 *
 * @param gerdy the engine
 * @param master best order and model answers
 * @param maker makes patients
 * @param files patients from case files
 * @param marker marks work
 */
record School(Gerdy gerdy, DrillMaster master, PatientMaker maker, FilePatients files, Marker marker) {
    static School open(KnowledgeOption option) throws MendableException {
        return open(option.gerdy(), option.files());
    }

    static School open(Gerdy gerdy, KnowledgeFiles files) {
        KnowledgeBase knowledge = gerdy.knowledge();
        DrillTables tables = DrillTables.load(files, knowledge);
        FactorTables factors = FactorTablesReader.factors(files);
        PlanTables plans = PlanTables.load(
                files,
                knowledge.catalogue(),
                new PlanTables.Ids(
                        knowledge.rowsByFlag().keySet(), knowledge.conditions().keySet()));
        DrillMaster master = new DrillMaster(knowledge, tables, factors, plans);
        PatientMaker maker = new PatientMaker(knowledge, tables, factors);
        return new School(gerdy, master, maker, new FilePatients(knowledge, tables, maker), new Marker(master));
    }

    /** Where progress is kept unless the learner says otherwise. */
    static Path home() {
        String base = System.getenv("XDG_DATA_HOME");
        Path home = base == null || base.isBlank()
                ? Path.of(System.getProperty("user.home"), ".local", "share")
                : Path.of(base);
        return home.resolve("gerdy").resolve("drill");
    }
}
