package org.gerdy.cli;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;

import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;

/** The arrows run one way: cli, rules, engine. */
@AnalyzeClasses(packages = "org.gerdy", importOptions = ImportOption.DoNotIncludeTests.class)
class ModulesArchitectureTest {
    @ArchTest
    static final ArchRule theEngineKnowsNobody = noClasses()
            .that()
            .resideInAPackage("org.gerdy.engine..")
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage("org.gerdy.rules..", "org.gerdy.cli..");

    @ArchTest
    static final ArchRule theRulesKnowOnlyTheEngine = noClasses()
            .that()
            .resideInAPackage("org.gerdy.rules..")
            .should()
            .dependOnClassesThat()
            .resideInAPackage("org.gerdy.cli..");

    @ArchTest
    static final ArchRule theCommandsDoNotReason = noClasses()
            .that()
            .resideInAPackage("org.gerdy.cli..")
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage("org.kie..", "org.drools..", "org.gerdy.engine.reasoning..")
            .because("commands print what the engine concluded");
}
