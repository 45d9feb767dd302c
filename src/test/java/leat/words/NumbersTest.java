package leat.words;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class NumbersTest {

    @Test
    void a_zero_has_no_sign_in_any_language() {
        assertThat(Numbers.number(Language.ENGLISH, -0.04, 1)).isEqualTo("0.0");
        assertThat(Numbers.number(Language.GERMAN, -0.04, 1)).isEqualTo("0,0");
        assertThat(Numbers.number(Language.GERMAN, -0.4, 0)).isEqualTo("0");
        assertThat(Numbers.number(Language.GERMAN, -0.06, 1)).isEqualTo("-0,1");
    }
}
