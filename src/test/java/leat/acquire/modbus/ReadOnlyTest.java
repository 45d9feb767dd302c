package leat.acquire.modbus;

import static com.tngtech.archunit.core.domain.JavaCall.Predicates.target;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.assignableTo;
import static com.tngtech.archunit.core.domain.properties.HasName.Predicates.name;
import static com.tngtech.archunit.core.domain.properties.HasOwner.Predicates.With.owner;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import java.io.OutputStream;
import java.net.Socket;
import java.nio.ByteBuffer;
import java.nio.channels.WritableByteChannel;
import java.time.Duration;
import java.util.List;
import leat.Gear;
import leat.acquire.RecordingIntake;
import leat.config.Point.NumberType;
import leat.config.Point.Table;
import leat.signal.Channel;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** leat only ever reads from the machine: function codes 1 to 4, whatever happens on the wire. */
@Timeout(60)
class ReadOnlyTest {

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
                                intake,
                                new PollingThread())) {
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
    void no_source_uses_a_modbus_library_which_could_write() {
        noClasses()
                .that()
                .resideInAPackage("leat.acquire..")
                .should()
                .dependOnClassesThat()
                .resideInAPackage("com.ghgande.j2mod..")
                .check(ACQUIRE);
    }

    @Test
    void one_class_alone_writes_to_a_device() {
        noClasses()
                .that()
                .resideInAPackage("leat.acquire.modbus..")
                .and()
                .doNotHaveFullyQualifiedName(Link.class.getName())
                .should()
                .callMethodWhere(
                        target(owner(assignableTo(WritableByteChannel.class)))
                                .and(target(name("write"))))
                .orShould()
                .dependOnClassesThat()
                .areAssignableTo(OutputStream.class)
                .orShould()
                .dependOnClassesThat()
                .areAssignableTo(Socket.class)
                .check(ACQUIRE);
    }

    @ParameterizedTest
    @EnumSource
    void a_question_for_any_table_reads(Table table) {
        Tap tap = Taps.register(Channel.INLET, 1, table, 0, NumberType.UINT16);
        ByteBuffer question = ByteBuffer.allocate(Frames.QUESTION_BYTES);

        Frames.question(question, 0, new Block(1, table, 0, 1, List.of(tap)));

        assertThat(question.get(7)).isBetween((byte) 1, (byte) 4);
    }

    private static void onlyReads(RecordingProxy proxy, RecordingIntake intake) {
        assertThat(proxy.functions()).isSubsetOf(1, 2, 3, 4);
        assertThat(intake.values(Channel.INLET)).hasSizeGreaterThanOrEqualTo(5);
    }
}
