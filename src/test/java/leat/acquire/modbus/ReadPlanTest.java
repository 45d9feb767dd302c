package leat.acquire.modbus;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.tuple;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import leat.config.Point.NumberType;
import leat.config.Point.Table;
import leat.signal.Channel;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class ReadPlanTest {

    @Test
    void neighbours_are_read_in_one_request() {
        Tap inlet = Taps.input(Channel.INLET, 0);
        Tap boosted = Taps.input(Channel.BOOSTED, 1);

        ReadPlan plan = ReadPlan.of(List.of(boosted, inlet));

        assertThat(plan.blocks())
                .containsExactly(new Block(1, Table.INPUT_REGISTER, 0, 2, List.of(inlet, boosted)));
    }

    @Test
    void a_gap_of_eight_registers_is_read_along_and_one_of_nine_is_not() {
        assertThat(ReadPlan.of(List.of(input(0), input(9))).blocks()).hasSize(1);
        assertThat(ReadPlan.of(List.of(input(0), input(10))).blocks()).hasSize(2);
    }

    @Test
    void a_request_never_exceeds_125_registers() {
        List<Tap> floats = new ArrayList<>();
        for (int i = 0; i < 63; i++) {
            floats.add(register(1, Table.HOLDING_REGISTER, 2 * i, NumberType.FLOAT32));
        }

        ReadPlan plan = ReadPlan.of(floats);

        assertThat(plan.blocks()).extracting(Block::count).containsExactly(124, 2);
    }

    @Test
    void a_request_never_exceeds_2000_bits() {
        List<Tap> bits = new ArrayList<>();
        for (int i = 0; i < 2100; i += 100) {
            bits.add(register(1, Table.COIL, i, NumberType.UINT16));
        }

        ReadPlan plan = ReadPlan.of(bits);

        assertThat(plan.blocks()).extracting(Block::count).containsExactly(1901, 1);
    }

    @Test
    void units_and_tables_are_never_mixed() {
        Tap one = register(1, Table.INPUT_REGISTER, 0, NumberType.UINT16);
        Tap otherUnit = register(2, Table.INPUT_REGISTER, 1, NumberType.UINT16);
        Tap otherTable = register(1, Table.HOLDING_REGISTER, 1, NumberType.UINT16);

        assertThat(ReadPlan.of(List.of(one, otherUnit, otherTable)).blocks()).hasSize(3);
    }

    @Test
    void channels_that_overlap_share_a_request() {
        Tap wide = register(1, Table.INPUT_REGISTER, 4, NumberType.FLOAT32);
        Tap low = register(1, Table.INPUT_REGISTER, 5, NumberType.UINT16);

        assertThat(ReadPlan.of(List.of(wide, low)).blocks())
                .extracting(Block::address, Block::count)
                .containsExactly(tuple(4, 2));
    }

    @Test
    void a_refused_block_is_split_and_the_others_are_left() {
        ReadPlan plan = ReadPlan.of(List.of(input(0), input(4), input(100)));

        ReadPlan split = plan.split(plan.blocks().get(0));

        assertThat(split.blocks())
                .extracting(Block::address, Block::count)
                .containsExactly(tuple(0, 1), tuple(4, 1), tuple(100, 1));
    }

    @Test
    void no_channels_need_no_request() {
        assertThat(ReadPlan.of(List.of()).blocks()).isEmpty();
    }

    @Test
    void a_register_beyond_the_table_is_refused() {
        assertThatThrownBy(() -> register(1, Table.INPUT_REGISTER, 65535, NumberType.FLOAT32))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("65534");
        assertThat(input(65535).register().address()).isEqualTo(65535);
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
    void every_channel_lies_whole_in_exactly_one_legal_block(long seed) {
        Random random = new Random(seed);
        List<Tap> taps = new ArrayList<>();
        for (int i = 0; i < 200; i++) {
            taps.add(
                    register(
                            1 + random.nextInt(3),
                            Table.values()[random.nextInt(4)],
                            random.nextInt(600),
                            NumberType.values()[random.nextInt(5)]));
        }

        ReadPlan plan = ReadPlan.of(taps);

        List<Tap> read = new ArrayList<>();
        for (Block block : plan.blocks()) {
            assertThat(block.count()).isLessThanOrEqualTo(Block.longest(block.table()));
            for (Tap tap : block.taps()) {
                read.add(tap);
                assertThat(tap.register().unitId()).isEqualTo(block.unitId());
                assertThat(tap.register().table()).isEqualTo(block.table());
                assertThat(block.offset(tap)).isNotNegative();
                assertThat(block.offset(tap) + tap.register().width())
                        .isLessThanOrEqualTo(block.count());
            }
        }
        assertThat(read).as("seed %d", seed).containsExactlyInAnyOrderElementsOf(taps);
    }

    private static Tap input(int address) {
        return Taps.input(Channel.INLET, address);
    }

    private static Tap register(int unit, Table table, int address, NumberType type) {
        return Taps.register(Channel.INLET, unit, table, address, type);
    }
}
