package leat.json;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.OptionalLong;
import leat.measure.Absence;
import leat.measure.Figure;
import leat.measure.Measurand;
import leat.signal.Order;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class RecordJsonTest {

    enum Mood {
        VERY_GOOD,
        BAD
    }

    sealed interface Shape {
        record Circle(double radiusPsi) implements Shape {}

        record LongLine(long fromMicros, List<Shape> parts) implements Shape {}
    }

    record Plain(
            double number,
            long atMicros,
            String text,
            boolean isOn,
            Mood mood,
            OptionalLong untilMicros,
            OptionalInt count,
            OptionalDouble share,
            List<String> words,
            Map<Measurand, Figure> figures) {

        /** No component, though it looks like one to a library of beans. */
        public boolean isCall() {
            return true;
        }
    }

    private static Plain plain(double number, String text) {
        return new Plain(
                number,
                7,
                text,
                false,
                Mood.VERY_GOOD,
                OptionalLong.empty(),
                OptionalInt.empty(),
                OptionalDouble.empty(),
                List.of(),
                Map.of());
    }

    private static Plain again(Plain plain) {
        return RecordJson.read(Plain.class, RecordJson.write(plain));
    }

    @Test
    void form_follows_from_the_declaration_and_what_is_empty_is_left_out() {
        Map<Measurand, Figure> figures = new EnumMap<>(Measurand.class);
        figures.put(Measurand.TOP, Figure.of(101.5, 0.25));
        figures.put(Measurand.RISE, Figure.of(1.25));
        figures.put(Measurand.DEAD, Figure.absent(Absence.NO_RUN_SIGNAL));
        Plain full =
                new Plain(
                        0.1,
                        7,
                        "",
                        true,
                        Mood.BAD,
                        OptionalLong.of(9),
                        OptionalInt.of(3),
                        OptionalDouble.of(0.5),
                        List.of("a"),
                        figures);

        assertThat(RecordJson.write(full))
                .isEqualTo(
                        "{\"number\":0.1,\"at_us\":7,\"is_on\":true,\"mood\":\"bad\","
                                + "\"until_us\":9,\"count\":3,\"share\":0.5,\"words\":[\"a\"],"
                                + "\"figures\":{\"top_psi\":[101.5,0.25],"
                                + "\"dead_time_s\":\"no-run-signal\",\"rise_s\":[1.25]}}");
        assertThat(again(full)).isEqualTo(full);
        assertThat(RecordJson.write(plain(1, "")))
                .isEqualTo("{\"number\":1.0,\"at_us\":7,\"is_on\":false,\"mood\":\"very-good\"}");
        assertThat(again(plain(1, ""))).isEqualTo(plain(1, ""));
    }

    @ParameterizedTest
    @ValueSource(
            doubles = {
                0.0,
                -0.0,
                0.1,
                1e15 + 0.5,
                Double.MIN_VALUE,
                Double.MAX_VALUE,
                2.2250738585072014E-308,
                Double.NaN,
                Double.POSITIVE_INFINITY,
                Double.NEGATIVE_INFINITY
            })
    void every_bit_of_a_number_comes_back(double number) {
        assertThat(Double.doubleToRawLongBits(again(plain(number, "")).number()))
                .isEqualTo(Double.doubleToRawLongBits(number));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "nul\u0000inside",
                "half \ud83d",
                "\udca7 half",
                "\udca7\ud83d",
                "Zo\u00eb \ud83d\udca7"
            })
    void every_char_of_a_text_comes_back_and_the_document_is_ascii(String text) {
        assertThat(again(plain(1, text)).text()).isEqualTo(text);
        assertThat(RecordJson.write(plain(1, text))).matches("[ -~]*");
    }

    @Test
    void a_sealed_interface_says_which_of_its_records_it_is() {
        Shape shape = new Shape.LongLine(5, List.of(new Shape.Circle(1), new Shape.Circle(2)));

        String json = RecordJson.write(Shape.class, shape);

        assertThat(json)
                .isEqualTo(
                        "{\"kind\":\"long-line\",\"from_us\":5,\"parts\":["
                                + "{\"kind\":\"circle\",\"radius_psi\":1.0},"
                                + "{\"kind\":\"circle\",\"radius_psi\":2.0}]}");
        assertThat(RecordJson.read(Shape.class, json)).isEqualTo(shape);
        assertThat(RecordJson.write(Order.class, new Order.Remove("jet-1.x", "gauge")))
                .isEqualTo("{\"kind\":\"remove\",\"alarm_id\":\"jet-1.x\",\"why\":\"gauge\"}");
    }

    @Test
    void a_record_may_have_grown_since_and_a_measurand_may_be_gone() {
        String old =
                "{\"number\":1.0,\"mood\":\"bad\",\"gone\":{\"deep\":[1]},"
                        + "\"figures\":{\"top_psi\":[1.0],\"no_longer_measured\":[2.0]}}";

        Plain read = RecordJson.read(Plain.class, old);

        assertThat(read.text()).isEmpty();
        assertThat(read.words()).isEmpty();
        assertThat(read.untilMicros()).isEmpty();
        assertThat(read.figures()).isEqualTo(Map.of(Measurand.TOP, Figure.of(1)));
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "[]", "{\"number\":\"much\"}", "{\"number\":1.0"})
    void what_is_no_such_record_is_refused_in_words(String json) {
        assertThatThrownBy(() -> RecordJson.read(Plain.class, json))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("no Plain");
    }

    @Test
    void what_is_of_no_known_kind_is_refused() {
        assertThatThrownBy(() -> RecordJson.read(Shape.class, "{\"kind\":\"square\"}"))
                .isInstanceOf(IllegalArgumentException.class);
    }
}
