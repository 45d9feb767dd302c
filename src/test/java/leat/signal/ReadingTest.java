package leat.signal;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

class ReadingTest {

    @ParameterizedTest
    @ValueSource(doubles = {Double.NaN, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY})
    void a_reading_holds_only_finite_numbers(double value) {
        assertThatThrownBy(() -> Reading.good(Channel.INLET, 0, value))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("not finite");
    }

    @ParameterizedTest
    @EnumSource
    void a_bad_reading_carries_no_number(Quality quality) {
        boolean refused = quality.trust() == Quality.Trust.BAD;

        if (refused) {
            assertThatThrownBy(() -> new Reading(Channel.INLET, 0, 40, quality))
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessageContaining("carries no number");
        } else {
            assertThat(new Reading(Channel.INLET, 0, 40, quality).value()).isEqualTo(40);
        }
        assertThat(quality.isUsable()).isEqualTo(!refused);
    }

    @Test
    void a_small_negative_pressure_is_legal() {
        assertThat(Reading.good(Channel.INLET, 0, -0.4).value()).isEqualTo(-0.4);
    }

    @ParameterizedTest
    @CsvSource({
        "GOOD, 0, GOOD",
        "LOOP_BELOW_BAND, 1, UNCERTAIN",
        "LOOP_ABOVE_BAND, 2, UNCERTAIN",
        "HELD, 3, UNCERTAIN",
        "AT_TOP, 4, UNCERTAIN",
        "LOOP_BROKEN, 10, BAD",
        "LOOP_SHORTED, 11, BAD",
        "OUT_OF_RANGE, 12, BAD",
        "UNDECODABLE, 13, BAD",
        "DEVICE_REFUSED, 14, BAD"
    })
    void the_number_of_a_quality_in_the_store_never_changes(
            Quality quality, int code, Quality.Trust trust) {
        assertThat(quality.code()).isEqualTo(code);
        assertThat(quality.trust()).isEqualTo(trust);
        assertThat(Quality.byCode(code)).isEqualTo(quality);
    }

    @ParameterizedTest
    @CsvSource({
        "INLET, 0, inlet, true",
        "BOOSTED, 1, boosted, true",
        "FILTERED, 2, filtered, true",
        "RUNNING, 3, running, false",
        "VALVE, 4, valve, false",
        "CUTTING, 5, cutting, false"
    })
    void the_number_and_the_key_of_a_channel_never_change(
            Channel channel, int code, String key, boolean pressure) {
        assertThat(channel.code()).isEqualTo(code);
        assertThat(channel.key()).isEqualTo(key);
        assertThat(channel.isPressure()).isEqualTo(pressure);
        assertThat(Channel.byCode(code)).isEqualTo(channel);
        assertThat(Channel.byKey(key)).contains(channel);
    }

    @Test
    void numbers_that_stand_for_nothing_are_refused() {
        assertThatThrownBy(() -> Quality.byCode(5)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> Channel.byCode(6)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> Channel.byCode(-1)).isInstanceOf(IllegalArgumentException.class);
        assertThat(Channel.byKey("Inlet")).isEmpty();
    }

    @ParameterizedTest
    @CsvSource({
        "false, 0, 0",
        "false, 1, 1",
        "false, 65535, 1",
        "false, -1, 1",
        "true, 0, 1",
        "true, 1, 0",
        "true, 65535, 0"
    })
    void a_contact_reads_1_while_closed_whichever_way_it_is_wired(
            boolean inverted, double raw, double value) {
        Reading reading = new Contact(inverted).read(Channel.RUNNING, 9, raw);

        assertThat(reading).isEqualTo(Reading.good(Channel.RUNNING, 9, value));
    }

    @ParameterizedTest
    @ValueSource(booleans = {false, true})
    void a_contact_that_is_no_number_is_neither_open_nor_closed(boolean inverted) {
        Reading reading = new Contact(inverted).read(Channel.RUNNING, 9, Double.NaN);

        assertThat(reading.quality()).isEqualTo(Quality.UNDECODABLE);
    }

    @Test
    void a_tick_falls_on_a_whole_second_before_1970_too() {
        assertThat(new Tick(3_000_000).atMicros()).isEqualTo(3_000_000);
        assertThat(new Tick(-1_000_000).atMicros()).isEqualTo(-1_000_000);
        assertThatThrownBy(() -> new Tick(3_000_001)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> new Tick(-1)).isInstanceOf(IllegalArgumentException.class);
    }

    @Test
    void an_instruction_names_who_gave_it() {
        assertThatThrownBy(() -> new Instruction(0, " ", new Order.Acknowledge("jet-1/ratio")))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(
                        () ->
                                new Instruction(
                                        0, "", new Order.Journal(Order.Entry.NOTE, "changed")))
                .isInstanceOf(IllegalArgumentException.class);
    }
}
