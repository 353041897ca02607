package org.gerdy.engine;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.fields;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.Architectures.layeredArchitecture;
import static com.tngtech.archunit.library.GeneralCodingRules.NO_CLASSES_SHOULD_ACCESS_STANDARD_STREAMS;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;

@AnalyzeClasses(packages = "org.gerdy.engine", importOptions = ImportOption.DoNotIncludeTests.class)
class EngineArchitectureTest {
    @ArchTest
    static final ArchRule packagesStandInLayers = layeredArchitecture()
            .consideringOnlyDependenciesInLayers()
            .layer("logic")
            .definedBy("..logic..")
            .layer("vocabulary")
            .definedBy("..vocabulary..")
            .layer("fact")
            .definedBy("..fact..")
            .layer("casefile")
            .definedBy("..casefile..")
            .layer("knowledge")
            .definedBy("..knowledge..")
            .layer("assessment")
            .definedBy("..assessment..")
            .layer("reasoning")
            .definedBy("..reasoning..")
            .whereLayer("logic")
            .mayNotAccessAnyLayer()
            .whereLayer("vocabulary")
            .mayOnlyAccessLayers("logic")
            .whereLayer("fact")
            .mayOnlyAccessLayers("vocabulary")
            .whereLayer("casefile")
            .mayOnlyAccessLayers("vocabulary", "logic")
            .whereLayer("knowledge")
            .mayOnlyAccessLayers("casefile", "fact", "vocabulary", "logic")
            .whereLayer("assessment")
            .mayOnlyAccessLayers("knowledge", "casefile", "vocabulary")
            .whereLayer("reasoning")
            .mayNotBeAccessedByAnyLayer()
            .because("readers do not reason, rules do not format, results do not decide");

    @ArchTest
    static final ArchRule packagesFormNoCycle =
            slices().matching("org.gerdy.engine.(*)..").should().beFreeOfCycles();

    @ArchTest
    static final ArchRule theEngineKnowsNeitherItsRulesNorItsCommands = noClasses()
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage("org.gerdy.rules..", "org.gerdy.cli..", "picocli..")
            .because("the arrows run cli -> rules -> engine");

    @ArchTest
    static final ArchRule nothingStaticChanges =
            fields().that().areStatic().should().beFinal().because("one engine serves many threads");

    @ArchTest
    static final ArchRule nothingIsPrinted = NO_CLASSES_SHOULD_ACCESS_STANDARD_STREAMS;

    @ArchTest
    static final ArchRule resultsCannotBeChanged = classes()
            .that()
            .resideInAPackage("..assessment..")
            .and()
            .areTopLevelClasses()
            .and()
            .haveSimpleNameNotEndingWith("Json")
            .and()
            .haveSimpleNameNotContaining("package-info")
            .should()
            .haveOnlyFinalFields();
}
