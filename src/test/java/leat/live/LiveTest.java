package leat.live;

import static leat.live.StoredNow.SECOND;
import static leat.live.StoredNow.SIX;
import static leat.live.StoredNow.between;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import leat.alarm.AlarmState;
import leat.config.SiteFile;
import leat.live.GaugeNow.Showing;
import leat.phase.Phase;
import leat.rule.Grade;
import leat.rule.Limit;
import leat.rule.StartupVerdict;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.Instruction;
import leat.signal.Order;
import leat.signal.Quality;
import leat.signal.Reading;
import leat.signal.SourceBack;
import leat.signal.SourceLost;
import leat.signal.Tick;
import leat.store.StoreReader;
import leat.store.StoredAlarm;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What a look into the store of a leat that runs tells of each machine. */
class LiveTest {

    private static final String JET = "jet-1";
    private static final String WORN = "worn-booster";

    @TempDir private Path folder;
    private StoredNow stored;
    private StoreReader reader;
    private Live live;

    @BeforeEach
    void open() throws IOException {
        stored = StoredNow.in(folder);
        reader = stored.reader();
        live = Live.over(reader, stored.site());
    }

    @AfterEach
    void close() {
        reader.close();
        stored.close();
    }

    private SiteNow at(double second) {
        return live.now(SIX + (long) (second * SECOND));
    }

    private MachineNow jet(double second) {
        return at(second).machines().get(0);
    }

    private static List<Limit> limits(MachineNow machine, Channel channel) {
        return machine.gauge(channel).orElseThrow().limits().stream().map(LimitNow::limit).toList();
    }

    @Test
    void looking_each_second_tells_the_same_as_looking_once() {
        List<Input> first = stored.played("demo", JET);
        List<Input> second = stored.played("demo", "jet-2");
        for (int s = 0; s < 95; s++) {
            stored.commit(JET, between(first, s, s + 1));
            stored.commit("jet-2", between(second, s, s + 1));

            SiteNow now = at(s + 1);

            try (StoreReader fresh = stored.reader()) {
                assertThat(now)
                        .isEqualTo(Live.over(fresh, stored.site()).now(SIX + (s + 1) * SECOND));
            }
        }
    }

    @Test
    void curve_grows_while_a_start_climbs_and_stays_with_its_verdict() {
        List<Input> inputs = stored.played("healthy", JET);
        List<Integer> growing = new ArrayList<>();
        List<Phase> phases = new ArrayList<>();
        for (int s = 0; s < 30; s++) {
            stored.commit(JET, between(inputs, s, s + 1));
            MachineNow now = jet(s + 1);
            now.phase().map(PhaseNow::phase).ifPresent(phases::add);
            now.climb().ifPresent(climb -> growing.add(climb.boosted().size()));
        }

        assertThat(phases.stream().distinct())
                .containsExactly(Phase.REST, Phase.RISE, Phase.STEADY);
        assertThat(growing).hasSizeGreaterThan(5).isSorted().doesNotHaveDuplicates();
        MachineNow after = jet(30);
        assertThat(after.climb()).isEmpty();
        StartNow start = after.lastStart().orElseThrow();
        assertThat(start.startup().name()).isEqualTo("jet-1/1");
        assertThat(start.startup().lasting()).isTrue();
        assertThat(start.startup().verdict().outcome()).isEqualTo(StartupVerdict.Outcome.GOOD);
        assertThat(start.curve().boosted())
                .hasSizeBetween(100, 300)
                .anyMatch(point -> point.psi() < 5)
                .anyMatch(point -> point.psi() > 90);
        assertThat(start.curve().inlet()).hasSizeGreaterThan(100);
    }

    @Test
    void limits_are_those_that_apply_in_the_phase() {
        List<Input> inputs = stored.played("healthy", JET);

        stored.commit(JET, between(inputs, 0, 1));
        assertThat(limits(jet(1), Channel.BOOSTED)).as("just at rest").isEmpty();

        stored.commit(JET, between(inputs, 1, 30));
        MachineNow running = jet(30);
        assertThat(limits(running, Channel.BOOSTED))
                .containsExactly(
                        Limit.LEVEL_WARNING,
                        Limit.LEVEL_ADVISORY,
                        Limit.LEVEL_HIGH_ADVISORY,
                        Limit.LEVEL_HIGH_WARNING);
        assertThat(limits(running, Channel.INLET))
                .containsExactly(Limit.INLET_CRITICAL, Limit.INLET_WARNING, Limit.INLET_ADVISORY);
        assertThat(running.boost().orElseThrow().ratio()).isBetween(2.0, 3.0);
    }

    @Test
    void at_rest_the_pressure_left_is_judged_after_a_while() {
        List<Input> rest = new ArrayList<>();
        for (int s = 0; s < 40; s++) {
            long at = SIX + s * SECOND;
            rest.add(Reading.good(Channel.INLET, at, 42));
            rest.add(Reading.good(Channel.BOOSTED, at, 0));
            rest.add(new Tick(at));
        }
        stored.commit(JET, rest);

        assertThat(limits(jet(40), Channel.BOOSTED)).containsExactly(Limit.REST_ADVISORY);
        assertThat(limits(jet(40), Channel.INLET)).isEmpty();
    }

    @Test
    void old_reading_is_no_pressure_of_this_moment() {
        stored.commit(JET, between(stored.played("healthy", JET), 0, 3));

        GaugeNow soon = jet(3.5).gauge(Channel.BOOSTED).orElseThrow();
        GaugeNow later = jet(60).gauge(Channel.BOOSTED).orElseThrow();

        assertThat(soon.showing()).isEqualTo(Showing.NOW);
        assertThat(soon.value()).isPresent();
        assertThat(later.showing()).isEqualTo(Showing.SILENT);
        assertThat(later.value()).isEmpty();
        assertThat(later.last()).isEqualTo(soon.last());
        assertThat(jet(60).readMicros()).hasValue(SIX + 2_950_000);
    }

    @Test
    void gauge_says_why_it_shows_nothing() {
        stored.commit(JET, between(stored.played("healthy", JET), 0, 3));
        String reason = "127.0.0.1:1502 does not answer: is the cabinet on?";
        stored.commit(
                JET,
                List.of(
                        new SourceLost(Channel.INLET, SIX + 3 * SECOND, reason),
                        Reading.bad(Channel.BOOSTED, SIX + 3 * SECOND, Quality.LOOP_BROKEN)));

        MachineNow now = jet(3);
        stored.commit(JET, List.of(new SourceBack(Channel.INLET, SIX + 4 * SECOND)));
        stored.commit(JET, List.of(Reading.good(Channel.INLET, SIX + 4 * SECOND, 41)));
        GaugeNow back = jet(4).gauge(Channel.INLET).orElseThrow();

        GaugeNow inlet = now.gauge(Channel.INLET).orElseThrow();
        assertThat(inlet.showing()).isEqualTo(Showing.LOST);
        assertThat(inlet.lostReason()).isEqualTo(reason);
        GaugeNow boosted = now.gauge(Channel.BOOSTED).orElseThrow();
        assertThat(boosted.showing()).isEqualTo(Showing.BAD);
        assertThat(boosted.last().orElseThrow().quality()).isEqualTo(Quality.LOOP_BROKEN);
        assertThat(boosted.value()).isEmpty();
        assertThat(back.value()).hasValue(41);
    }

    @Test
    void machine_that_leat_has_never_fed_is_there_with_nothing() {
        MachineNow now = jet(1);

        assertThat(now.name()).isEqualTo(JET);
        assertThat(now.phase()).isEmpty();
        assertThat(now.gauges()).extracting(GaugeNow::showing).containsOnly(Showing.NOTHING);
        assertThat(now.lastStart()).isEmpty();
    }

    @Test
    void alarms_stand_the_worst_first_and_keep_their_cause_when_acknowledged() {
        List<Input> inputs = stored.played(WORN, JET);
        stored.commit(JET, between(inputs, 0, 60));
        List<AlarmNow> raised = jet(60).alarms();
        AlarmNow worst = raised.get(0);
        stored.commit(
                JET,
                List.of(
                        new Instruction(
                                SIX + 60 * SECOND,
                                "sam",
                                new Order.Acknowledge(worst.alarm().change().alarmId()))));

        AlarmNow after =
                jet(60).alarms().stream()
                        .filter(each -> each.alarm().number() == worst.alarm().number())
                        .findFirst()
                        .orElseThrow();

        assertThat(raised)
                .isSortedAccordingTo(
                        Comparator.comparing(AlarmNow::alarm, StoredAlarm.WORST_FIRST));
        assertThat(worst.alarm().change().finding().grade()).isEqualTo(Grade.WARNING);
        assertThat(worst.why()).isPresent();
        assertThat(after.alarm().change().to()).isEqualTo(AlarmState.ACKNOWLEDGED);
        assertThat(after.why()).isEqualTo(worst.why());
    }

    @Test
    void daemon_runs_while_it_stores_and_is_silent_or_ended_after() {
        stored.commit(JET, between(stored.played("healthy", JET), 0, 10));

        assertThat(at(10).daemon().state()).isEqualTo(DaemonNow.State.RUNS);
        assertThat(at(60).daemon().state()).isEqualTo(DaemonNow.State.SILENT);
        assertThat(at(60).daemon().storedMicros()).hasValue(SIX + 9 * SECOND);
        stored.end(SIX + 10 * SECOND);
        assertThat(at(10).daemon().state()).isEqualTo(DaemonNow.State.ENDED);
    }

    @Test
    void daemon_that_has_just_begun_starts() {
        assertThat(at(1).daemon().state()).isEqualTo(DaemonNow.State.STARTS);
        assertThat(at(1).daemon().storedMicros()).isEmpty();
    }

    @Test
    void limits_are_those_of_the_run_whatever_the_file_says_now() throws IOException {
        stored.commit(JET, between(stored.played("healthy", JET), 0, 30));
        String text = stored.site().text().replace("set: 100 psi", "set: 100 psi, warning: 60 psi");
        Path edited = folder.resolve("edited.yaml");
        Files.writeString(edited, text);
        live =
                Live.over(
                        reader,
                        SiteFile.load(edited, name -> Optional.empty()).site().orElseThrow());

        assertThat(jet(30).gauge(Channel.BOOSTED).orElseThrow().limits().get(0).value())
                .isEqualTo(80);
    }

    @Test
    void work_on_a_machine_is_told_until_it_ends() {
        stored.commit(JET, between(stored.played("healthy", JET), 0, 3));
        stored.commit(
                JET,
                List.of(
                        new Instruction(
                                SIX + 3 * SECOND,
                                "sam",
                                new Order.Journal(Order.Entry.SERVICE_ON, "new hose"))));
        Optional<String> during = jet(3).service().map(change -> change.by());
        stored.commit(
                JET,
                List.of(
                        new Instruction(
                                SIX + 4 * SECOND,
                                "sam",
                                new Order.Journal(Order.Entry.SERVICE_OFF, "done"))));

        assertThat(during).contains("sam");
        assertThat(jet(4).service()).isEmpty();
    }
}
