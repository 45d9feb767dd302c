package leat.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.Reading;
import leat.signal.SourceLost;
import leat.signal.Tick;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What is older than an hour lies in segments, and nobody who reads can tell. */
class SealingTest {

    private static final String JET = "jet-1";
    private static final long BEGIN = 1_767_225_600_000_000L;

    @TempDir Path folder;

    private Path file;
    private Store store;
    private StoreReader reader;
    private final List<Input> fed = new ArrayList<>();

    @BeforeEach
    void open() {
        file = folder.resolve("leat.db");
        store = Store.open(file);
        feed(0, 5_000);
        reader = StoreReader.open(file);
    }

    @AfterEach
    void close() {
        reader.close();
        store.close();
    }

    @Test
    void all_inputs_come_back_in_order_before_while_and_after_they_are_sealed() {
        assertThat(read(0, Long.MAX_VALUE)).isEqualTo(fed);

        while (store.seal()) {
            assertThat(read(0, Long.MAX_VALUE)).isEqualTo(fed);
        }

        assertThat(sql("SELECT count(*) FROM segment")).isEqualTo(2);
        assertThat(sql("SELECT sum(ticks) FROM segment")).isEqualTo(1_200);
        assertThat(sql("SELECT count(*) FROM input WHERE kind = 100")).isEqualTo(3_800);
        assertThat(reader.summary().samples()).isEqualTo(9_999);
    }

    @Test
    void a_part_of_a_segment_can_be_read() {
        sealAll();

        assertThat(read(100, 200)).isEqualTo(fed.subList(100, 200));
        assertThat(read(1_700, 1_900)).isEqualTo(fed.subList(1_700, 1_900));
        assertThat(read(3_500, 3_700)).as("and rows").isEqualTo(fed.subList(3_500, 3_700));
    }

    @Test
    void a_time_is_found_in_a_segment_as_in_rows() {
        List<OptionalLong> before = new ArrayList<>();
        for (long second = -5; second < 5_010; second += 7) {
            before.add(reader.firstSeqAt(JET, BEGIN + second * 1_000_000 + 400_000));
        }
        sealAll();

        List<OptionalLong> after = new ArrayList<>();
        for (long second = -5; second < 5_010; second += 7) {
            after.add(reader.firstSeqAt(JET, BEGIN + second * 1_000_000 + 400_000));
        }

        assertThat(after).isEqualTo(before);
    }

    @Test
    void the_latest_of_a_channel_is_found_in_a_segment() {
        Optional<Input> before = reader.latest(JET, Channel.INLET, 0, 1_000);
        sealAll();

        assertThat(reader.latest(JET, Channel.INLET, 0, 1_000)).isEqualTo(before).isPresent();
        assertThat(reader.latest(JET, Channel.FILTERED, 0, 3_000)).isEmpty();
        assertThat(reader.lastSeq(JET)).isEqualTo(fed.size());
    }

    @Test
    void a_restart_between_storing_a_segment_and_deleting_its_rows_loses_and_doubles_nothing() {
        while (sql("SELECT count(*) FROM segment") == 0) {
            store.seal();
        }
        reader.close();
        store.close();

        store = Store.open(file);
        reader = StoreReader.open(file);

        assertThat(read(0, Long.MAX_VALUE)).isEqualTo(fed);
        sealAll();
        assertThat(read(0, Long.MAX_VALUE)).isEqualTo(fed);
        assertThat(sql("SELECT count(*) FROM input WHERE kind = 100")).isEqualTo(3_800);
    }

    @Test
    void inputs_that_were_let_go_end_a_segment() {
        feed(5_100, 1_000); // the numbers between were never stored
        sealAll();

        assertThat(read(0, Long.MAX_VALUE)).isEqualTo(fed);
        assertThat(sql("SELECT sum(last_seq - first_seq + 1) FROM segment"))
                .isEqualTo(sql("SELECT sum(samples + ticks) + 1 FROM segment")); // the loss
    }

    @Test
    void a_damaged_segment_costs_itself_alone() {
        sealAll();
        try (Db db = Db.writing(file)) {
            db.inOneTransaction(
                    () ->
                            db.write(
                                            "UPDATE segment SET body = substr(body, 1, 99)"
                                                    + " WHERE first_seq = 1")
                                    .now());
        }

        assertThat(read(0, Long.MAX_VALUE)).isEqualTo(fed.subList(1_800, fed.size()));
    }

    @Test
    void what_is_old_goes_a_segment_at_a_time() {
        sealAll();
        Batch batch = new Batch();
        batch.snapshot(new Snapshot(JET, fed.size(), BEGIN, 1, new byte[10]));
        store.commit(batch);

        assertThat(store.prune(100, 4_000)).as("200 s may go: no whole segment").isZero();
        assertThat(store.prune(100, 4_000)).isZero();
        assertThat(store.prune(100, 4_000)).isEqualTo(1_800);
        assertThat(store.prune(1_000, 5_000)).as("less than a segment is too many").isZero();
        assertThat(read(0, Long.MAX_VALUE)).isEqualTo(fed.subList(1_800, fed.size()));
        assertThat(reader.summary().samples()).isEqualTo(8_799);
    }

    private void sealAll() {
        while (store.seal()) {
            // slice by slice
        }
    }

    /** Two readings and a tick each second; the cable is out once. */
    private void feed(int fromSecond, int seconds) {
        Batch batch = new Batch();
        for (int second = fromSecond; second < fromSecond + seconds; second++) {
            long at = BEGIN + second * 1_000_000L;
            long seq = 3L * second;
            Input[] inputs = {
                second == 700
                        ? new SourceLost(Channel.INLET, at + 300_000, "cable")
                        : Reading.good(Channel.INLET, at + 300_000, second % 7),
                Reading.good(Channel.BOOSTED, at + 300_000, second % 5),
                new Tick(at + 1_000_000),
            };
            for (Input input : inputs) {
                batch.fed(JET, ++seq, input);
                fed.add(input);
            }
        }
        store.commit(batch);
    }

    private List<Input> read(long after, long to) {
        List<Input> inputs = new ArrayList<>();
        reader.inputs(JET, after, to, (seq, input) -> inputs.add(input));
        return inputs;
    }

    private long sql(String question) {
        try (Db db = Db.reading(file)) {
            return db.number(question);
        }
    }
}
