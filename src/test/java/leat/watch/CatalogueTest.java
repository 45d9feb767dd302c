package leat.watch;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import leat.Gear;
import leat.alarm.AlarmChange;
import leat.bench.scenario.Catalogue;
import leat.bench.scenario.Scenario;
import leat.rule.StartupVerdict;
import leat.signal.Order;
import leat.watch.BenchFeed.Wiring;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** Every scenario of the bench, as it is wired and sampled in the field, calls what it must. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class CatalogueTest {

    private static final Map<String, List<String>> EXPECTED =
            Map.ofEntries(
                    Map.entry("demo jet-1", List.of("rest ADVISORY")),
                    Map.entry(
                            "demo jet-2",
                            List.of("ratio WARNING", "level-low WARNING", "ratio CRITICAL")),
                    Map.entry("healthy jet-1", List.of()),
                    Map.entry("healthy jet-2", List.of()),
                    Map.entry("worn-booster jet-1", List.of("ratio WARNING", "level-low WARNING")),
                    Map.entry("not-turning jet-1", List.of("ratio CRITICAL")),
                    Map.entry("weak-supply jet-1", List.of("inlet ADVISORY", "inlet WARNING")),
                    Map.entry("water-shut jet-1", List.of("inlet CRITICAL")),
                    Map.entry("leaking-valve jet-1", List.of("rest ADVISORY")),
                    Map.entry("leaking-valve-near-inlet jet-1", List.of("rest WARNING")),
                    Map.entry(
                            "coupling-slips jet-1", List.of("ratio WARNING", "level-low WARNING")),
                    Map.entry("slow-valve jet-1", List.of()),
                    Map.entry("part-open-valve jet-1", List.of()),
                    Map.entry("part-open-valve jet-2", List.of("level-low ADVISORY")),
                    Map.entry("clogged-strainer jet-1", List.of("inlet ADVISORY")),
                    Map.entry("clogged-filter jet-1", List.of()),
                    Map.entry("set-too-low jet-1", List.of("ratio WARNING", "level-low WARNING")),
                    Map.entry("sticking-regulator jet-1", List.of()),
                    Map.entry("external-leak jet-1", List.of("level-low WARNING")),
                    Map.entry("set-too-high jet-1", List.of("level-high ADVISORY")),
                    Map.entry("set-too-high jet-2", List.of("level-high WARNING")),
                    Map.entry("air-after-service jet-1", List.of("rise WARNING")),
                    Map.entry("broken-loop jet-1", List.of("signal-bad WARNING")),
                    Map.entry("shorted-loop jet-1", List.of("signal-bad WARNING")),
                    Map.entry("stuck-transducer jet-1", List.of("signal-stuck WARNING")),
                    Map.entry("offset-boosted jet-1", List.of("rest ADVISORY")),
                    Map.entry("offset-inlet jet-1", List.of()),
                    Map.entry("span-boosted jet-1", List.of("level-high ADVISORY")),
                    Map.entry("swapped-cables jet-1", List.of("signal-swapped WARNING")),
                    Map.entry("slow-publisher jet-1", List.of()));

    /** One play of so many; prime to the ways of wiring and sampling, so that each has its turn. */
    private static final int BY_DAY = 7;

    private enum Sampling {
        POLLED_AT_20_HZ,
        POLLED_AT_10_HZ,
        PUBLISHED_TWICE_A_SECOND;

        BenchFeed feed(Scenario scenario) {
            BenchFeed feed = BenchFeed.of(scenario);
            return switch (this) {
                case POLLED_AT_20_HZ -> feed;
                case POLLED_AT_10_HZ -> feed.hz(10);
                case PUBLISHED_TWICE_A_SECOND -> feed.published();
            };
        }
    }

    /** Those made for a recording of weeks are no matter of seconds. */
    private static List<Scenario> shortOnes() {
        return Catalogue.all().stream().filter(scenario -> !scenario.isLong()).toList();
    }

    private final Tapes tapes = new Tapes();

    static List<Arguments> plays() {
        List<Arguments> plays = new ArrayList<>();
        for (Scenario scenario : shortOnes()) {
            for (String machine : scenario.machineNames()) {
                for (Wiring wiring : Wiring.values()) {
                    for (Sampling sampling : Sampling.values()) {
                        plays.add(Arguments.of(scenario.name(), machine, wiring, sampling));
                    }
                }
            }
        }
        return Gear.everyNth(BY_DAY, plays);
    }

    @ParameterizedTest(name = "{0} {1} {2} {3}")
    @MethodSource("plays")
    void each_scenario_raises_its_alarms_and_no_others_in_the_order_of_time(
            String name, String machine, Wiring wiring, Sampling sampling) {
        Scenario scenario = Catalogue.find(name).orElseThrow();
        int laps = scenario.loop() ? 2 : 1;
        BenchFeed feed =
                sampling.feed(scenario)
                        .machine(machine)
                        .wiring(wiring)
                        .length(scenario.duration().multipliedBy(laps))
                        .from(tapes);

        Told told = feed.told();

        List<String> usual = EXPECTED.get(name + " " + machine);
        assertThat(told.raised())
                .isEqualTo(EXPECTED.getOrDefault(name + " " + machine + " " + wiring, usual));
        assertThat(told.alarms).extracting(AlarmChange::atMicros).isSorted();
        assertThat(told.alarms)
                .allMatch(change -> change.finding().sinceMicros() <= change.atMicros());
    }

    @ParameterizedTest
    @MethodSource("wirings")
    void air_after_a_service_in_the_journal_is_noted_and_raises_nothing(Wiring wiring) {
        Scenario air = Catalogue.find("air-after-service").orElseThrow();

        Told told =
                BenchFeed.of(air)
                        .wiring(wiring)
                        .journal(0, Order.Entry.SERVICED)
                        .from(tapes)
                        .told();

        assertThat(told.raised()).isEmpty();
        assertThat(told.verdicts)
                .extracting(StartupVerdict::outcome)
                .as("true rises of 6.7, 3.07, 2.1, 1.5 and 1.2 s, by the bench's own measuring")
                .containsExactly(
                        StartupVerdict.Outcome.RELAXED,
                        StartupVerdict.Outcome.RELAXED,
                        StartupVerdict.Outcome.GOOD,
                        StartupVerdict.Outcome.GOOD,
                        StartupVerdict.Outcome.GOOD);
    }

    static Wiring[] wirings() {
        return Wiring.values();
    }

    @Test
    void a_broken_loop_counts_from_its_first_bad_reading() {
        Scenario broken = Catalogue.find("broken-loop").orElseThrow();

        Told told = BenchFeed.of(broken).told();

        assertThat(told.alarms.get(0).finding().sinceMicros())
                .isEqualTo(BenchFeed.START + 25_000_000);
        assertThat(told.alarms.get(0).atMicros()).isEqualTo(BenchFeed.START + 30_000_000);
    }
}
