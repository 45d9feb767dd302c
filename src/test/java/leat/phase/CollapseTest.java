package leat.phase;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class CollapseTest {

    private static final long STEP = 50_000;

    private final Collapse collapse = new Collapse();
    private long at = 1_767_592_800_000_000L;

    private boolean shows(double psi) {
        at += STEP;
        return collapse.shows(at, psi);
    }

    private void level(int readings) {
        for (int i = 0; i < readings; i++) {
            assertThat(shows(100)).isFalse();
        }
    }

    @Test
    void a_pressure_that_stays_down_for_three_tenths_of_a_second_has_broken_down() {
        level(100);

        for (int i = 0; i < 6; i++) {
            assertThat(shows(5)).as("reading %d", i).isFalse();
        }
        assertThat(shows(5)).isTrue();
        assertThat(collapse.sinceMicros()).isEqualTo(at - 6 * STEP);
    }

    @Test
    void strokes_that_dip_again_and_again_are_no_breakdown() {
        level(100);

        for (int stroke = 0; stroke < 50; stroke++) {
            assertThat(shows(5)).isFalse();
            assertThat(shows(5)).isFalse();
            level(10);
        }
    }
}
