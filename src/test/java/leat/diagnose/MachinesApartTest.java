package leat.diagnose;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Arrays;
import java.util.List;
import java.util.stream.LongStream;
import leat.diagnose.PlayedRun.Make;
import org.junit.jupiter.api.Test;

/** What is judged was never tuned or tempered by. */
class MachinesApartTest {

    private static PlayedRun of(long seed) {
        return new PlayedRun(
                3,
                seed,
                Make.BENCH,
                "",
                PlayedRun.OWN,
                0,
                Cause.HEALTHY,
                0,
                0,
                0,
                Observation.at(0));
    }

    @Test
    void no_seed_is_for_two_things() {
        assertThat(LongStream.range(0, 4_000))
                .allMatch(
                        seed ->
                                Arrays.stream(MachinesFor.values())
                                                .filter(one -> one.has(seed))
                                                .count()
                                        <= 1);
    }

    @Test
    void fitting_refuses_machines_that_are_judged() {
        List<PlayedRun> judged = List.of(of(1), of(MachinesFor.JUDGING.first()));

        assertThatThrownBy(() -> MachinesFor.TUNING.only(judged))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("1001");
    }

    @Test
    void judging_refuses_machines_that_were_tuned_or_tempered_by() {
        assertThatThrownBy(() -> MachinesFor.JUDGING.only(List.of(of(1))))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(
                        () -> MachinesFor.JUDGING.only(List.of(of(MachinesFor.TEMPERING.first()))))
                .isInstanceOf(IllegalArgumentException.class);
    }
}
