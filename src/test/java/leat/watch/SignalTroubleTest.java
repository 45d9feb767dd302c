package leat.watch;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmEvent;
import leat.bench.line.Fault;
import leat.measure.Measurand;
import leat.report.Json;
import leat.rule.Finding;
import leat.rule.Limits;
import leat.rule.StartupVerdict;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.Quality;
import leat.signal.Reading;
import leat.signal.Tick;
import leat.signal.Transducer;
import leat.signal.TwoPoint;
import leat.watch.BenchFeed.Wiring;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Channels that break off, are changed over, or have never read right; and a gauge more. */
class SignalTroubleTest {

    private static final Transducer FLOAT =
            new Transducer(java.util.Optional.empty(), new TwoPoint(0, 0, 1, 1), -20, 300);

    // --- readings lost off and on

    @Test
    void a_loop_that_breaks_off_and_on_is_told_by_the_share_that_is_lost() {
        Line line = Line.withSeed(1).runSignal().at(0).hold(20).running(true);
        line.towards(100, 0.8, 40);
        for (double gap : new double[] {1, 1, 2, 1, 1, 1, 1, 3, 1, 1}) {
            line.silence(gap).hold(3);
        }

        Told told = Told.by(line);

        assertThat(told.raised()).contains("signal-missing ADVISORY");
        assertThat(told.alarms).allMatch(a -> a.finding().rule().isAboutSignal());
        assertThat(told.alarms)
                .extracting(a -> a.finding().quantity())
                .containsOnly(Finding.Quantity.RATIO);
        assertThat(told.alarms.get(0).finding().measured()).isBetween(0.1, 0.2);
    }

    @Test
    void a_loop_that_is_loose_only_while_the_machine_shakes_is_told_over_short_runs() {
        Line line = Line.withSeed(20).runSignal().at(0).hold(30);
        for (int i = 0; i < 8; i++) {
            line.running(true).towards(100, 0.5, 3);
            line.silence(1).hold(2).silence(1).hold(4);
            line.running(false).towards(0, 1, 50);
        }

        Told told = Told.by(line);

        assertThat(told.raised())
                .containsExactly("signal-missing ADVISORY", "signal-missing ADVISORY");
    }

    @Test
    void bad_readings_off_and_on_are_lost_ones() {
        Line line = Line.withSeed(2).at(0).hold(60);
        for (int i = 0; i < 10; i++) {
            for (int n = 0; n < 20; n++) {
                line.silence(0.1);
                line.input(Reading.bad(Channel.INLET, line.now(), Quality.LOOP_BROKEN));
                line.input(Reading.good(Channel.BOOSTED, line.now(), 0.01 * n));
            }
            line.hold(3);
        }

        Told told = Told.by(line);

        assertThat(told.raised())
                .containsExactly("signal-missing ADVISORY", "signal-missing WARNING");
        assertThat(told.alarms).allMatch(a -> a.finding().channel() == Channel.INLET);
    }

    @Test
    void one_outage_is_told_as_the_silence_that_it_is_and_goes_as_before() {
        Line line = Line.withSeed(3).at(0).hold(60).silence(20).hold(60);

        Told told = Told.by(line);

        assertThat(told.raised())
                .containsExactly("signal-missing WARNING", "signal-missing WARNING");
        assertThat(told.alarms).hasSize(4);
        long back = BenchFeed.START + 80_000_000;
        assertThat(told.alarms.get(3).atMicros() - back).isBetween(10_000_000L, 12_000_000L);
    }

    /** How a sound sensor over MQTT can speak. */
    private enum Speaker {
        /** Ten times a second, with jitter, and one message of fifty lost. */
        JITTERS {
            @Override
            double next(Random random, double movedPsi) {
                double lost = random.nextInt(50) == 0 ? 0.1 : 0;
                return 0.1 + lost + 0.08 * (random.nextDouble() - 0.5);
            }
        },
        ONCE_A_SECOND {
            @Override
            double next(Random random, double movedPsi) {
                return random.nextInt(50) == 0 ? 2 : 1;
            }
        },
        /** At least every four seconds, and soon when the pressure moves. */
        ON_CHANGE {
            @Override
            double next(Random random, double movedPsi) {
                return movedPsi > 1 ? 0.1 : Math.min(4, 0.2 - Math.log(random.nextDouble()));
            }
        },
        /** On change, of a line that hardly moves: beats only. */
        BEATS_AT_REST {
            @Override
            double next(Random random, double movedPsi) {
                return movedPsi > 1 ? 0.1 : 1.9;
            }
        },
        /** Messages that the network holds up and brings all at once. */
        IN_BUNCHES {
            private int number;

            @Override
            double next(Random random, double movedPsi) {
                return ++number % 10 == 0 ? 0.9 : 0.01;
            }
        };

        abstract double next(Random random, double movedPsi);
    }

    @ParameterizedTest
    @EnumSource(Speaker.class)
    void a_sound_sensor_is_not_accused_however_it_speaks(Speaker speaker) {
        Random random = new Random(7);
        Map<Channel, Double> due = new EnumMap<>(Channel.class);
        due.put(Channel.INLET, 0.0);
        due.put(Channel.BOOSTED, 0.03);
        List<Input> inputs = new ArrayList<>();
        double before = 0;
        for (long step = 1; step < 100 * 900; step++) {
            double seconds = step / 100.0;
            double inRun = seconds % 90 - 30;
            double level = inRun < 0 ? 0 : inRun < 40 ? 100 : 0;
            double boosted = before + (level - before) * 0.01;
            long at = Line.START + step * 10_000;
            for (Channel channel : due.keySet()) {
                if (seconds >= due.get(channel)) {
                    double psi = channel == Channel.INLET ? 42 : boosted;
                    inputs.add(Reading.good(channel, at, psi + 0.3 * random.nextGaussian()));
                    double moved = channel == Channel.INLET ? 0 : Math.abs(level - boosted);
                    due.put(channel, seconds + speaker.next(random, moved));
                }
            }
            if (at % Tick.PERIOD_MICROS == 0) {
                inputs.add(new Tick(at));
            }
            before = boosted;
        }

        Told told = Told.by(pressures(), inputs);

        assertThat(told.alarms)
                .extracting(a -> a.finding().rule().key())
                .doesNotContain("signal-missing");
    }

    private static WatchSettings pressures(Channel... contacts) {
        Set<Channel> wired = EnumSet.of(Channel.INLET, Channel.BOOSTED);
        wired.addAll(List.of(contacts));
        return new WatchSettings("jet-1", wired, Limits.DEFAULTS);
    }

    // --- gauges changed over

    /** The two cables are changed over from a moment on. */
    private static List<Input> changedOver(List<Input> inputs, double fromSecond) {
        long from = Line.START + Math.round(fromSecond * 1e6);
        return inputs.stream().map(input -> changedOver(input, from)).toList();
    }

    private static Input changedOver(Input input, long from) {
        if (!(input instanceof Reading reading)
                || reading.atMicros() < from
                || !reading.channel().isPressure()) {
            return input;
        }
        Channel other = reading.channel() == Channel.INLET ? Channel.BOOSTED : Channel.INLET;
        return new Reading(other, reading.atMicros(), reading.value(), reading.quality());
    }

    private static Line twoRuns(Line line, double psi) {
        for (int i = 0; i < 2; i++) {
            line.running(true).inlet(38).towards(psi, 0.8, 40);
            line.running(false).inlet(42).towards(0, 1.5, 40);
        }
        return line;
    }

    private static void saysSwappedOnly(Told told, long byMicros) {
        assertThat(told.raised()).containsExactly("signal-swapped WARNING");
        assertThat(told.alarms.get(0).atMicros()).isLessThan(byMicros);
        assertThat(told.verdicts).allMatch(v -> v.outcome() == StartupVerdict.Outcome.NOT_JUDGED);
    }

    @ParameterizedTest
    @ValueSource(booleans = {true, false})
    void gauges_changed_over_are_told_at_the_first_start_and_nothing_else(boolean signal) {
        Line line = signal ? Line.withSeed(5).runSignal() : Line.withSeed(5);
        twoRuns(line.at(0).hold(40), 100);

        Told told = Told.by(line.settings(), changedOver(line.inputs(), 0));

        saysSwappedOnly(told, Line.START + 50_000_000);
        assertThat(told.verdicts).isNotEmpty();
        Finding said = told.alarms.get(0).finding();
        assertThat(said.measured()).isGreaterThan(said.limit());
        assertThat(Json.IN_PSI.remarks(said)).contains("two cables", "addresses");
    }

    @Test
    void a_weak_level_on_changed_gauges_is_told_at_the_first_stop_and_nothing_else() {
        Line line = Line.withSeed(6).at(0).hold(40);
        twoRuns(line, 65);

        Told told = Told.by(line.settings(), changedOver(line.inputs(), 0));

        saysSwappedOnly(told, Line.START + 95_000_000);
    }

    @ParameterizedTest
    @ValueSource(booleans = {true, false})
    void gauges_that_a_repair_changed_over_are_told_and_no_starved_booster(boolean signal) {
        Line line = signal ? Line.withSeed(7).runSignal() : Line.withSeed(7);
        twoRuns(line.at(0).hold(20), 100);
        line.silence(3);
        twoRuns(line.hold(40), 100);

        Told told = Told.by(line.settings(), changedOver(line.inputs(), 182));

        assertThat(told.raised()).containsExactly("signal-swapped WARNING");
    }

    @Test
    void gauges_changed_back_are_seen_to_be_right_and_judged_again() {
        Line line = Line.withSeed(8).runSignal().at(0).hold(40);
        twoRuns(line, 100);
        List<Input> inputs = new ArrayList<>(changedOver(line.inputs(), 0));
        int cut = inputs.size();
        twoRuns(line, 40);
        inputs.addAll(line.inputs().subList(cut, line.inputs().size()));

        Told told = Told.by(line.settings(), inputs);

        assertThat(told.raised()).startsWith("signal-swapped WARNING").contains("ratio CRITICAL");
    }

    @ParameterizedTest
    @ValueSource(booleans = {true, false})
    void behind_the_valve_too_they_are_told_at_the_second_start_at_the_latest(boolean signal) {
        Line line = signal ? Line.withSeed(9).runSignal() : Line.withSeed(9);
        line.at(0).inlet(0).hold(40);
        for (int i = 0; i < 2; i++) {
            line.running(true).inlet(38).towards(100, 0.8, 40);
            line.running(false).inlet(0).towards(0, 1.5, 40);
        }

        Told told = Told.by(line.settings(), changedOver(line.inputs(), 0));

        assertThat(told.raised()).containsExactly("signal-swapped WARNING");
        long by = signal ? 50 : 130;
        assertThat(told.alarms.get(0).atMicros()).isLessThan(Line.START + by * 1_000_000);
    }

    @Test
    void what_only_resembles_changed_gauges_is_not_taken_for_it() {
        Line behindValve = Line.withSeed(10).at(0).inlet(0).hold(30);
        behindValve.inlet(38).towards(100, 0.8, 40).inlet(0).towards(0, 1.5, 40);
        Line leaking = Line.withSeed(11).at(42).hold(30).towards(100, 0.8, 40).towards(42, 2, 60);
        Line broken = Line.withSeed(12).runSignal().at(0).hold(30).running(true);
        broken.inlet(39).towards(38, 0.8, 60).running(false).inlet(42).towards(0, 2, 40);
        Line weak = Line.withSeed(13).inlet(12).at(0).hold(30).inlet(8).towards(95, 0.8, 40);
        weak.inlet(12).towards(0, 2, 40);
        // the main is off over the weekend, the line keeps 30 psi; on Monday the water comes
        Line trapped = Line.withSeed(14).inlet(0).at(30).hold(60).inlet(50).hold(60);
        trapped.inlet(46).towards(100, 0.8, 40).inlet(50).towards(35, 2, 60);

        for (Line line : List.of(behindValve, leaking, broken, weak, trapped)) {
            assertThat(Told.by(line).raised()).doesNotContain("signal-swapped WARNING");
        }
        assertThat(Told.by(broken).raised()).contains("ratio CRITICAL");
    }

    @Test
    void a_starved_booster_is_told_as_one_although_the_inlet_reads_nothing() {
        Line line = Line.withSeed(15).at(0).hold(30).inlet(38).towards(100, 0.8, 40);
        line.inlet(0.5).towards(45, 3, 30);

        assertThat(Told.by(line).raised()).contains("inlet CRITICAL");
    }

    // --- never read right

    /** The same registers, taken in the wrong order. */
    private static double wrongOrder(double psi) {
        int bits = Float.floatToIntBits((float) psi);
        return Float.intBitsToFloat(bits << 16 | bits >>> 16);
    }

    private static List<Input> inWrongOrder(Line line, Set<Channel> channels) {
        return line.inputs().stream()
                .map(
                        input ->
                                input instanceof Reading r && channels.contains(r.channel())
                                        ? FLOAT.read(
                                                r.channel(), r.atMicros(), wrongOrder(r.value()))
                                        : input)
                .toList();
    }

    @ParameterizedTest
    @EnumSource(
            value = Channel.class,
            names = {"INLET", "BOOSTED"})
    void a_wrong_word_order_is_a_matter_of_set_up_and_never_stops_a_booster(Channel channel) {
        for (boolean signal : new boolean[] {true, false}) {
            Line line = signal ? Line.withSeed(16).runSignal() : Line.withSeed(16);
            twoRuns(line.at(0).hold(40), 100);

            Told told = Told.by(line.settings(), inWrongOrder(line, EnumSet.of(channel)));

            assertThat(told.raised()).containsExactly("signal-bad WARNING");
            assertThat(Json.IN_PSI.remarks(told.alarms.get(0).finding()))
                    .contains("never read right", "word order", "type", "scaling", "address");
        }
    }

    @Test
    void a_float_of_counts_in_the_wrong_word_order_is_told_too() {
        Line line = Line.quiet().runSignal().at(0).hold(20).running(true).towards(100, 0.8, 60);
        List<Input> inputs =
                line.inputs().stream()
                        .map(
                                input ->
                                        input instanceof Reading r && r.channel().isPressure()
                                                ? FLOAT.read(
                                                        r.channel(),
                                                        r.atMicros(),
                                                        wrongOrder(
                                                                Math.round(r.value() * 16) / 16.0))
                                                : input)
                        .toList();

        Told told = Told.by(line.settings(), inputs);

        assertThat(told.alarms).allMatch(a -> a.finding().rule().isAboutSignal());
        assertThat(told.raised()).contains("signal-bad WARNING");
    }

    @ParameterizedTest
    @EnumSource(
            value = Channel.class,
            names = {"INLET", "BOOSTED"})
    void a_channel_that_never_read_anything_but_0_is_told_when_the_booster_has_run(
            Channel channel) {
        Line line = Line.withSeed(17).runSignal().at(0).hold(40);
        twoRuns(line, 100);
        line.running(true).inlet(38).towards(100, 0.8, 120);
        List<Input> inputs =
                line.inputs().stream()
                        .map(
                                input ->
                                        input instanceof Reading r && r.channel() == channel
                                                ? Reading.good(channel, r.atMicros(), 0)
                                                : input)
                        .toList();

        Told told = Told.by(line.settings(), inputs);

        assertThat(told.raised()).containsExactly("signal-bad WARNING");
        assertThat(Json.IN_PSI.remarks(told.alarms.get(0).finding()))
                .contains("nothing but 0.0 psi", "address", "type", "word order", "scaling");
    }

    @Test
    void a_dead_plant_over_the_first_weekend_is_silent_and_is_believed_when_it_moves() {
        List<Input> inputs = new ArrayList<>();
        long at = Line.START;
        for (int i = 0; i < 20 * 3_600; i++) {
            at += 50_000;
            inputs.add(Reading.good(Channel.INLET, at, 0));
            inputs.add(Reading.good(Channel.BOOSTED, at, 0));
            if (at % Tick.PERIOD_MICROS == 0) {
                inputs.add(new Tick(at));
            }
        }
        Line monday = Line.withSeed(18).jump(at - Line.START).at(0).hold(30).inlet(39);
        monday.towards(38, 1, 60);
        inputs.addAll(monday.inputs());

        Told told = Told.by(pressures(), inputs);

        assertThat(told.alarms)
                .extracting(AlarmChange::atMicros)
                .allMatch(t -> t > Line.START + 3_600_000_000L);
        assertThat(told.raised()).containsExactly("ratio CRITICAL"); // it fills and boosts nothing
    }

    @Test
    void a_known_channel_that_turns_to_nonsense_judges_no_pressure() {
        Line line = Line.withSeed(19).runSignal().at(0).hold(20).running(true);
        line.towards(100, 0.8, 60);
        List<Input> inputs = new ArrayList<>(line.inputs());
        int cut = inputs.size();
        line.hold(60);
        List<Input> nonsense = inWrongOrder(line, EnumSet.of(Channel.INLET));
        inputs.addAll(nonsense.subList(cut, nonsense.size()));

        Told told = Told.by(line.settings(), inputs);

        assertThat(told.raised()).containsExactly("signal-bad WARNING");
        assertThat(Json.IN_PSI.remarks(told.alarms.get(0).finding())).doesNotContain("never");
    }

    // --- readings that stand still to the bit

    @Test
    void a_gauge_that_always_flickered_and_stands_still_is_stuck_though_no_run_is_seen() {
        Line line = Line.withSeed(40).at(0).hold(60).towards(100, 0.6, 40).towards(0, 1, 60);
        line.freezeBoosted(true).hold(20).towards(100, 0.6, 20);

        Told told = Told.by(line);

        assertThat(told.raised()).containsExactly("signal-stuck WARNING");
        assertThat(told.alarms.get(0).finding().measured()).isBetween(30.0, 31.0);
        assertThat(Json.IN_PSI.remarks(told.alarms.get(0).finding()))
                .startsWith("the same to the last bit; before that its readings never stood still");
    }

    @Test
    void it_is_good_when_it_flickers_again() {
        Line line = Line.withSeed(41).at(0).hold(60).freezeBoosted(true).hold(40);
        line.freezeBoosted(false).hold(15);

        assertThat(Told.by(line).alarms)
                .extracting(a -> a.event())
                .containsExactly(AlarmEvent.RAISED, AlarmEvent.RETURNED);
    }

    @Test
    void a_gateway_that_repeats_old_values_at_times_is_given_ten_times_as_long() {
        Line line = Line.withSeed(42).at(0).hold(60);
        for (int i = 0; i < 3; i++) {
            line.freezeBoosted(true).hold(8).freezeBoosted(false).hold(30);
        }
        line.freezeBoosted(true).hold(78);

        assertThat(Told.by(line).raised()).isEmpty();
        assertThat(Told.by(line.hold(4)).raised()).containsExactly("signal-stuck WARNING");
    }

    @ParameterizedTest
    @ValueSource(doubles = {0.1, 0.3})
    void a_quiet_gauge_that_flickers_between_two_steps_of_a_converter_is_not_stuck(double step) {
        Line line = Line.quiet().at(step / 2).hold(300).at(0).hold(600);
        line.at(step / 2).hold(300).at(0).hold(600);

        Told told = Told.by(line.settings(), inSteps(line.inputs(), step));

        assertThat(told.raised()).isEmpty();
    }

    @Test
    void a_quiet_gauge_that_the_machine_shakes_is_not_stuck_when_the_machine_stands() {
        Line line = Line.quiet().runSignal().at(0).hold(30);
        for (int run = 0; run < 6; run++) {
            line.running(true).towards(100, 0.6, 20);
            for (int stroke = 0; stroke < 60; stroke++) {
                line.towards(96, 0.02, 0.25).towards(100, 0.02, 0.25);
            }
            line.running(false).towards(0, 1, 60);
        }
        line.hold(600);

        Told told = Told.by(line.settings(), inSteps(line.inputs(), 0.1));

        assertThat(told.raised()).isEmpty();
    }

    @Test
    void an_inlet_gauge_behind_the_valve_that_sticks_at_rest_is_no_starved_booster() {
        Line line = Line.withSeed(44).runSignal().at(0).inlet(-0.3).hold(30).freezeInlet(true);
        line.hold(10).running(true).towards(100, 0.6, 40);

        assertThat(Told.by(line).raised()).containsExactly("signal-stuck WARNING");
    }

    @Test
    void a_value_that_is_held_because_nobody_wrote_anew_is_not_stuck() {
        Line line = Line.withSeed(43).at(0).hold(60);
        int written = line.inputs().size();
        line.freezeBoosted(true).hold(200);
        List<Input> inputs = new ArrayList<>(line.inputs().subList(0, written));
        for (Input input : line.inputs().subList(written, line.inputs().size())) {
            boolean held = input instanceof Reading r && r.channel() == Channel.BOOSTED;
            inputs.add(held ? held((Reading) input) : input);
        }

        assertThat(Told.by(line.settings(), inputs).raised()).isEmpty();
    }

    private static Reading held(Reading reading) {
        return new Reading(reading.channel(), reading.atMicros(), reading.value(), Quality.HELD);
    }

    private static List<Input> inSteps(List<Input> inputs, double step) {
        List<Input> coarse = new ArrayList<>();
        for (Input input : inputs) {
            boolean pressure = input instanceof Reading r && r.channel().isPressure();
            coarse.add(pressure ? inSteps((Reading) input, step) : input);
        }
        return coarse;
    }

    private static Reading inSteps(Reading reading, double step) {
        double value = step * Math.rint(reading.value() / step);
        return Reading.good(reading.channel(), reading.atMicros(), value);
    }

    // --- readings at the top of their range

    @ParameterizedTest
    @ValueSource(booleans = {false, true})
    void a_boosted_gauge_that_stands_at_its_full_scale_is_bad_and_no_pressure(boolean runSignal) {
        Line line = Line.withSeed(50);
        line = runSignal ? line.runSignal() : line;
        line.at(0).hold(60).running(true).towards(100, 0.6, 40).running(false).towards(0, 1, 60);
        line.at(206.25).hold(0.05).freezeBoosted(true).hold(60);
        line.running(true).hold(60).running(false).hold(60);

        Told told = Told.by(line);

        assertThat(told.raised()).containsExactly("signal-bad WARNING");
        assertThat(Json.IN_PSI.remarks(told.alarms.get(0).finding()))
                .startsWith("at the top of its range");
    }

    @Test
    void an_inlet_gauge_too_small_for_its_supply_is_told_as_what_it_is() {
        Line line = Line.withSeed(51).runSignal().at(0).hold(60);
        List<Input> inputs = new ArrayList<>();
        for (Input input : line.running(true).towards(100, 0.6, 60).inputs()) {
            boolean inlet = input instanceof Reading r && r.channel() == Channel.INLET;
            inputs.add(
                    inlet
                            ? new Reading(Channel.INLET, input.atMicros(), 103, Quality.AT_TOP)
                            : input);
        }

        Told told = Told.by(line.settings(), inputs);

        assertThat(told.raised()).containsExactly("signal-bad WARNING");
        assertThat(told.alarms.get(0).finding().channel()).isEqualTo(Channel.INLET);
    }

    @Test
    void a_short_peak_at_full_scale_is_a_peak() {
        Line line = Line.withSeed(52).runSignal().at(0).hold(20).running(true);
        line.towards(100, 0.6, 40);
        for (int i = 0; i < 4; i++) {
            line.at(206.25).hold(0.05).freezeBoosted(true).hold(0.5).freezeBoosted(false);
            line.at(100).hold(20);
        }

        assertThat(Told.by(line).raised()).isEmpty();
    }

    // --- a gauge after the filters

    @ParameterizedTest
    @EnumSource(
            value = Wiring.class,
            names = {"PRESSURES", "RUNNING"})
    void clogged_filters_are_told_where_a_gauge_after_them_is_wired(Wiring wiring) {
        Plays clogged = Plays.usual(35).strike(0, Fault.CLOGGED_FILTER, 0.9).run(10, 90);
        Plays clean = Plays.usual(35).run(10, 90);

        Told told = clogged.feed(110).wiring(wiring).filtered().told();
        Told sound = clean.feed(110).wiring(wiring).filtered().told();

        assertThat(told.raised()).contains("filter-loss WARNING");
        assertThat(sound.raised()).isEmpty();
        assertThat(told.startups.get(0).figure(Measurand.FILTER_LOSS).get()).isGreaterThan(10);
        assertThat(sound.startups.get(0).figure(Measurand.FILTER_LOSS).get()).isBetween(0.0, 5.0);
    }
}
