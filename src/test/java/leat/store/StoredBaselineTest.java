package leat.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import leat.measure.Measurand;
import leat.rule.Baseline;
import leat.rule.Learning;
import leat.rule.Learning.Cause;
import leat.rule.Usual;
import leat.signal.Tick;
import leat.watch.Outcome;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Which baseline was in force when. Inputs 1 to 9 stand at seconds 1 to 9. */
class StoredBaselineTest {

    private static final long SECOND = 1_000_000;
    private static final Baseline FIRST = baseline(3, 100);
    private static final Baseline SECOND_ONE = baseline(8, 95);

    @TempDir Path folder;
    private Path file;

    private static Baseline baseline(long second, double topPsi) {
        return new Baseline(
                second * SECOND,
                List.of(second * SECOND - 20, second * SECOND - 10),
                Map.of(Measurand.TOP, new Usual(topPsi, 0.5, 2)));
    }

    @BeforeEach
    void live() {
        file = folder.resolve("leat.db");
        Batch batch = new Batch();
        for (long seq = 1; seq <= 9; seq++) {
            batch.fed("jet-1", seq, new Tick(seq * SECOND));
        }
        batch.said("jet-1", 2, progressed(2, 1, Cause.FIRST), "hash");
        batch.said("jet-1", 3, new Outcome.BaselineLearned(FIRST), "hash");
        batch.said("jet-1", 5, progressed(5, 0, Cause.SERVICE), "hash");
        batch.said("jet-1", 6, progressed(6, 1, Cause.SERVICE), "hash");
        batch.said("jet-1", 8, new Outcome.BaselineLearned(SECOND_ONE), "hash");
        try (Store store = Store.open(file)) {
            store.startRun("test", "hash", "text", 0);
            store.commit(batch);
        }
    }

    private static Outcome progressed(long second, int good, Cause cause) {
        return new Outcome.LearningProgressed(new Learning(second * SECOND, good, 2, cause));
    }

    @Test
    void the_one_in_force_is_the_last_learned_unless_learning_began_anew() {
        try (StoreReader reader = StoreReader.open(file)) {
            assertThat(reader.baseline("jet-1", 2 * SECOND)).isEmpty();
            assertThat(reader.baseline("jet-1", 3 * SECOND)).contains(FIRST);
            assertThat(reader.baseline("jet-1", 4 * SECOND)).contains(FIRST);
            assertThat(reader.baseline("jet-1", 5 * SECOND)).isEmpty();
            assertThat(reader.baseline("jet-1", 7 * SECOND)).isEmpty();
            assertThat(reader.baseline("jet-1", 99 * SECOND)).contains(SECOND_ONE);
            assertThat(reader.baseline("jet-2", 99 * SECOND)).isEmpty();
        }
    }

    @Test
    void it_can_also_be_asked_by_the_input_that_was_fed_last() {
        try (StoreReader reader = StoreReader.open(file)) {
            assertThat(reader.baselineAfter("jet-1", 2)).isEmpty();
            assertThat(reader.baselineAfter("jet-1", 4)).contains(FIRST);
            assertThat(reader.baselineAfter("jet-1", 7)).isEmpty();
            assertThat(reader.baselineAfter("jet-1", 8)).contains(SECOND_ONE);
            assertThat(reader.learningAfter("jet-1", 1)).isEmpty();
            assertThat(reader.learningAfter("jet-1", 7))
                    .contains(new Learning(6 * SECOND, 1, 2, Cause.SERVICE));
        }
    }
}
