package leat;

import static com.tngtech.archunit.base.DescribedPredicate.describe;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAnyPackage;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noFields;
import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.Dependency;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.domain.JavaModifier;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

/** The walls of the house: which room may use which, and what the core must never reach for. */
@AnalyzeClasses(packages = "leat", importOptions = ImportOption.DoNotIncludeTests.class)
class ArchitectureTest {

    /**
     * Each room and the rooms that it uses. Both ways: an arrow that is not here is refused, one
     * that nothing uses any more is taken away.
     */
    private static final String MAP =
            """
            wire      <-
            signal    <- wire
            phase     <- wire signal
            measure   <- wire signal phase
            rule      <- wire signal phase measure
            alarm     <- wire signal measure rule
            diagnose  <- wire signal measure rule
            watch     <- wire signal phase measure rule alarm diagnose
            words     <- signal phase measure rule alarm diagnose
            files     <-
            tls       <- words files
            work      <-
            config    <- signal rule words files tls
            mqtt      <- signal words tls work config
            acquire   <- signal words files work config mqtt
            wiring    <- signal words config mqtt acquire
            json      <- signal measure diagnose words
            segment   <- signal json
            store     <- signal measure rule alarm diagnose watch words files json segment
            live      <- signal phase measure rule alarm diagnose watch config store
            deliver   <- wire signal phase measure rule alarm diagnose words tls work config mqtt json store
            instruct  <- signal diagnose words work config mqtt store
            report    <- signal measure rule alarm diagnose words json
            screen    <- signal phase measure rule alarm words config store live report
            replay    <- signal phase measure rule alarm diagnose watch words json store report
            page      <- signal phase measure rule alarm diagnose watch words tls work config acquire json store live deliver report replay
            service   <- signal phase rule alarm diagnose watch words files work config mqtt acquire store deliver instruct page
            cli       <- all of them
            bench     <-
            """;

    private static final String[] CORE = {
        "leat.wire..",
        "leat.signal..",
        "leat.phase..",
        "leat.measure..",
        "leat.rule..",
        "leat.alarm..",
        "leat.diagnose..",
        "leat.watch.."
    };

    @ArchTest
    static void rooms_use_exactly_the_rooms_on_the_map(JavaClasses classes) {
        Map<String, Set<String>> used = new HashMap<>();
        for (JavaClass from : classes) {
            Set<String> rooms = used.computeIfAbsent(room(from), room -> new HashSet<>());
            for (Dependency dependency : from.getDirectDependenciesFromSelf()) {
                JavaClass to = dependency.getTargetClass();
                if (to.getPackageName().startsWith("leat.") && !room(to).equals(room(from))) {
                    rooms.add(room(to));
                }
            }
        }

        assertThat(drawn(used)).isEqualTo(MAP);
    }

    /** The map as it would have to be, its rooms in the same order. */
    private static String drawn(Map<String, Set<String>> used) {
        List<String> order = MAP.lines().map(line -> line.split(" ")[0]).toList();
        assertThat(used.keySet()).as("the rooms").containsExactlyInAnyOrderElementsOf(order);
        StringBuilder map = new StringBuilder();
        for (String room : order) {
            String uses =
                    room.equals("cli")
                            ? "all of them"
                            : order.stream()
                                    .filter(used.get(room)::contains)
                                    .collect(Collectors.joining(" "));
            map.append("%-9s <- %s".formatted(room, uses).strip()).append('\n');
        }
        return map.toString();
    }

    private static String room(JavaClass type) {
        return type.getPackageName().split("\\.")[1];
    }

    /** The fold of {@code deliver}; its neighbours have routes, threads and sockets. */
    private static final String WHO_IS_TOLD_WHEN =
            "leat\\.deliver\\.(Annunciator|Occasion|Notification|About|Changed|Again|More|Digests?|Day"
                    + "|Undelivered|DayReports|Reminders|Alone|OneCause|Flood|StandInIds|StandingAlarms?"
                    + "|Outages?|OutageCalls?|OutageOver|SilentChannel|Wires)(\\$.*)?";

    /** So there is no cycle among those of the map, which is exact. */
    @Test
    void room_uses_only_rooms_above_it_on_the_map() {
        Set<String> above = new HashSet<>();
        for (String line : MAP.lines().toList()) {
            String[] room = line.split(" *<- ?");
            List<String> used =
                    room.length < 2 || room[0].equals("cli")
                            ? List.of()
                            : List.of(room[1].split(" "));
            assertThat(above).as(room[0]).containsAll(used);
            above.add(room[0]);
        }
    }

    @ArchTest
    static final ArchRule the_core_knows_no_clock_thread_file_network_or_chance =
            noClasses()
                    .that()
                    .resideInAnyPackage(CORE)
                    .or()
                    .haveNameMatching(WHO_IS_TOLD_WHEN)
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

    /** What {@code leat-core.jar} carries is all that another host needs. */
    @ArchTest
    static final ArchRule the_core_needs_nothing_but_itself_the_jdk_and_a_numerics_library =
            classes()
                    .that()
                    .resideInAnyPackage(CORE)
                    .should()
                    .onlyDependOnClassesThat(
                            resideInAnyPackage(CORE)
                                    .or(resideInAnyPackage("java..", "org.hipparchus.."))
                                    .or(describe("primitives", JavaClass::isPrimitive))
                                    .or(describe("arrays", JavaClass::isArray)));

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
