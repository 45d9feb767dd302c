package leat.acquire;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Optional;
import leat.signal.Channel;
import leat.signal.Contact;
import leat.signal.Conversion;
import leat.signal.Transducer;
import leat.signal.TwoPoint;
import org.junit.jupiter.api.Test;

class SetUpTest {

    private static final Conversion FLOAT =
            new Transducer(Optional.empty(), TwoPoint.IDENTITY, -20, 250);
    private static final Conversion LOOP =
            new Transducer(
                    Optional.of(new TwoPoint(0, 0, 4095, 20.5)),
                    new TwoPoint(4, 0, 20, 200),
                    -10,
                    210);

    @Test
    void a_float_in_the_wrong_word_order_is_shown_beside_what_was_expected() {
        assertThat(news(new SetUp(FLOAT), FLOAT, Float.intBitsToFloat(0x0000_4220)))
                .contains("2.37e-41 = 2.37e-41 psi, expected -20 to 250 psi");
    }

    @Test
    void counts_of_a_loop_are_shown_as_current_and_pressure() {
        assertThat(news(new SetUp(LOOP), LOOP, 120))
                .contains("120 = 0.6007 mA = -42.4908 psi, expected -10 to 210 psi");
        assertThat(news(new SetUp(LOOP), LOOP, 0))
                .contains("0 = 0 mA = -50 psi, expected -10 to 210 psi");
    }

    @Test
    void a_contact_is_no_pressure() {
        Conversion contact = new Contact(false);

        assertThat(news(new SetUp(contact), contact, Double.NaN)).contains("NaN, expected 0 or 1");
    }

    @Test
    void it_is_news_once_though_usable_readings_are_strewn_in() {
        SetUp setUp = new SetUp(FLOAT);

        assertThat(news(setUp, FLOAT, 41)).isEmpty();
        assertThat(news(setUp, FLOAT, 1e9))
                .contains("1.00e+09 = 1.00e+09 psi, expected -20 to 250 psi");
        assertThat(news(setUp, FLOAT, 42)).isEmpty();
        assertThat(news(setUp, FLOAT, 1e9)).isEmpty();
    }

    @Test
    void what_goes_wrong_on_a_channel_that_has_read_right_is_no_set_up() {
        SetUp setUp = new SetUp(FLOAT);
        for (int i = 0; i < 100; i++) {
            assertThat(news(setUp, FLOAT, 40 + 0.01 * i)).isEmpty();
        }

        assertThat(news(setUp, FLOAT, 1e9)).isEmpty();
    }

    private static Optional<String> news(SetUp setUp, Conversion conversion, double raw) {
        return setUp.news(raw, conversion.read(Channel.INLET, 0, raw));
    }
}
