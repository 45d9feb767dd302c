package leat.store;

import static leat.alarm.AlarmEvent.ACKNOWLEDGED;
import static leat.alarm.AlarmEvent.RAISED;
import static leat.alarm.AlarmEvent.RETURNED;
import static leat.alarm.AlarmEvent.SHELVED;
import static leat.alarm.AlarmEvent.UNSHELVED;
import static leat.alarm.AlarmEvent.WORSENED;
import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmEvent;
import leat.alarm.AlarmNotes;
import leat.alarm.AlarmState;
import leat.alarm.Transitions;
import leat.measure.Figure;
import leat.measure.Startup;
import leat.replay.JudgedStartup;
import leat.replay.Played;
import leat.replay.Replay;
import leat.rule.Finding;
import leat.rule.Grade;
import leat.rule.Rule;
import leat.rule.RunVerdict;
import leat.signal.Channel;
import leat.signal.Tick;
import leat.watch.Outcome;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Two machines that start once an hour, three times each; their alarms come in between. */
class StartupSearchTest {

    private static final long HOUR = 3_600_000_000L;
    private static final long MINUTE = 60_000_000L;

    @TempDir private Path folder;
    private Store store;
    private StoreReader reader;
    private long seq;

    @BeforeEach
    void open() {
        store = Store.open(folder.resolve("leat.db"));
        store.startRun("0.1.0", "hash", "site: boatyard", 100);
        for (int hour = 1; hour <= 3; hour++) {
            start("jet-1", hour * HOUR);
            start("jet-2", hour * HOUR + MINUTE);
        }
        reader = StoreReader.open(folder.resolve("leat.db"));
    }

    @AfterEach
    void close() {
        reader.close();
        store.close();
    }

    private void start(String machine, long at) {
        JudgedStartup judged =
                Replay.of(
                                Played.settings(machine),
                                Played.of("healthy", "jet-1").inputs(at)::forEach)
                        .startups()
                        .get(0);
        say(
                machine,
                judged.startup().measuredAtMicros(),
                new Outcome.StartupMeasured(judged.startup(), judged.verdict()));
    }

    private void say(String machine, long at, Outcome outcome) {
        Batch batch = new Batch();
        batch.fed(machine, ++seq, new Tick(Tick.before(at)));
        batch.said(machine, seq, outcome, "hash");
        store.commit(batch);
    }

    /** One alarm to which this happens, an event every ten minutes. */
    private void alarm(String machine, String id, long raisedAt, AlarmEvent... events) {
        AlarmState state = AlarmState.NORMAL;
        for (int i = 0; i < events.length; i++) {
            long at = raisedAt + i * 10 * MINUTE;
            AlarmState next = Transitions.after(state, events[i]).orElseThrow();
            say(
                    machine,
                    at,
                    new Outcome.AlarmChanged(
                            new AlarmChange(
                                    id,
                                    i + 1,
                                    events[i],
                                    state,
                                    next,
                                    at,
                                    raisedAt,
                                    finding(at),
                                    "")));
            state = next;
        }
    }

    /** A change of an alarm under a hold, or at the end of one. */
    private void held(
            String id, int revision, AlarmEvent event, AlarmState to, AlarmState own, long at) {
        say(
                "jet-1",
                at,
                new Outcome.AlarmChanged(
                        new AlarmChange(
                                id,
                                revision,
                                event,
                                AlarmState.SHELVED,
                                to,
                                at,
                                at,
                                finding(at),
                                "Kim",
                                new AlarmNotes(
                                        own,
                                        1,
                                        false,
                                        OptionalLong.empty(),
                                        "on order",
                                        Optional.empty()))));
    }

    private static Finding finding(long at) {
        return new Finding(
                Rule.RATIO,
                Channel.BOOSTED,
                Grade.WARNING,
                at,
                at,
                Finding.Quantity.RATIO,
                1.8,
                2.0,
                Finding.Sense.AT_LEAST,
                Figure.of(40),
                Figure.of(72),
                List.of());
    }

    private List<String> waiting() {
        return names(StartupQuery.newest(100).onlyUnacknowledged());
    }

    private List<String> names(StartupQuery query) {
        return reader.startups(query).stream().map(StoredStartup::name).toList();
    }

    @Test
    void without_an_alarm_no_startup_waits() {
        assertThat(waiting()).isEmpty();
        assertThat(names(StartupQuery.newest(100))).hasSize(6);
    }

    @Test
    void the_run_in_which_an_alarm_was_raised_waits_until_it_is_acknowledged() {
        alarm("jet-1", "a", 2 * HOUR + 30 * MINUTE, RAISED);
        alarm("jet-2", "b", 2 * HOUR + 30 * MINUTE, RAISED, ACKNOWLEDGED);

        assertThat(waiting()).containsExactly("jet-1/2");
    }

    @Test
    void one_that_returned_by_itself_still_waits_and_each_run_that_raised_it_counts() {
        alarm("jet-1", "a", HOUR + 30 * MINUTE, RAISED, RETURNED, RAISED, RETURNED, RAISED);

        assertThat(waiting()).containsExactly("jet-1/2", "jet-1/1");
    }

    @Test
    void what_was_acknowledged_and_got_worse_later_waits_only_where_it_got_worse() {
        alarm("jet-1", "a", HOUR + 50 * MINUTE, RAISED, ACKNOWLEDGED, WORSENED);

        assertThat(waiting()).containsExactly("jet-1/2");
    }

    @Test
    void what_the_measurement_of_a_start_raises_belongs_to_that_start() {
        Startup start = reader.startup("jet-2", 3).orElseThrow().startup();
        alarm("jet-2", "a", start.measuredAtMicros(), RAISED);
        alarm("jet-1", "before the first start", HOUR / 2, RAISED);

        assertThat(waiting()).containsExactly("jet-2/3");
    }

    @Test
    void a_shelf_does_not_end_the_waiting() {
        alarm("jet-1", "a", HOUR + 30 * MINUTE, RAISED);
        held("a", 2, SHELVED, AlarmState.SHELVED, AlarmState.UNACKNOWLEDGED, HOUR + 40 * MINUTE);

        assertThat(waiting()).containsExactly("jet-1/1");
    }

    @Test
    void what_comes_on_the_shelf_waits_for_nobody_until_the_shelf_ends() {
        alarm("jet-1", "a", HOUR + 30 * MINUTE, RAISED, ACKNOWLEDGED);
        held("a", 3, SHELVED, AlarmState.SHELVED, AlarmState.ACKNOWLEDGED, HOUR + 50 * MINUTE);
        List<String> onTheShelf = waiting();
        held(
                "a",
                4,
                UNSHELVED,
                AlarmState.UNACKNOWLEDGED,
                AlarmState.UNACKNOWLEDGED,
                2 * HOUR + 30 * MINUTE);

        assertThat(onTheShelf).isEmpty();
        assertThat(waiting()).containsExactly("jet-1/2");
    }

    @Test
    void it_goes_together_with_the_other_filters() {
        alarm("jet-1", "a", HOUR + 30 * MINUTE, RAISED);
        alarm("jet-1", "b", 3 * HOUR + 30 * MINUTE, RAISED);
        alarm("jet-2", "c", 3 * HOUR + 30 * MINUTE, RAISED);
        StartupQuery query = StartupQuery.newest(100).onlyUnacknowledged();

        List<String> ofOne = names(query.of("jet-1"));
        List<String> late = names(query.between(3 * HOUR, 4 * HOUR));
        List<String> slow = names(query.onlySlow());
        List<String> slowest = new ArrayList<>(names(query.slowestFirst()));

        assertThat(ofOne).containsExactly("jet-1/3", "jet-1/1");
        assertThat(late).containsExactly("jet-2/3", "jet-1/3");
        assertThat(slow).isEmpty();
        assertThat(slowest).containsExactlyInAnyOrder("jet-1/1", "jet-1/3", "jet-2/3");
    }

    /** What was said of a run, and when. */
    private void run(String machine, long startedAt, long at, RunVerdict.Mark level) {
        say(
                machine,
                at,
                new Outcome.RunJudged(
                        new leat.measure.Run(startedAt, at, true, Map.of()),
                        new RunVerdict(
                                List.of(new RunVerdict.Part(RunVerdict.Aspect.LOADED, level)),
                                List.of())));
    }

    @Test
    void start_has_the_newest_verdict_on_its_own_run_and_none_of_another() {
        long second = reader.startup("jet-1", 2).orElseThrow().startup().startedAtMicros();
        long third = reader.startup("jet-1", 3).orElseThrow().startup().startedAtMicros();
        run("jet-1", second, 3 * HOUR + 10 * MINUTE, RunVerdict.Mark.GOOD); // after the third start
        run("jet-1", third, 3 * HOUR + 20 * MINUTE, RunVerdict.Mark.GOOD);
        run("jet-1", third, 3 * HOUR + 30 * MINUTE, RunVerdict.Mark.WARNING);
        run("jet-1", 3 * HOUR + 35 * MINUTE, 3 * HOUR + 40 * MINUTE, RunVerdict.Mark.CRITICAL);

        List<StoredStartup> found = reader.startups(StartupQuery.newest(100));

        assertThat(found)
                .filteredOn(start -> start.run().isPresent())
                .singleElement()
                .satisfies(
                        start -> {
                            assertThat(start.name()).isEqualTo("jet-1/3");
                            assertThat(start.run().orElseThrow().verdict().parts().get(0).mark())
                                    .isEqualTo(RunVerdict.Mark.WARNING);
                        });
        assertThat(found)
                .filteredOn(StoredStartup::lasting)
                .extracting(StoredStartup::name)
                .containsExactly("jet-2/3");
    }
}
