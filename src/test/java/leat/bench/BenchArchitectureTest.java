package leat.bench;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;

/** Who may use the bench is on the map of {@link leat.ArchitectureTest}. */
@AnalyzeClasses(packages = "leat.bench", importOptions = ImportOption.DoNotIncludeTests.class)
class BenchArchitectureTest {

    @ArchTest
    static void the_bench_shares_no_code_with_leat(JavaClasses all) {
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

    @ArchTest
    static void model_and_scenarios_know_neither_wire_nor_thread(JavaClasses all) {
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

    @ArchTest
    static void packages_of_the_bench_form_no_cycle(JavaClasses all) {
        slices().matching("leat.bench.(*)..").should().beFreeOfCycles().check(all);
    }
}
