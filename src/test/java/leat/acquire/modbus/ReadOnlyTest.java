package leat.acquire.modbus;

import static com.tngtech.archunit.base.DescribedPredicate.describe;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import java.time.Duration;
import java.util.List;
import java.util.Set;
import leat.Gear;
import leat.acquire.RecordingIntake;
import leat.config.Point.NumberType;
import leat.config.Point.Table;
import leat.signal.Channel;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** leat only ever reads from the machine: function codes 1 to 4, whatever happens on the wire. */
@Timeout(60)
class ReadOnlyTest {

    private static final String LIBRARY = "com.ghgande.j2mod.";

    /** All that leat needs of the library; its facades and transactions could write. */
    private static final Set<String> ALLOWED =
            Set.of(
                    "modbus.ModbusIOException",
                    "modbus.io.AbstractModbusTransport",
                    "modbus.io.ModbusTCPTransport",
                    "modbus.msg.ExceptionResponse",
                    "modbus.msg.ModbusRequest",
                    "modbus.msg.ModbusResponse",
                    "modbus.msg.ReadCoilsRequest",
                    "modbus.msg.ReadCoilsResponse",
                    "modbus.msg.ReadInputDiscretesRequest",
                    "modbus.msg.ReadInputDiscretesResponse",
                    "modbus.msg.ReadInputRegistersRequest",
                    "modbus.msg.ReadInputRegistersResponse",
                    "modbus.msg.ReadMultipleRegistersRequest",
                    "modbus.msg.ReadMultipleRegistersResponse",
                    "modbus.util.BitVector");

    private static final JavaClasses ACQUIRE =
            new ClassFileImporter()
                    .withImportOption(new ImportOption.DoNotIncludeTests())
                    .importPackages("leat.acquire..");

    @Test
    void only_function_codes_1_to_4_leave_the_program_and_after_reconnects_too() throws Exception {
        RecordingIntake intake = new RecordingIntake();
        List<Tap> everyTable =
                List.of(
                        Taps.contact(Channel.RUNNING, Table.COIL, 0),
                        Taps.contact(Channel.VALVE, Table.DISCRETE_INPUT, 2),
                        Taps.register(
                                Channel.BOOSTED, 1, Table.HOLDING_REGISTER, 1, NumberType.UINT32),
                        Taps.input(Channel.INLET, 3),
                        // beyond the slave's table: the refusals and the split are on the wire too
                        Taps.input(Channel.FILTERED, 4),
                        Taps.register(
                                Channel.FILTERED, 1, Table.INPUT_REGISTER, 15, NumberType.FLOAT32),
                        Taps.register(
                                Channel.FILTERED, 9, Table.INPUT_REGISTER, 0, NumberType.INT32));
        try (LibrarySlave slave = new LibrarySlave(LibrarySlave.freePort());
                RecordingProxy proxy = new RecordingProxy(slave.port());
                ModbusSource source =
                        new ModbusSource(
                                Taps.connection(
                                        proxy.port(), Duration.ofMillis(20), Duration.ofSeconds(1)),
                                everyTable,
                                intake)) {
            source.start();
            int cuts = Gear.of(1, 3);
            for (int cut = 0; cut < cuts; cut++) {
                intake.forget();
                await().untilAsserted(() -> onlyReads(proxy, intake));
                proxy.cut();
            }
            intake.forget();
            await().untilAsserted(() -> onlyReads(proxy, intake));

            assertThat(proxy.connections()).isGreaterThanOrEqualTo(cuts + 1);
            assertThat(proxy.functions()).contains(1, 2, 3, 4);
        }
    }

    @Test
    void sources_use_nothing_of_the_modbus_library_that_could_write() {
        noClasses()
                .that()
                .resideInAPackage("leat.acquire..")
                .should()
                .dependOnClassesThat(
                        describe(
                                "are part of the Modbus library and not on the short list",
                                ReadOnlyTest::isForbidden))
                .check(ACQUIRE);
    }

    @Test
    void one_class_alone_knows_the_modbus_library() {
        noClasses()
                .that()
                .resideInAPackage("leat.acquire..")
                .and()
                .doNotHaveFullyQualifiedName(Link.class.getName())
                .should()
                .dependOnClassesThat()
                .resideInAPackage(LIBRARY + ".")
                .check(ACQUIRE);
    }

    private static void onlyReads(RecordingProxy proxy, RecordingIntake intake) {
        assertThat(proxy.functions()).isSubsetOf(1, 2, 3, 4);
        assertThat(intake.values(Channel.INLET)).hasSizeGreaterThanOrEqualTo(5);
    }

    private static boolean isForbidden(JavaClass type) {
        return isLibrary(type) && !ALLOWED.contains(type.getName().substring(LIBRARY.length()));
    }

    private static boolean isLibrary(JavaClass type) {
        return type.getName().startsWith(LIBRARY);
    }
}
