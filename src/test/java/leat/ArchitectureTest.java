package leat;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noFields;
import static com.tngtech.archunit.library.Architectures.layeredArchitecture;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.core.domain.JavaModifier;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;

/** The walls of the house: which room may use which, and what the core must never reach for. */
@AnalyzeClasses(packages = "leat", importOptions = ImportOption.DoNotIncludeTests.class)
class ArchitectureTest {

    private static final String[] CORE = {
        "leat.signal..",
        "leat.phase..",
        "leat.measure..",
        "leat.rule..",
        "leat.alarm..",
        "leat.diagnose..",
        "leat.watch.."
    };

    @ArchTest
    static final ArchRule rooms_use_only_the_rooms_that_the_map_allows =
            layeredArchitecture()
                    .consideringOnlyDependenciesInLayers()
                    .layer("signal")
                    .definedBy("leat.signal..")
                    .layer("phase")
                    .definedBy("leat.phase..")
                    .layer("measure")
                    .definedBy("leat.measure..")
                    .layer("rule")
                    .definedBy("leat.rule..")
                    .layer("alarm")
                    .definedBy("leat.alarm..")
                    .layer("diagnose")
                    .definedBy("leat.diagnose..")
                    .layer("watch")
                    .definedBy("leat.watch..")
                    .layer("words")
                    .definedBy("leat.words..")
                    .layer("tls")
                    .definedBy("leat.tls..")
                    .layer("config")
                    .definedBy("leat.config..")
                    .layer("mqtt")
                    .definedBy("leat.mqtt..")
                    .layer("acquire")
                    .definedBy("leat.acquire..")
                    .layer("store")
                    .definedBy("leat.store..")
                    .layer("deliver")
                    .definedBy("leat.deliver..")
                    .layer("instruct")
                    .definedBy("leat.instruct..")
                    .layer("report")
                    .definedBy("leat.report..")
                    .layer("replay")
                    .definedBy("leat.replay..")
                    .layer("service")
                    .definedBy("leat.service..")
                    .layer("cli")
                    .definedBy("leat.cli..")
                    .layer("bench")
                    .definedBy("leat.bench..")
                    .whereLayer("signal")
                    .mayNotAccessAnyLayer()
                    .whereLayer("tls")
                    .mayNotAccessAnyLayer()
                    .whereLayer("phase")
                    .mayOnlyAccessLayers("signal")
                    .whereLayer("measure")
                    .mayOnlyAccessLayers("signal", "phase")
                    .whereLayer("rule")
                    .mayOnlyAccessLayers("signal", "phase", "measure")
                    .whereLayer("alarm")
                    .mayOnlyAccessLayers("signal", "measure", "rule")
                    .whereLayer("diagnose")
                    .mayOnlyAccessLayers("signal", "phase", "measure", "rule")
                    .whereLayer("watch")
                    .mayOnlyAccessLayers("signal", "phase", "measure", "rule", "alarm", "diagnose")
                    .whereLayer("words")
                    .mayOnlyAccessLayers("signal", "measure", "rule", "diagnose")
                    .whereLayer("config")
                    .mayOnlyAccessLayers("signal", "rule", "words", "tls")
                    .whereLayer("mqtt")
                    .mayOnlyAccessLayers("signal", "tls", "config")
                    .whereLayer("acquire")
                    .mayOnlyAccessLayers("signal", "config", "mqtt")
                    .whereLayer("store")
                    .mayOnlyAccessLayers(
                            "signal",
                            "phase",
                            "measure",
                            "rule",
                            "alarm",
                            "diagnose",
                            "watch",
                            "config")
                    .whereLayer("deliver")
                    .mayOnlyAccessLayers(
                            "signal",
                            "phase",
                            "measure",
                            "rule",
                            "alarm",
                            "diagnose",
                            "watch",
                            "words",
                            "tls",
                            "config",
                            "mqtt",
                            "store")
                    .whereLayer("instruct")
                    .mayOnlyAccessLayers("signal", "config", "mqtt", "store")
                    .whereLayer("report")
                    .mayOnlyAccessLayers(
                            "signal",
                            "phase",
                            "measure",
                            "rule",
                            "alarm",
                            "diagnose",
                            "watch",
                            "words",
                            "store")
                    .whereLayer("replay")
                    .mayOnlyAccessLayers(
                            "signal",
                            "phase",
                            "measure",
                            "rule",
                            "alarm",
                            "diagnose",
                            "watch",
                            "words",
                            "config",
                            "store",
                            "report")
                    .whereLayer("service")
                    .mayOnlyBeAccessedByLayers("cli")
                    .whereLayer("cli")
                    .mayNotBeAccessedByAnyLayer()
                    .whereLayer("bench")
                    .mayNotAccessAnyLayer();

    @ArchTest
    static final ArchRule rooms_have_no_cycles =
            slices().matching("leat.(*)..").should().beFreeOfCycles();

    @ArchTest
    static final ArchRule the_core_knows_no_clock_thread_file_network_or_chance =
            noClasses()
                    .that()
                    .resideInAnyPackage(CORE)
                    .should()
                    .dependOnClassesThat()
                    .resideInAnyPackage(
                            "java.io..",
                            "java.nio..",
                            "java.net..",
                            "java.sql..",
                            "java.util.concurrent..",
                            "java.util.logging..",
                            "org.slf4j..")
                    .orShould()
                    .dependOnClassesThat()
                    .belongToAnyOf(Thread.class, java.util.Random.class, java.util.Timer.class)
                    .orShould()
                    .callMethod(java.time.Instant.class, "now")
                    .orShould()
                    .callMethod(System.class, "currentTimeMillis")
                    .orShould()
                    .callMethod(System.class, "nanoTime")
                    .orShould()
                    .callMethod(java.time.ZoneId.class, "systemDefault");

    @ArchTest
    static final ArchRule sql_stays_in_the_store =
            noClasses()
                    .that()
                    .resideOutsideOfPackage("leat.store..")
                    .should()
                    .dependOnClassesThat()
                    .resideInAnyPackage("java.sql..", "org.sqlite..");

    @ArchTest
    static final ArchRule nothing_is_kept_in_mutable_statics =
            noFields()
                    .that()
                    .areDeclaredInClassesThat()
                    .resideInAPackage("leat..")
                    .and()
                    .areStatic()
                    .should()
                    .notHaveModifier(JavaModifier.FINAL);

    @ArchTest
    static final ArchRule there_are_no_drawers =
            noClasses()
                    .should()
                    .haveSimpleNameEndingWith("Utils")
                    .orShould()
                    .haveSimpleNameEndingWith("Helper")
                    .orShould()
                    .haveSimpleNameEndingWith("Manager")
                    .orShould()
                    .haveSimpleNameEndingWith("Impl");
}
