package leat.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmEvent;
import leat.alarm.AlarmState;
import leat.alarm.Refusal;
import leat.signal.Instruction;
import leat.signal.Order;
import leat.signal.Order.Entry;
import leat.store.InstructionFate.State;
import leat.watch.Outcome;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class InstructionBoxTest {

    private static final Refusal ACKNOWLEDGED =
            new Refusal.NotNow(
                    Refusal.Obstacle.NOTHING_TO_ACKNOWLEDGE, Optional.of(AlarmState.ACKNOWLEDGED));
    private static final Refusal NO_MACHINE = new Refusal.NoSuchMachine("jet-9");

    private static final String ALARM = "jet-1.ratio.20260105T060031Z";

    @TempDir private Path folder;
    private Path file;

    @BeforeEach
    void a_store_with_one_alarm() {
        file = folder.resolve("leat.db");
        Batch batch = new Batch();
        batch.said("jet-1", 1, new Outcome.AlarmChanged(raised(ALARM)), "hash");
        try (Store store = Store.open(file)) {
            store.startRun("0.1.0", "hash", "", 0);
            store.commit(batch);
        }
    }

    @Test
    void an_instruction_waits_while_leat_is_down() {
        try (InstructionBox box = InstructionBox.open(file)) {
            long first =
                    box.leave("jet-1", new Instruction(70, "Kim", new Order.Acknowledge(ALARM)));
            long second =
                    box.leave("jet-1", new Instruction(71, "Lee", new Order.Acknowledge(ALARM)));

            assertThat(box.fate(first).state()).isEqualTo(State.WAITING);
            assertThat(box.fate(second).state()).isEqualTo(State.WAITING);
        }

        try (Store store = Store.open(file);
                StoreReader reader = StoreReader.open(file)) {
            assertThat(store.pages()).isPositive();
            assertThat(reader.waiting())
                    .containsExactly(
                            new WaitingInstruction(
                                    1,
                                    "jet-1",
                                    new Instruction(70, "Kim", new Order.Acknowledge(ALARM))),
                            new WaitingInstruction(
                                    2,
                                    "jet-1",
                                    new Instruction(71, "Lee", new Order.Acknowledge(ALARM))));
            assertThat(reader.waiting().get(0).takenUp(99))
                    .isEqualTo(new Instruction(99, "Kim", new Order.Acknowledge(ALARM)));
        }
    }

    @Test
    void leat_has_ended_after_an_orderly_end_and_until_it_starts_again() {
        try (Store store = Store.open(file);
                InstructionBox box = InstructionBox.open(file)) {
            assertThat(box.hasLeatEnded()).as("started and not ended").isFalse();

            store.startRun("0.1.0", "hash", "", 10);
            store.endRun(20);
            assertThat(box.hasLeatEnded()).as("ended in order").isTrue();

            store.startRun("0.1.0", "hash", "", 30);
            assertThat(box.hasLeatEnded()).as("started again").isFalse();
        }
    }

    @Test
    void an_alarm_goes_by_number_or_id_and_one_that_does_not_exist_is_said_at_once() {
        try (InstructionBox box = InstructionBox.open(file)) {
            assertThat(box.alarm("1")).contains(new InstructionBox.Alarm("jet-1", ALARM));
            assertThat(box.alarm(ALARM)).contains(new InstructionBox.Alarm("jet-1", ALARM));
            for (String none : List.of("2", "0", "-1", "", "1 ", "01", "1.0", "jet-1", "' OR 1")) {
                assertThat(box.alarm(none)).as(none).isEmpty();
            }
        }
    }

    @Test
    void the_one_who_left_it_sees_it_taken_or_refused_with_the_reason() {
        try (Store store = Store.open(file);
                InstructionBox box = InstructionBox.open(file);
                StoreReader reader = StoreReader.open(file)) {
            long good =
                    box.leave(
                            "jet-1",
                            new Instruction(
                                    5, "Kim", new Order.Journal(Entry.SERVICED, "new seal")));
            long late = box.leave("jet-1", new Instruction(6, "Kim", new Order.Acknowledge(ALARM)));
            long lost =
                    box.leave(
                            "jet-9",
                            new Instruction(7, "Kim", new Order.Journal(Entry.NOTE, "which one?")));
            Instruction fedGood = reader.waiting().get(0).takenUp(10);
            Instruction fedLate = reader.waiting().get(1).takenUp(10);
            Batch batch = new Batch();
            batch.fed("jet-1", 1, fedGood);
            batch.taken(good, "jet-1", 1, 10);
            batch.fed("jet-1", 2, fedLate);
            batch.taken(late, "jet-1", 2, 10);
            batch.said("jet-1", 2, new Outcome.InstructionRefused(fedLate, ACKNOWLEDGED), "hash");
            batch.refused(lost, 10, NO_MACHINE);

            store.commit(batch);

            assertThat(box.fate(good))
                    .isEqualTo(new InstructionFate(State.TAKEN, Optional.empty()));
            assertThat(box.fate(late))
                    .isEqualTo(new InstructionFate(State.REFUSED, Optional.of(ACKNOWLEDGED)));
            assertThat(box.fate(lost))
                    .isEqualTo(new InstructionFate(State.REFUSED, Optional.of(NO_MACHINE)));
            assertThat(reader.waiting()).isEmpty();
            assertThatThrownBy(() -> box.fate(77)).isInstanceOf(IllegalArgumentException.class);
        }
    }

    @Test
    void a_box_beside_a_writing_leat_disturbs_no_commit() {
        RandomStory story = new RandomStory(3);
        try (Store store = Store.open(file);
                InstructionBox box = InstructionBox.open(file);
                StoreReader reader = StoreReader.open(file)) {
            for (int i = 1; i <= 200; i++) {
                Batch batch = new Batch();
                batch.fed("jet-1", i, story.input());
                box.leave("jet-1", story.journal());
                store.commit(batch);
            }

            assertThat(reader.waiting()).hasSize(200);
            assertThat(reader.lastSeq("jet-1")).isEqualTo(200);
        }
    }

    static AlarmChange raised(String id) {
        return new AlarmChange(
                id,
                1,
                AlarmEvent.RAISED,
                AlarmState.NORMAL,
                AlarmState.UNACKNOWLEDGED,
                50,
                50,
                new RandomStory(1).finding(),
                "");
    }
}
