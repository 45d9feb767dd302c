package leat.watch;

import static java.util.Map.entry;
import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.domain.JavaCodeUnit;
import com.tngtech.archunit.core.domain.JavaField;
import com.tngtech.archunit.core.domain.JavaModifier;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import java.util.Collection;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import leat.wire.State;
import org.junit.jupiter.api.Test;

/**
 * What changes while a machine is watched is kept, field by field, whether a law sees it or not.
 */
class KeptFieldsTest {

    private static final String KEEP = "keep";

    /** Fields that a restart may forget, each with the reason. */
    private static final Map<String, String> NOT_KEPT =
            Map.ofEntries(
                    entry("Gauges.wired", "a setting"),
                    entry("PhaseFinder.gauges", "borrowed of the watch, which keeps it"),
                    entry("Stop.gauges", "borrowed of the watch, which keeps it"),
                    entry("RuleBook.rise", "kept as one of its judges"),
                    entry("Runs.gauges", "borrowed of the watch, which keeps it"),
                    entry("Runs.rules", "borrowed of the watch, which keeps it"),
                    entry("Runs.phases", "borrowed of the watch, which keeps it"),
                    entry("Service.alarms", "borrowed of the watch, which keeps it"),
                    entry("Starts.gauges", "borrowed of the watch, which keeps it"),
                    entry("Starts.phases", "borrowed of the watch, which keeps it"),
                    entry("Starts.rules", "borrowed of the watch, which keeps it"),
                    entry("Watch.outcomes", "where to, given by whoever takes the watch up"),
                    entry("Watch.passedOver", "of this taking up alone"));

    /** The rooms that use {@code wire}, as on the map of {@link leat.ArchitectureTest}. */
    private final JavaClasses leat =
            new ClassFileImporter()
                    .withImportOption(new ImportOption.DoNotIncludeTests())
                    .importPackages(
                            "leat.signal",
                            "leat.phase",
                            "leat.measure",
                            "leat.rule",
                            "leat.alarm",
                            "leat.diagnose",
                            "leat.watch",
                            "leat.deliver");

    @Test
    void every_field_that_changes_is_written_down_and_taken_up() {
        Set<String> forgotten = new HashSet<>();
        for (JavaClass type : leat) {
            if (keeps(type)) {
                Set<JavaField> kept = seenFrom(type);
                type.getFields().stream()
                        .filter(field -> changes(field) && !kept.contains(field))
                        .forEach(field -> forgotten.add(name(field)));
            }
        }

        assertThat(leat.stream().filter(KeptFieldsTest::keeps)).hasSizeGreaterThan(35);
        assertThat(forgotten).containsExactlyInAnyOrderElementsOf(NOT_KEPT.keySet());
    }

    private static String name(JavaField field) {
        return field.getOwner().getSimpleName() + "." + field.getName();
    }

    private static boolean keeps(JavaClass type) {
        return !type.isInterface()
                && !type.isRecord()
                && type.tryGetMethod(KEEP, State.class).isPresent();
    }

    private static boolean changes(JavaField field) {
        JavaClass type = field.getRawType();
        return !field.getModifiers().contains(JavaModifier.STATIC)
                && (!field.getModifiers().contains(JavaModifier.FINAL)
                        || type.isArray()
                        || type.isAssignableTo(Collection.class)
                        || type.isAssignableTo(Map.class)
                        || keeps(type));
    }

    /** The fields that {@code keep} reads or sets, by itself or by methods of the same class. */
    private static Set<JavaField> seenFrom(JavaClass type) {
        Set<JavaField> seen = new HashSet<>();
        Set<JavaCodeUnit> done = new HashSet<>();
        List<JavaCodeUnit> next = List.of(type.getMethod(KEEP, State.class));
        while (!next.isEmpty()) {
            Set<JavaCodeUnit> called = new HashSet<>();
            for (JavaCodeUnit unit : next) {
                done.add(unit);
                unit.getFieldAccesses()
                        .forEach(access -> access.getTarget().resolveMember().ifPresent(seen::add));
                unit.getCallsFromSelf()
                        .forEach(call -> call.getTarget().resolveMember().ifPresent(called::add));
                unit.getCodeUnitReferencesFromSelf()
                        .forEach(call -> call.getTarget().resolveMember().ifPresent(called::add));
            }
            called.removeIf(unit -> done.contains(unit) || !unit.getOwner().equals(type));
            next = List.copyOf(called);
        }
        return seen;
    }
}
