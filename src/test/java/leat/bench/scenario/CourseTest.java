package leat.bench.scenario;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class CourseTest {

    private static final Duration SPAN = Duration.ofDays(10);
    private static final long DAY = 86_400_000_000L;

    @ParameterizedTest
    @CsvSource({"-1, 0.1", "0, 0.1", "5, 0.45", "10, 0.8", "11, 0.8"})
    void linear_growth_goes_by_equal_steps_and_then_stays(long day, double size) {
        Course course = new Course(0.1, 0.8, SPAN, Course.Growth.LINEAR);

        double now = course.at(day * DAY);

        assertThat(now).isCloseTo(size, within(1e-12));
    }

    @ParameterizedTest
    @CsvSource({"0, 0.1", "5, 0.2", "10, 0.4", "20, 0.4"})
    void exponential_growth_goes_by_equal_factors(long day, double size) {
        Course course = new Course(0.1, 0.4, SPAN, Course.Growth.EXPONENTIAL);

        double now = course.at(day * DAY);

        assertThat(now).isCloseTo(size, within(1e-12));
    }

    @Test
    void a_steady_size_is_the_same_at_any_time() {
        Course course = Course.steady(0.5);

        assertThat(course.at(0)).isEqualTo(0.5);
        assertThat(course.at(1_000 * DAY)).isEqualTo(0.5);
    }

    @Test
    void growth_that_cannot_be_is_refused() {
        assertThatIllegalArgumentException()
                .isThrownBy(() -> new Course(0, 1, SPAN, Course.Growth.EXPONENTIAL));
        assertThatIllegalArgumentException()
                .isThrownBy(() -> new Course(0, 1, Duration.ZERO, Course.Growth.LINEAR));
    }
}
