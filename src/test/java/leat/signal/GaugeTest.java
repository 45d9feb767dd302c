package leat.signal;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

class GaugeTest {

    private static final long START = 1_767_592_800_000_000L;

    private final Gauge gauge = new Gauge(Channel.INLET);

    private static long at(long millis) {
        return START + millis * 1_000;
    }

    private void bad(long millis) {
        gauge.show(Reading.bad(Channel.INLET, at(millis), Quality.OUT_OF_RANGE));
    }

    private void good(long millis) {
        gauge.show(Reading.good(Channel.INLET, at(millis), 40));
    }

    @Test
    void a_loose_wire_that_makes_contact_for_less_than_a_second_is_bad_all_the_time() {
        bad(0);
        good(500);
        bad(900);
        good(1_400);

        assertThat(gauge.badSinceMicros(at(1_800))).isEqualTo(at(0));
        assertThat(gauge.badSinceMicros(at(1_901))).isEqualTo(Gauge.NEVER);
    }

    @Test
    void a_second_of_good_readings_ends_it_and_the_next_bad_one_begins_anew() {
        bad(0);
        good(500);
        bad(1_600);

        assertThat(gauge.badSinceMicros(at(1_600))).isEqualTo(at(1_600));
    }
}
