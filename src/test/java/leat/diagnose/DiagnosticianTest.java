package leat.diagnose;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import java.util.stream.LongStream;
import java.util.stream.Stream;
import leat.measure.Measurand;
import leat.signal.Channel;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Pictures that every mechanic knows, in invented numbers; and what must be so of every diagnosis.
 */
class DiagnosticianTest {

    private static final Reference OWN =
            Reference.of(LongStream.range(0, 8).mapToObj(SeenStart.sound()::at).toList());

    private static SeenStart sound() {
        return SeenStart.sound();
    }

    private static Diagnosis why(Observation... seen) {
        return Diagnostician.why(List.of(seen), OWN, Priors.NONE, List.of());
    }

    /**
     * Directions and sizes after the tables of published trade lore that leat's own limits rest on.
     */
    static Stream<Arguments> pictures() {
        return Stream.of(
                Arguments.of(Cause.HEALTHY, sound()),
                Arguments.of(
                        Cause.WORN_BOOSTER,
                        sound().level(72, 97)
                                .with(Measurand.BOOST_RATE, 33)
                                .with(Measurand.RISE_FROM_INLET, 1.6)
                                .with(Measurand.TIME_TO_LEVEL, 2.2)
                                .with(Measurand.RIPPLE, 3)),
                Arguments.of(
                        Cause.NOT_TURNING,
                        sound().level(40, 41)
                                .without(Measurand.TIME_TO_LEVEL)
                                .without(Measurand.RISE_FROM_INLET)
                                .without(Measurand.BOOST_RATE)
                                .notRisen()),
                Arguments.of(Cause.WEAK_SUPPLY, sound().inlet(20, 17).with(Measurand.INLET_DIP, 9)),
                Arguments.of(
                        Cause.STRAINER_CLOGGED,
                        sound().inlet(45, 21).with(Measurand.INLET_DIP, 38)),
                Arguments.of(
                        Cause.VALVE_LEAKS,
                        sound().with(Measurand.BASE, 22).with(Measurand.RISE, 1.0).rest(22, 4.5)),
                Arguments.of(Cause.FILTERS_CLOGGED, sound().running(Measurand.FILTER_LOSS, 16)),
                Arguments.of(Cause.SET_LOW, sound().level(71, 74)),
                Arguments.of(Cause.SET_HIGH, sound().level(132, 136)),
                Arguments.of(
                        Cause.AIR,
                        sound().with(Measurand.RISE, 6)
                                .with(Measurand.RISE_FROM_INLET, 3.4)
                                .with(Measurand.START_TO_90, 7.5)
                                .with(Measurand.TIME_TO_LEVEL, 5.5)
                                .with(Measurand.BOOST_RATE, 14)
                                .with(Measurand.BASE, 0.4)
                                .rest(1, 9)),
                Arguments.of(
                        Cause.EXTERNAL_LEAK,
                        sound().level(88, 92)
                                .inlet(45, 33)
                                .with(Measurand.INLET_DIP, 24)
                                .with(Measurand.BOOST_RATE, 35)
                                .rest(0, 0.9)),
                Arguments.of(
                        Cause.BOOSTED_OFFSET,
                        sound().level(107, 111).with(Measurand.BASE, 8).rest(8, 3.2)));
    }

    @ParameterizedTest
    @MethodSource("pictures")
    void a_plain_picture_is_called_by_its_name(Cause cause, SeenStart seen) {
        Diagnosis why = why(seen.once());

        assertThat(why.first().cause()).as(why.toString()).isEqualTo(cause);
    }

    @Test
    void of_nothing_seen_nothing_is_known() {
        Diagnosis why = Diagnostician.why(List.of(), Reference.general(), Priors.NONE, List.of());

        assertThat(why.suspects()).hasSize(1);
        assertThat(why.first().cause()).isEqualTo(Cause.UNKNOWN);
        assertThat(why.first().weight()).isEqualTo(1);
    }

    @ParameterizedTest
    @MethodSource("pictures")
    void weights_sum_to_one(Cause cause, SeenStart seen) {
        Map<Cause, Double> causes =
                new Ranking(
                                Evidence.of(List.of(seen.once()), OWN),
                                OWN.known(),
                                Weights.published(),
                                Priors.NONE)
                        .causes();

        assertThat(causes.values().stream().mapToDouble(Double::doubleValue).sum())
                .as(cause.key())
                .isCloseTo(1, within(1e-9));
    }

    @Test
    void a_gauge_that_stands_still_is_the_cause_whatever_it_shows() {
        Observation seen =
                sound().level(60, 60)
                        .once()
                        .with(new SignalFact(SignalFact.Kind.STUCK, Channel.BOOSTED));

        assertThat(why(seen).first().cause()).isEqualTo(Cause.STUCK);
        assertThat(why(seen).first().weight()).isGreaterThan(0.9);
    }

    @Test
    void a_gauge_that_has_read_right_for_three_starts_is_mended() {
        Observation open = sound().at(1).with(new SignalFact(SignalFact.Kind.OPEN, Channel.INLET));

        assertThat(first(open, sound().at(2), sound().at(3))).isEqualTo(Cause.OPEN_LOOP);
        assertThat(first(open, sound().at(2), sound().at(3), sound().at(4)))
                .isEqualTo(Cause.HEALTHY);
    }

    private static Cause first(Observation... seen) {
        return Diagnostician.why(List.of(seen), OWN, Priors.NONE, List.of()).first().cause();
    }

    @Test
    void what_was_done_moves_the_weights() {
        Observation slow =
                sound().with(Measurand.RISE, 2.2).with(Measurand.START_TO_90, 2.9).once();
        double before = weight(Cause.AIR, why(slow));

        double after =
                weight(
                        Cause.AIR,
                        Diagnostician.why(
                                List.of(slow), OWN, new Priors(Map.of(Cause.AIR, 8.0)), List.of()));

        assertThat(after).isGreaterThan(before);
    }

    @Test
    void with_few_known_starts_the_usual_is_less_sure() {
        Reference two = Reference.of(List.of(sound().at(1), sound().at(2)));

        assertThat(two.expected(Feature.LOADED).doubt())
                .isGreaterThan(OWN.expected(Feature.LOADED).doubt())
                .isLessThan(Reference.general().expected(Feature.LOADED).doubt());
    }

    @Test
    void a_reason_has_its_number_beside_the_usual_one() {
        Suspect strainer = why(sound().inlet(45, 21).with(Measurand.INLET_DIP, 38).once()).first();

        assertThat(strainer.pro())
                .filteredOn(reason -> reason.feature() == Feature.INLET_SAG)
                .singleElement()
                .satisfies(
                        reason -> {
                            assertThat(reason.value()).isCloseTo(24, within(0.01));
                            assertThat(reason.usual().getAsDouble()).isCloseTo(3.5, within(0.5));
                            assertThat(reason.weight()).isPositive();
                        });
    }

    private static double weight(Cause cause, Diagnosis why) {
        return why.suspects().stream()
                .filter(suspect -> suspect.cause() == cause)
                .mapToDouble(Suspect::weight)
                .sum();
    }
}
