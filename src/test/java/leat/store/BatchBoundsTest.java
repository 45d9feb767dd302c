package leat.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Optional;
import java.util.concurrent.atomic.AtomicLong;
import java.util.stream.IntStream;
import leat.alarm.Refusal;
import leat.rule.Grade;
import leat.signal.Channel;
import leat.signal.ClockStep;
import leat.signal.Instruction;
import leat.signal.Order;
import leat.signal.Reading;
import leat.signal.SourceLost;
import leat.signal.Tick;
import leat.watch.Outcome;
import org.junit.jupiter.api.Test;

/** What a batch keeps and what it lets go while the store takes nothing. */
class BatchBoundsTest {

    private final Batch batch = new Batch();
    private final AtomicLong numbers = new AtomicLong();

    private void owe(String id, Grade grade, Optional<String> foldedInto) {
        batch.owes(
                new Message(
                        id,
                        "hall",
                        "jet-1",
                        "alarm",
                        grade,
                        1,
                        "topic",
                        Message.Purpose.CALL,
                        "raised",
                        "",
                        "",
                        "{}",
                        foldedInto));
        batch.number(numbers::incrementAndGet);
    }

    @Test
    void of_messages_go_first_those_told_then_those_folded_then_the_oldest_critical_last() {
        owe("critical", Grade.CRITICAL, Optional.empty());
        owe("old", Grade.WARNING, Optional.empty());
        owe("folded", Grade.WARNING, Optional.of("more"));
        owe("told", Grade.CRITICAL, Optional.empty());
        owe("new", Grade.WARNING, Optional.empty());
        batch.delivered(4, 1);

        assertThat(batch.letMessagesGo(5)).isZero();
        assertThat(batch.letMessagesGo(4)).isEqualTo(1);
        assertThat(batch.owed)
                .extracting(each -> each.message().id())
                .containsExactly("critical", "old", "folded", "new");
        assertThat(batch.letMessagesGo(2)).isEqualTo(2);
        assertThat(batch.owed)
                .extracting(each -> each.message().id())
                .containsExactly("critical", "new");
        assertThat(batch.letMessagesGo(1)).isEqualTo(1);
        assertThat(batch.unstored()).extracting(Owed::number).containsExactly(1L);
        assertThat(batch.tried).as("marks of what is gone").isEmpty();
    }

    @Test
    void of_outcomes_go_first_those_that_are_not_about_an_alarm() {
        batch.said("jet-1", 1, new Outcome.AlarmChanged(InstructionBoxTest.raised("a")), "h");
        IntStream.rangeClosed(2, 4)
                .forEach(seq -> batch.said("jet-1", seq, new RandomStory(seq).startup(), "h"));
        batch.said("jet-1", 5, new Outcome.AlarmChanged(InstructionBoxTest.raised("b")), "h");

        assertThat(batch.letOutcomesGo(3)).isEqualTo(2);

        assertThat(batch.said).extracting(Said::seq).containsExactly(1L, 4L, 5L);
    }

    /** The journal entry that it refuses waits as input, and would be written as done. */
    @Test
    void refusal_goes_not_before_startups() {
        Instruction asked =
                new Instruction(1, "kim", new Order.Journal(Order.Entry.SERVICED, "seal"));
        batch.said(
                "jet-1",
                1,
                new Outcome.InstructionRefused(asked, new Refusal.NoSuchAlarm("a")),
                "h");
        batch.said("jet-1", 2, new RandomStory(2).startup(), "h");

        assertThat(batch.letOutcomesGo(1)).isEqualTo(1);

        assertThat(batch.said).extracting(Said::seq).containsExactly(1L);
    }

    @Test
    void step_of_the_clock_stays_or_a_replay_would_meet_times_that_go_back() {
        ClockStep back = new ClockStep(1_000_000, 9_000_000);
        batch.fed("jet-1", 1, Reading.good(Channel.INLET, 9_000_000, 40));
        batch.fed("jet-1", 2, back);
        batch.fed("jet-1", 3, new Tick(2_000_000));

        batch.letInputsGo();

        assertThat(batch.fed)
                .containsExactly(
                        new Batch.Fed("jet-1", 1, lost(Channel.INLET, 9_000_000)),
                        new Batch.Fed("jet-1", 2, back));
    }

    @Test
    void of_inputs_stays_what_people_asked_for_and_once_for_each_channel_that_it_was_not_stored() {
        Instruction asked =
                new Instruction(3, "kim", new Order.Journal(Order.Entry.SERVICED, "seal"));
        batch.fed("jet-1", 1, Reading.good(Channel.INLET, 1, 40));
        batch.fed("jet-1", 2, Reading.good(Channel.INLET, 2, 40));
        batch.fed("jet-1", 3, asked);
        batch.fed("jet-1", 4, new Tick(4_000_000));

        assertThat(batch.letInputsGo()).isEqualTo(2);
        batch.fed("jet-1", 5, Reading.good(Channel.INLET, 5, 40));
        batch.fed("jet-1", 6, Reading.good(Channel.BOOSTED, 6, 40));
        assertThat(batch.letInputsGo()).isEqualTo(2);

        assertThat(batch.fed)
                .containsExactly(
                        new Batch.Fed("jet-1", 1, lost(Channel.INLET, 1)),
                        new Batch.Fed("jet-1", 3, asked),
                        new Batch.Fed("jet-1", 6, lost(Channel.BOOSTED, 6)));
    }

    private static SourceLost lost(Channel channel, long atMicros) {
        return new SourceLost(channel, atMicros, Batch.NOT_STORED);
    }
}
