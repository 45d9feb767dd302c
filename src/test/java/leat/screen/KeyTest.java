package leat.screen;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class KeyTest {

    @ParameterizedTest
    @ValueSource(ints = {'q', 'Q', 3, 4, -1})
    void q_ctrl_c_ctrl_d_and_the_end_of_what_is_typed_end_it(int code) {
        assertThat(Key.of(code)).isEqualTo(Key.of(Key.Kind.END));
    }

    @Test
    void number_chooses_and_anything_else_does_nothing() {
        assertThat(Key.of('7')).isEqualTo(new Key(Key.Kind.NUMBER, 7));
        assertThat(Key.of('0')).isEqualTo(Key.of(Key.Kind.OTHER));
        assertThat(Key.of('x')).isEqualTo(Key.of(Key.Kind.OTHER));
    }

    @Test
    void arrows_go_up_and_down() {
        assertThat(Key.arrow('A')).isEqualTo(Key.of(Key.Kind.UP));
        assertThat(Key.arrow('B')).isEqualTo(Key.of(Key.Kind.DOWN));
        assertThat(Key.arrow('C')).isEqualTo(Key.of(Key.Kind.OTHER));
    }
}
