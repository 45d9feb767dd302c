package leat.service;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import leat.phase.Phase;
import leat.signal.Channel;
import leat.signal.ClockStep;
import leat.signal.Input;
import leat.signal.Reading;
import leat.signal.SourceBack;
import leat.signal.SourceLost;
import leat.store.StoreReader;
import leat.watch.Outcome;
import leat.watch.Watch;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The computer's clock is set while leat runs or while it is down; judging goes on at once. */
class ClockSetTest {

    private static final Instant NOON = Instant.parse("2026-06-15T12:00:00Z");
    private static final String MACHINE = "jet-1";

    @TempDir Path folder;

    private SiteRun run;

    @BeforeEach
    void start() throws IOException {
        run = new SiteRun(folder, yaml(), NOON);
    }

    @AfterEach
    void close() {
        run.close();
    }

    private static String yaml() throws IOException {
        String yaml = Files.readString(Path.of("config/boatyard-modbus.yaml"));
        return yaml.substring(0, yaml.indexOf("  jet-2:"))
                + yaml.substring(yaml.indexOf("\ntell:"));
    }

    private void seconds(int seconds, double boostedPsi) throws InterruptedException {
        for (int i = 0; i < seconds; i++) {
            run.second(4, () -> offer(boostedPsi));
        }
    }

    private void offer(double boostedPsi) {
        long now = run.intake().nowMicros();
        double swing = now / 250_000 % 3 * 0.1;
        run.intake().offer(MACHINE, Reading.good(Channel.INLET, now, 42 + swing));
        run.intake().offer(MACHINE, Reading.good(Channel.BOOSTED, now, boostedPsi - swing));
    }

    /** Ten seconds at rest, then a booster that gives far too little. */
    private void weakRun() throws InterruptedException {
        seconds(12, 0);
        seconds(50, 60);
    }

    private List<Outcome> outcomes() {
        List<Outcome> outcomes = new ArrayList<>();
        try (StoreReader reader = StoreReader.open(run.database())) {
            reader.outcomes(MACHINE, 0, Long.MAX_VALUE, said -> outcomes.add(said.outcome()));
        }
        return outcomes;
    }

    private List<Input> inputs() {
        List<Input> inputs = new ArrayList<>();
        try (StoreReader reader = StoreReader.open(run.database())) {
            reader.inputs(MACHINE, 0, Long.MAX_VALUE, (seq, input) -> inputs.add(input));
        }
        return inputs;
    }

    private long starts() {
        return outcomes().stream()
                .filter(outcome -> outcome instanceof Outcome.PhaseChanged)
                .map(outcome -> ((Outcome.PhaseChanged) outcome).change().to())
                .filter(phase -> phase == Phase.RISE)
                .count();
    }

    private boolean weakBoostStands() {
        try (StoreReader reader = StoreReader.open(run.database())) {
            return reader.standingAlarms().stream()
                    .anyMatch(alarm -> alarm.change().finding().rule().key().equals("ratio"));
        }
    }

    private ClockStep step() {
        return (ClockStep) inputs().stream().filter(i -> i instanceof ClockStep).findFirst().get();
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "2026-06-15T11:59:00Z",
                "2026-06-15T11:00:00Z",
                "2026-06-14T12:00:00Z",
                "1970-01-01T00:00:10Z"
            })
    void started_with_the_clock_behind_its_own_past_it_judges_the_next_run(String time)
            throws InterruptedException {
        seconds(60, 0);
        run.end();
        run.startAgainAt(Instant.parse(time));

        weakRun();

        assertThat(starts()).isEqualTo(1);
        assertThat(weakBoostStands()).isTrue();
        assertThat(step().atMicros()).isEqualTo(Instant.parse(time).getEpochSecond() * 1_000_000);
        assertThat(step().fromMicros()).isEqualTo((NOON.getEpochSecond() + 60) * 1_000_000);
    }

    @Test
    void after_a_run_in_2100_it_judges_at_the_right_time_too() throws InterruptedException {
        run.end();
        run.startAgainAt(Instant.parse("2100-01-01T00:00:00Z"));
        seconds(30, 0);
        run.end();
        run.startAgainAt(NOON);

        weakRun();

        assertThat(weakBoostStands()).isTrue();
    }

    /** As after the battery of the clock has gone, until the network tells the time. */
    @Test
    void a_time_before_leat_was_made_is_no_gap_but_a_wrong_clock() throws InterruptedException {
        run.end();
        run.startAgainAt(Instant.parse("1970-01-01T00:00:10Z"));
        weakRun();
        run.end();
        run.startAgainAt(NOON);
        seconds(20, 0);

        assertThat(step().fromMicros()).isLessThan(100_000_000);
        assertThat(step().atMicros()).isEqualTo(NOON.getEpochSecond() * 1_000_000);
    }

    @Test
    void a_start_with_a_right_clock_is_no_step() throws InterruptedException {
        seconds(10, 0);
        run.end();
        run.startAgain(Duration.ofMinutes(2));

        seconds(10, 0);

        assertThat(inputs()).noneMatch(input -> input instanceof ClockStep);
        assertThat(inputs()).anyMatch(input -> input instanceof SourceLost);
    }

    @Test
    void what_was_stamped_just_before_the_clock_was_set_is_not_of_another_time()
            throws InterruptedException {
        seconds(20, 0);
        long before = run.nowMicros();
        offer(0);
        run.setClock(new ClockStep(before - 3_600_000_000L, before));

        weakRun();

        assertThat(weakBoostStands()).isTrue();
        List<Input> inputs = inputs();
        int set = inputs.indexOf(step());
        assertThat(inputs.subList(set, inputs.size()))
                .allMatch(input -> Math.abs(input.atMicros() - step().atMicros()) < 100_000_000);
    }

    /** The computer's clock is a little behind; what a source said at one moment stays so. */
    @Test
    void while_the_clock_is_slewed_what_came_together_stays_together() throws InterruptedException {
        run.setClock(new ClockStep(run.nowMicros() - 400_000, run.nowMicros()));
        for (int i = 0; i < 40; i++) {
            run.late(50_000, () -> {});
            long now = run.intake().nowMicros();
            run.intake().offer(MACHINE, new SourceBack(Channel.INLET, now));
            run.engineTurn();
            run.intake().offer(MACHINE, Reading.good(Channel.INLET, now, 42));
            run.engineTurn();
        }

        seconds(2, 0);

        List<Input> inputs = inputs();
        List<Input> returns = inputs.stream().filter(i -> i instanceof SourceBack).toList();
        assertThat(returns).hasSize(40);
        assertThat(returns)
                .allMatch(
                        back -> inputs.get(inputs.indexOf(back) + 1).atMicros() == back.atMicros());
    }

    @Test
    void what_waited_while_the_disk_was_slow_is_judged_second_by_second()
            throws InterruptedException {
        seconds(12, 0);
        for (int i = 0; i < 160; i++) {
            run.late(250_000, () -> offer(100));
        }

        seconds(10, 100);

        Watch watch = new Watch(Watched.watchSettings(run.site().machines().get(0)));
        List<Outcome> replayed = new ArrayList<>();
        inputs().forEach(input -> watch.feed(input, replayed::add));
        assertThat(watch.glance().ahead()).isZero();
        assertThat(starts()).isEqualTo(1);
        assertThat(replayed).anyMatch(outcome -> outcome instanceof Outcome.StartupMeasured);
    }
}
