package leat.replay;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import leat.diagnose.Answer;
import leat.diagnose.Cause;
import leat.diagnose.Observation;
import leat.diagnose.Testimony;
import leat.signal.Input;
import leat.signal.Instruction;
import leat.signal.Order.Entry;
import leat.signal.Order.Journal;
import leat.signal.Tick;
import leat.store.Batch;
import leat.store.Store;
import leat.store.StoreReader;
import leat.watch.Watch;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What the store tells again is what a replay of the same inputs hears. */
class RememberedTest {

    private static final String MACHINE = "jet-1";

    @TempDir Path folder;
    private final List<Input> inputs = new ArrayList<>();
    private long atMicros = Played.START;

    /** A store as a leat leaves it. */
    private StoreReader stored() {
        Path file = folder.resolve("leat.db");
        Watch watch = new Watch(Played.settings(MACHINE));
        Batch batch = new Batch();
        for (int i = 0; i < inputs.size(); i++) {
            long seq = i + 1;
            batch.fed(MACHINE, seq, inputs.get(i));
            watch.feed(inputs.get(i), outcome -> batch.said(MACHINE, seq, outcome, "hash"));
        }
        try (Store store = Store.open(file)) {
            store.startRun("test", "hash", "", Played.START);
            store.commit(batch);
            store.endRun(atMicros);
        }
        return StoreReader.open(file);
    }

    /** From a full second on. */
    private RememberedTest starts() {
        atMicros = (atMicros / Tick.PERIOD_MICROS + 1) * Tick.PERIOD_MICROS;
        inputs.addAll(Played.of("worn-booster", MACHINE).inputs(atMicros));
        atMicros = inputs.get(inputs.size() - 1).atMicros() + 1_000_000;
        return this;
    }

    private RememberedTest wrote(Entry entry, String found) {
        inputs.add(new Instruction(atMicros++, "kim", new Journal(entry, "", found)));
        return this;
    }

    private Replayed replayed() {
        return Replay.of(Played.settings(MACHINE), inputs::forEach);
    }

    @BeforeEach
    void one_start() {
        starts();
    }

    @Test
    void nobody_said_anything() {
        try (StoreReader reader = stored()) {
            Remembered then = Remembered.of(reader, MACHINE, 0, Long.MAX_VALUE);

            assertThat(then.testimony()).isEqualTo(Testimony.NONE);
            assertThat(then.seen().all()).hasSize(1);
        }
    }

    @Test
    void work_answers_and_refusals_are_as_a_replay_hears_them() {
        wrote(Entry.SERVICE_OFF, "")
                .wrote(Entry.PUMP_REPLACED, "worn-booster")
                .starts()
                .wrote(Entry.AIR_PURGED, "")
                .wrote(Entry.ANSWER, "recovers")
                .wrote(Entry.ANSWER, "all-dry")
                .starts();

        Replayed replayed = replayed();

        try (StoreReader reader = stored()) {
            Remembered then = Remembered.of(reader, MACHINE, 0, Long.MAX_VALUE);

            assertThat(then.testimony()).isEqualTo(replayed.testimony());
            assertThat(then.testimony().answers()).containsExactly(Answer.RECOVERS, Answer.ALL_DRY);
            assertThat(then.testimony().priors().factors())
                    .containsEntry(Cause.AIR, 0.4)
                    .containsEntry(Cause.WORN_BOOSTER, 0.2)
                    .containsEntry(Cause.COUPLING_SLIPS, 4.0);
            assertThat(then.seen().all())
                    .extracting(Observation::startedAtMicros)
                    .isEqualTo(
                            replayed.observations().stream()
                                    .map(Observation::startedAtMicros)
                                    .toList());
            assertThat(then.seen().all()).filteredOn(one -> one.start().isPresent()).hasSize(1);
        }
    }

    @Test
    void starts_before_those_that_are_looked_at_still_count_since_the_work() {
        wrote(Entry.STRAINER_CLEANED, "");
        for (int i = 0; i < 4; i++) {
            starts();
        }

        try (StoreReader reader = stored()) {
            long late = reader.startup(MACHINE, 5).orElseThrow().seq();

            assertThat(Remembered.of(reader, MACHINE, late, Long.MAX_VALUE).testimony())
                    .isEqualTo(Remembered.of(reader, MACHINE, 0, Long.MAX_VALUE).testimony())
                    .isEqualTo(replayed().testimony());
            assertThat(Remembered.of(reader, MACHINE, 0, Long.MAX_VALUE).testimony().priors())
                    .satisfies(priors -> assertThat(priors.factors()).doesNotContainKey(Cause.AIR));
        }
    }

    @Test
    void what_a_check_showed_later_is_true_of_then_unless_somebody_worked_on_it() {
        wrote(Entry.ANSWER, "recovers").starts();
        long before = inputs.size();
        wrote(Entry.ANSWER, "all-dry").wrote(Entry.AIR_PURGED, "").wrote(Entry.ANSWER, "no-air");

        try (StoreReader reader = stored()) {
            assertThat(Remembered.of(reader, MACHINE, 0, before).testimony().answers())
                    .containsExactly(Answer.RECOVERS, Answer.ALL_DRY);
            assertThat(Remembered.of(reader, MACHINE, 0, Long.MAX_VALUE).testimony().answers())
                    .containsExactly(Answer.NO_AIR);
        }
    }

    @Test
    void each_start_of_a_replay_is_told_what_was_done_before_it() {
        wrote(Entry.PUMP_REPLACED, "").starts().wrote(Entry.ANSWER, "no-air").starts();

        List<JudgedStartup> startups = replayed().startups();

        assertThat(startups.get(0).testimony()).isEqualTo(Testimony.NONE);
        assertThat(startups.get(1).testimony().answers()).containsExactly(Answer.NO_AIR);
        assertThat(startups.get(1).testimony().priors().factors()).containsEntry(Cause.AIR, 12.0);
        assertThat(startups.get(2).testimony().answers()).containsExactly(Answer.NO_AIR);
    }
}
