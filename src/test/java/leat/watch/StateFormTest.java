package leat.watch;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import leat.Gear;
import leat.rule.Baseline;
import leat.rule.Limit;
import leat.signal.Input;
import leat.signal.Tick;
import leat.wire.StateBytes;
import org.junit.jupiter.api.Test;

/**
 * The state outlives versions: what was stored is taken up by a leat that has more fields or fewer.
 * The stored one is written anew by {@code mvn -B verify -Dleat.regenerate=true}.
 */
class StateFormTest {

    private static final Path STORED = Path.of("src/test/resources/leat/watch/day.state");
    private static final String BASELINE = "rules.learner.baseline";

    private final Line day =
            Line.withSeed(25)
                    .limit(Limit.BASELINE_STARTS, 3)
                    .limit(Limit.BASELINE_STARTS_RUNNING, 2)
                    .runSignal();
    private final List<Input> inputs;
    private final int cut;

    /** A baseline is learned, an alarm has come and gone, another stands; then the day goes on. */
    StateFormTest() {
        day.at(0).hold(5);
        runs(3, 100, 16);
        day.inlet(3);
        runs(1, 40, 20);
        day.inlet(42);
        runs(1, 74, 25);
        day.running(true).towards(74, 0.6, 16);
        cut = day.inputs().size();
        day.hold(9).running(false).towards(0, 1, 20);
        runs(1, 74, 25);
        runs(1, 100, 40);
        inputs = day.inputs();
    }

    private void runs(int count, double psi, double seconds) {
        for (int i = 0; i < count; i++) {
            day.running(true).towards(psi, 0.6, seconds);
            day.running(false).towards(0, 1, 20);
        }
    }

    private List<Outcome> feed(Watch watch, int from, int to) {
        List<Outcome> outcomes = new ArrayList<>();
        inputs.subList(from, to).forEach(input -> watch.feed(input, outcomes::add));
        return outcomes;
    }

    private Watch untilCut() {
        Watch watch = new Watch(day.settings());
        feed(watch, 0, cut);
        return watch;
    }

    private static Optional<Baseline> baseline(Watch watch) {
        List<Baseline> found = new ArrayList<>();
        StateBytes.into(
                Watch.FORMAT,
                watch.snapshot(),
                state ->
                        state.part(
                                "rules",
                                rules ->
                                        rules.part(
                                                "learner",
                                                learner ->
                                                        learner.keep(
                                                                        "baseline",
                                                                        Baseline.class,
                                                                        Optional.empty())
                                                                .ifPresent(found::add))));
        return found.stream().findFirst();
    }

    @Test
    void stored_state_goes_on_as_a_watch_that_never_stopped() throws IOException {
        Watch watch = untilCut();
        if (Boolean.getBoolean("leat.regenerate")) {
            Files.write(STORED, watch.snapshot());
        }
        Watch restored = Watch.restore(day.settings(), Files.readAllBytes(STORED));

        List<Outcome> goesOn = feed(restored, cut, inputs.size());

        assertThat(goesOn).isEqualTo(feed(watch, cut, inputs.size()));
        assertThat(goesOn).filteredOn(o -> o instanceof Outcome.AlarmChanged).hasSizeGreaterThan(1);
    }

    @Test
    void state_that_lacks_any_one_field_is_taken_up_and_the_baseline_is_kept() {
        Watch watch = untilCut();
        StoredForm stored = new StoredForm(watch.snapshot());
        Optional<Baseline> usual = baseline(watch);
        int until = Gear.of(cut + 40, inputs.size());
        assertThat(stored.paths()).hasSizeGreaterThan(400);
        assertThat(usual).isPresent();

        for (String lacking : Gear.everyNth(4, stored.paths())) {
            if (lacking.startsWith(BASELINE)) {
                continue; // what is dropped cannot be kept
            }
            byte[] state = stored.with(path -> !path.equals(lacking));
            Watch restored = Watch.restore(day.settings(), state);

            if (!BASELINE.startsWith(lacking)) {
                assertThat(baseline(restored)).as("without %s", lacking).isEqualTo(usual);
            }
            assertThatCode(() -> feed(restored, cut, until))
                    .as("goes on without %s", lacking)
                    .doesNotThrowAnyException();
        }
    }

    @Test
    void what_a_later_version_has_more_is_passed_over_and_counted() {
        Watch watch = untilCut();
        byte[] later =
                StateBytes.of(
                        Watch.FORMAT,
                        state -> {
                            state.part("wear", part -> part.keep("strokes", 12_345L));
                            watch.keep(state);
                            state.keep("learned", Baseline.class, Optional.empty());
                        });

        Watch restored = Watch.restore(day.settings(), later);

        assertThat(restored.passedOver()).isEqualTo(2);
        assertThat(restored.snapshot()).isEqualTo(watch.snapshot());
        assertThat(feed(restored, cut, inputs.size())).isEqualTo(feed(watch, cut, inputs.size()));
    }

    @Test
    void same_state_is_the_same_bytes() {
        Watch watch = untilCut();
        Watch restored = Watch.restore(day.settings(), watch.snapshot());

        assertThat(restored.snapshot()).isEqualTo(watch.snapshot());
        assertThat(untilCut().snapshot()).isEqualTo(watch.snapshot());
        assertThat(restored.passedOver()).isZero();
    }

    @Test
    void state_of_before_there_were_names_is_told_from_a_damaged_one() {
        byte[] seven = ByteBuffer.allocate(100).putLong(7).array();

        assertThatThrownBy(() -> Watch.restore(day.settings(), seven))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("earlier leat");
    }

    @Test
    void state_in_which_any_byte_is_wrong_or_that_is_cut_anywhere_is_refused() {
        byte[] state = untilCut().snapshot();

        for (int i = 0; i < state.length; i += Gear.of(7, 1)) {
            byte[] wrong = state.clone();
            wrong[i] ^= (byte) (1 << i % 8);
            refused(wrong);
            refused(Arrays.copyOf(state, i));
        }
        refused(Arrays.copyOf(state, state.length + 1));
    }

    private void refused(byte[] state) {
        assertThatThrownBy(() -> Watch.restore(day.settings(), state))
                .isInstanceOf(IllegalArgumentException.class);
    }

    /** The checksum aside, nothing in the bytes is believed either. */
    @Test
    void whatever_the_bytes_say_a_state_is_taken_up_or_refused_and_does_no_harm() {
        Watch fresh = new Watch(day.settings());
        fresh.feed(new Tick(Line.START), outcome -> {});
        for (Watch watch : List.of(fresh, untilCut())) {
            byte[] state = watch.snapshot();
            int step = watch == fresh ? Gear.of(11, 1) : Gear.of(211, 1);
            for (int i = StoredForm.HEAD; i < state.length; i += step) {
                for (int wrong : new int[] {state[i] ^ 1, state[i] ^ 0x80, 0x7f, 0xff, 0}) {
                    byte[] damaged = state.clone();
                    damaged[i] = (byte) wrong;
                    harmless(damaged);
                }
                harmless(Arrays.copyOf(state, i));
            }
        }
    }

    private void harmless(byte[] state) {
        try {
            Watch.restore(day.settings(), StoredForm.sealed(state));
        } catch (IllegalArgumentException refused) {
            assertThat(refused).hasMessageContaining("state");
        }
    }
}
