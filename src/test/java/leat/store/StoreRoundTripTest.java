package leat.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.LongStream;
import leat.Gear;
import leat.json.Kinds;
import leat.rule.Grade;
import leat.signal.Input;
import leat.signal.Instruction;
import leat.signal.Order;
import leat.signal.Reading;
import leat.watch.Outcome;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class StoreRoundTripTest {

    private static final List<String> MACHINES = List.of("jet-1", "jet-2");

    /** One input in so many has said something. */
    private static final int EVERY = Gear.of(5, 1);

    private static final List<Outcome> NOTHING = List.of();

    @TempDir private Path folder;

    static LongStream seeds() {
        return Gear.seeds(1, 12);
    }

    @ParameterizedTest(name = "seed {0}")
    @MethodSource("seeds")
    void everything_comes_back_to_the_bit_and_in_order(long seed) {
        Path file = folder.resolve("leat.db");
        RandomStory story = new RandomStory(seed);
        Map<String, List<String>> fed = new HashMap<>();
        List<Said> said = new ArrayList<>();
        int inputs = 6_000; // more than a slice of the reader

        try (Store store = Store.open(file)) {
            store.startRun("0.1.0", "hash", "site: boatyard", 1);
            Batch batch = new Batch();
            for (int i = 1; i <= inputs; i++) {
                for (String machine : MACHINES) {
                    Input input = story.input();
                    batch.fed(machine, i, input);
                    fed.computeIfAbsent(machine, m -> new ArrayList<>()).add(i + bits(input));
                    int nth = 0;
                    for (Outcome outcome : i % EVERY == 0 ? story.outcomes(machine, i) : NOTHING) {
                        batch.said(machine, i, outcome, "hash");
                        said.add(new Said(machine, i, nth++, outcome, "hash"));
                    }
                }
                if (i % 97 == 0 || i == inputs) {
                    store.commit(batch);
                    batch.clear();
                }
            }
        }

        Map<String, List<String>> readFed = new HashMap<>();
        List<Said> readSaid = new ArrayList<>();
        try (StoreReader reader = StoreReader.open(file)) {
            for (String machine : MACHINES) {
                List<String> read = new ArrayList<>();
                reader.inputs(machine, 0, inputs, (n, in) -> read.add(n + bits(in)));
                readFed.put(machine, read);
                reader.outcomes(machine, 0, Long.MAX_VALUE, readSaid::add);
            }
        }
        assertThat(readFed).isEqualTo(fed);
        for (String machine : MACHINES) {
            assertThat(readSaid.stream().filter(x -> x.machine().equals(machine)).toList())
                    .isEqualTo(said.stream().filter(x -> x.machine().equals(machine)).toList());
        }
    }

    /** With the sign of a zero, which a record's text shows. */
    private static String bits(Input input) {
        return input instanceof Reading reading
                ? input + " " + Double.doubleToRawLongBits(reading.value())
                : input.toString();
    }

    /** A kind that the random story never tells is not proved to come back. */
    @Test
    void the_story_tells_every_kind_of_outcome_and_order() {
        RandomStory story = new RandomStory(1);
        Set<Class<?>> told = new HashSet<>();
        for (int i = 1; i <= 2_000; i++) {
            if (story.input() instanceof Instruction instruction) {
                told.add(instruction.order().getClass());
            }
            story.outcomes("jet-1", i).forEach(outcome -> told.add(outcome.getClass()));
        }

        assertThat(told)
                .containsAll(Kinds.of(Outcome.class).types().values())
                .containsAll(Kinds.of(Order.class).types().values());
    }

    @Test
    void a_window_of_inputs_is_cut_after_its_first_and_with_its_last() {
        Path file = folder.resolve("leat.db");
        RandomStory story = new RandomStory(9);
        Batch batch = new Batch();
        for (int i = 1; i <= 20; i++) {
            batch.fed("jet-1", i, story.input());
        }
        List<Long> seqs = new ArrayList<>();

        try (Store store = Store.open(file);
                StoreReader reader = StoreReader.open(file)) {
            store.commit(batch);
            reader.inputs("jet-1", 5, 8, (seq, input) -> seqs.add(seq));
        }

        assertThat(seqs).containsExactly(6L, 7L, 8L);
    }

    @Test
    void a_message_and_a_journal_entry_keep_hostile_and_very_long_words() {
        Path file = folder.resolve("leat.db");
        List<String> words = new ArrayList<>(RandomStory.HARD_WORDS);
        words.add("w\ud83d\udca7\n'".repeat(200_000));
        words.add("\u0000\ud83d".repeat(500_000));

        try (Store store = Store.open(file);
                StoreReader reader = StoreReader.open(file)) {
            for (int i = 0; i < words.size(); i++) {
                String word = words.get(i);
                Batch batch = new Batch();
                Instruction entry =
                        new Instruction(
                                i, "Kim " + word, new Order.Journal(Order.Entry.SERVICED, word));
                Message message =
                        new Message(
                                "m" + i + word,
                                "log",
                                "jet-1",
                                word,
                                Grade.WARNING,
                                i,
                                word,
                                Message.Purpose.CALL,
                                word,
                                word,
                                word,
                                word,
                                Optional.empty());
                batch.fed("jet-1", i + 1, entry);
                batch.owes(message);
                store.commit(batch);

                assertThat(reader.journal(Optional.of("jet-1"), 1))
                        .containsExactly(
                                new JournalLine(
                                        "jet-1",
                                        i + 1,
                                        i,
                                        "Kim " + word,
                                        (Order.Journal) entry.order()));
                assertThat(reader.due("log", i, 10)).containsExactly(new Owed(i + 1, 0, message));
            }
        }
    }
}
