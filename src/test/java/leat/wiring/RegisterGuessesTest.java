package leat.wiring;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.LongStream;
import leat.Gear;
import leat.acquire.modbus.RegisterStrip;
import leat.config.Point.NumberType;
import leat.config.Point.Register;
import leat.config.Point.Table;
import leat.config.Point.WordOrder;
import leat.signal.PressureUnit;
import leat.words.Language;
import leat.words.Phrases;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What bare registers are taken for. */
class RegisterGuessesTest {

    private static final Phrases ENGLISH = Phrases.in(Language.ENGLISH);

    private static final Span TO_200 = new Span(0, 200, PressureUnit.PSI);
    private static final Doubts NO_GAUGE = new Doubts(Optional.of(TO_200), Optional.empty());

    private static List<Guess> guesses(Doubts doubts, Integer... words) {
        List<Integer> read = List.of(words);
        RegisterStrip strip = new RegisterStrip(Table.INPUT_REGISTER, 0, List.of(read, read, read));
        return new RegisterGuesses(1, 0, words.length - 1, doubts).of(List.of(strip));
    }

    private static Doubts gauge(double psi) {
        return new Doubts(
                Optional.of(TO_200), Optional.of(new TypedPressure(psi, PressureUnit.PSI)));
    }

    private static List<Guess> likely(List<Guess> guesses) {
        return guesses.stream().filter(guess -> guess.sense().isLikely()).toList();
    }

    @ParameterizedTest
    @ValueSource(booleans = {true, false})
    void the_right_reading_of_a_drawn_device_is_always_among_the_marked_ones(boolean withGauge) {
        List<DrawnDevice> missed = new ArrayList<>();
        LongStream.range(0, Gear.of(100, 10_000))
                .mapToObj(DrawnDevice::of)
                .filter(d -> likely(d.guesses(withGauge)).stream().noneMatch(d::isRight))
                .forEach(missed::add);

        assertThat(missed).isEmpty();
    }

    /** Every form is drawn as often as any other, which no gauge could tell apart. */
    @ParameterizedTest
    @CsvSource({"true, false, 0.7", "false, false, 0.08", "true, true, 0.85", "false, true, 0.3"})
    void with_a_gauge_the_right_reading_is_mostly_the_first_one(
            boolean withGauge, boolean common, double share) {
        List<DrawnDevice> devices =
                LongStream.range(0, Gear.of(60, 3_000))
                        .mapToObj(DrawnDevice::of)
                        .filter(d -> !common || d.isCommon())
                        .toList();
        long first = devices.stream().filter(d -> d.isRight(d.guesses(withGauge).get(0))).count();

        assertThat(first / (double) devices.size()).isGreaterThan(share);
    }

    @Test
    void a_float_comes_before_what_its_high_word_alone_may_be() {
        int bits = Float.floatToIntBits(123.456f);

        Guess first = guesses(NO_GAUGE, bits >>> 16, bits & 0xffff).get(0);

        assertThat(first.as()).isEqualTo("float32 ABCD, psi");
        assertThat(first.sense().psi().orElseThrow()).isBetween(123.4, 123.5);
    }

    @Test
    void swapped_words_are_told_by_the_number_that_comes_of_it() {
        int bits = Float.floatToIntBits(62.3f);

        assertThat(guesses(NO_GAUGE, bits & 0xffff, bits >>> 16).get(0).as())
                .isEqualTo("float32 CDAB, psi");
    }

    @Test
    void a_hand_gauge_tells_microamps_from_hundredths_of_a_psi() {
        assertThat(guesses(gauge(100), 12_000).get(0).as()).isEqualTo("int16, uA");
        assertThat(guesses(gauge(120), 12_000).get(0).as()).isEqualTo("int16, 0.01 psi");
    }

    @Test
    void what_disagrees_with_the_gauge_is_not_marked_and_the_reason_stands_beside_it() {
        assertThat(guesses(gauge(100), 12_000))
                .filteredOn(guess -> guess.as().equals("int16, 0.01 psi"))
                .singleElement()
                .satisfies(guess -> assertThat(guess.sense().isLikely()).isFalse())
                .satisfies(
                        guess ->
                                assertThat(guess.sense().why().in(ENGLISH))
                                        .isEqualTo("gauge shows 100 psi"));
    }

    @Test
    void registers_that_read_zero_are_never_called_a_pressure() {
        List<Guess> guesses = guesses(gauge(0), 0, 0, 0, 0);

        assertThat(guesses).isNotEmpty();
        assertThat(likely(guesses)).isEmpty();
        assertThat(guesses.get(0).sense().why().in(ENGLISH)).contains("tells nothing");
    }

    @Test
    void a_vented_loop_of_4_mA_is_one_for_it_is_no_unused_register() {
        assertThat(guesses(gauge(0), 4_003, 0).get(0).as()).isEqualTo("int16, uA");
    }

    @Test
    void a_broken_loop_is_no_pressure() {
        assertThat(guesses(NO_GAUGE, 3_400)).noneMatch(guess -> guess.as().equals("int16, uA"));
    }

    @Test
    void a_counter_moves_too_much() {
        List<List<Integer>> reads = List.of(List.of(4_100), List.of(8_100), List.of(12_100));
        RegisterStrip strip = new RegisterStrip(Table.HOLDING_REGISTER, 7, reads);

        List<Guess> guesses = new RegisterGuesses(1, 7, 7, NO_GAUGE).of(List.of(strip));

        assertThat(guesses)
                .filteredOn(guess -> guess.as().equals("int16, uA"))
                .singleElement()
                .satisfies(guess -> assertThat(guess.sense().kind()).isEqualTo(Sense.Kind.MOVES))
                .satisfies(
                        guess ->
                                assertThat(guess.sense().why().in(ENGLISH))
                                        .isEqualTo("moves by 100.0 psi"));
    }

    @Test
    void a_neighbour_that_was_not_asked_for_comes_after_what_was() {
        RegisterStrip strip =
                new RegisterStrip(Table.INPUT_REGISTER, 3, List.of(List.of(9_000, 9_000, 9_000)));

        List<Guess> guesses = new RegisterGuesses(1, 4, 4, NO_GAUGE).of(List.of(strip));

        assertThat(guesses.get(0).point())
                .isEqualTo(
                        new Register(1, Table.INPUT_REGISTER, 4, NumberType.INT16, WordOrder.ABCD));
    }

    @Test
    void without_a_span_a_current_is_a_share_of_it_and_no_pressure() {
        Doubts nothingSaid = new Doubts(Optional.empty(), Optional.empty());

        assertThat(guesses(nothingSaid, 12_000))
                .filteredOn(guess -> guess.as().equals("int16, uA"))
                .singleElement()
                .satisfies(guess -> assertThat(guess.sense().psi()).isEmpty())
                .satisfies(
                        guess ->
                                assertThat(guess.sense().why().in(ENGLISH))
                                        .isEqualTo("50 % of its span: say --range"));
    }

    @Test
    void words_pick_one_reading() {
        assertThat(guesses(NO_GAUGE, 12_000).stream().filter(guess -> guess.isAs("uA INT16")))
                .hasSize(1);
        assertThat(guesses(NO_GAUGE, 12_000).stream().filter(guess -> guess.isAs("float32")))
                .isEmpty();
    }
}
