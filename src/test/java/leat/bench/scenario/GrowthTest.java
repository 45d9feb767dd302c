package leat.bench.scenario;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.Test;

class GrowthTest {

    private static final String GROWING =
            """
            name: growing
            description: Something grows.
            expect: See the test.
            seed: 5
            duration: 200 s
            machines:
              jet-1:
                timeline:
                  - { at: 0 s, fault: offset, tap: boosted, psi: 0 to 8, over: 80 s }
                  - { at: 10 s, fault: worn-booster, severity: 0.1 to 0.8, over: 60 s, growth: exponential }
                  - { at: 120 s, repair: offset, tap: boosted }
                  - { at: 130 s, fault: swapped }
                  - { at: 140 s, fault: stuck, tap: inlet }
                  - { at: 150 s, fault: not-turning }
            """;

    private static ScenarioRun playedTo(double seconds) throws ScenarioException {
        ScenarioRun run = new ScenarioRun(ScenarioLoader.parse("growing.yaml", GROWING), 20);
        while (run.nextMicros() <= seconds * 1e6) {
            run.next();
        }
        return run;
    }

    @Test
    void what_is_wrong_is_said_with_its_size_at_the_time() throws ScenarioException {
        assertThat(playedTo(5).defects("jet-1")).containsExactly("offset boosted 0.500 psi");
        assertThat(playedTo(40).defects("jet-1"))
                .containsExactly("offset boosted 4.000 psi", "worn-booster 0.283");
        assertThat(playedTo(160).defects("jet-1"))
                .containsExactly("worn-booster 0.800", "swapped", "stuck inlet", "not-turning");
        assertThat(playedTo(5).defects("jet-9")).isEmpty();
    }

    @Test
    void a_drifting_transducer_reads_ever_more_and_is_right_again_after_the_repair()
            throws ScenarioException {
        List<Sample> samples =
                ScenarioRun.samples(ScenarioLoader.parse("growing.yaml", GROWING), 20).toList();

        assertThat(mean(samples, 38, 42)).isCloseTo(4, within(0.2));
        assertThat(mean(samples, 90, 110)).isCloseTo(8, within(0.1));
        assertThat(mean(samples, 122, 128)).isCloseTo(0, within(0.1));
    }

    @Test
    void crossed_cables_give_each_channel_the_other_reading() throws ScenarioException {
        List<Sample> samples =
                ScenarioRun.samples(
                                ScenarioLoader.parse("growing.yaml", GROWING),
                                20,
                                Duration.ofSeconds(138))
                        .filter(sample -> sample.seconds() > 131)
                        .toList();

        assertThat(samples).allMatch(sample -> sample.boostedPsi() > 38);
        assertThat(samples).allMatch(sample -> Math.abs(sample.inletPsi()) < 2);
    }

    private static double mean(List<Sample> samples, double from, double to) {
        return samples.stream()
                .filter(s -> s.seconds() >= from && s.seconds() < to)
                .mapToDouble(Sample::boostedPsi)
                .average()
                .orElseThrow();
    }
}
