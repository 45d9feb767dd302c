package leat.bench;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import org.junit.jupiter.api.Test;

class BenchArchitectureTest {

    private final JavaClasses all =
            new ClassFileImporter()
                    .withImportOption(new ImportOption.DoNotIncludeTests())
                    .importPackages("leat");

    @Test
    void the_bench_shares_no_code_with_leat() {
        DescribedPredicate<JavaClass> ofLeatItself =
                JavaClass.Predicates.resideInAPackage("leat..")
                        .and(
                                DescribedPredicate.not(
                                        JavaClass.Predicates.resideInAPackage("leat.bench..")));

        noClasses()
                .that()
                .resideInAPackage("leat.bench..")
                .should()
                .dependOnClassesThat(ofLeatItself)
                .check(all);
    }

    @Test
    void only_the_command_line_starts_a_bench() {
        classes()
                .that()
                .resideInAPackage("leat.bench..")
                .should()
                .onlyHaveDependentClassesThat()
                .resideInAnyPackage("leat.bench..", "leat.cli..")
                .check(all);
    }

    @Test
    void model_and_scenarios_know_neither_wire_nor_thread() {
        noClasses()
                .that()
                .resideInAnyPackage(
                        "leat.bench.water..",
                        "leat.bench.line..",
                        "leat.bench.sensor..",
                        "leat.bench.scenario..")
                .should()
                .dependOnClassesThat()
                .resideInAnyPackage(
                        "java.net..",
                        "java.util.concurrent..",
                        "com.ghgande..",
                        "org.eclipse.paho..")
                .orShould()
                .dependOnClassesThat()
                .belongToAnyOf(Thread.class, java.time.Clock.class, System.Logger.class)
                .check(all);
    }

    @Test
    void packages_of_the_bench_form_no_cycle() {
        slices().matching("leat.bench.(*)..").should().beFreeOfCycles().check(all);
    }
}
