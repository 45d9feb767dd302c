package leat;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import leat.bench.scenario.Catalogue;
import leat.bench.scenario.Sample;
import leat.bench.scenario.Scenario;
import leat.bench.scenario.ScenarioRun;
import leat.config.MachineSettings;
import leat.config.SiteFile;
import leat.signal.Channel;
import leat.signal.Conversion;
import leat.signal.Tick;
import leat.watch.Outcome;
import leat.watch.Watch;
import leat.watch.WatchSettings;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The same transducers and limits written in psi, in bar, or mixed give the same judgement of the
 * same counts. 200 psi = 13.789514586336 bar, 100 psi = 689.475729317 kPa by the factor of NIST SP
 * 811 (2008), Appendix B.
 */
class UnitsTest {

    private static final String PSI = site("200 psi", "200 psi", "100 psi", "80 psi", "5 psi");
    private static final String BAR =
            site(
                    "13.789514586336 bar",
                    "13.789514586336 bar",
                    "6.894757293168 bar",
                    "5.5158058345344 bar",
                    "0.3447378646584 bar");
    private static final String MIXED =
            site(
                    "200 psi",
                    "1378.9514586336 kPa",
                    "689.4757293168 kPa",
                    "80 psi",
                    "0.3447378646584 bar");

    private static String site(
            String inletSpan, String boostedSpan, String set, String warning, String rest) {
        return """
                site: { name: Boatyard }
                connections: { cabinet: { modbus_tcp: { host: 127.0.0.1 } } }
                limits: { level: { set: %s, warning: %s }, rest: { advisory: %s } }
                machines:
                  jet-1:
                    channels:
                      inlet: { from: cabinet, %s }
                      boosted: { from: cabinet, %s }
                tell: { log: { by: { log: { } } } }
                """
                .formatted(set, warning, rest, channel(0, inletSpan), channel(1, boostedSpan));
    }

    private static String channel(int address, String span) {
        return "register: { unit_id: 1, table: input_register, address: "
                + address
                + ", type: uint16 }, loop: [ { raw: 0, current: 0 mA }, { raw: 4095, current: 20.5 mA } ], "
                + "scale: [ { at: 4 mA, reads: 0 psi }, { at: 20 mA, reads: "
                + span
                + " } ]";
    }

    @ParameterizedTest
    @ValueSource(
            strings = {"healthy", "worn-booster", "leaking-valve", "set-too-high", "not-turning"})
    void psi_in_or_bar_in_or_mixed_gives_the_same_judgement(String name) {
        Scenario scenario = Catalogue.find(name).orElseThrow();

        List<String> inPsi = judged(PSI, scenario);

        assertThat(inPsi).isNotEmpty();
        assertThat(judged(BAR, scenario)).isEqualTo(inPsi);
        assertThat(judged(MIXED, scenario)).isEqualTo(inPsi);
    }

    /** Phases and alarms with their times; the numbers differ in the last bit. */
    private static List<String> judged(String yaml, Scenario scenario) {
        MachineSettings machine = SiteFile.archived(yaml).site().orElseThrow().machines().get(0);
        Map<Channel, Conversion> conversions =
                Map.of(
                        Channel.INLET, machine.byChannel().get(Channel.INLET).conversion(),
                        Channel.BOOSTED, machine.byChannel().get(Channel.BOOSTED).conversion());
        Watch watch = new Watch(new WatchSettings("jet-1", conversions.keySet(), machine.limits()));
        List<String> judged = new ArrayList<>();
        String first = scenario.machineNames().get(0);
        ScenarioRun.samples(scenario, 20)
                .filter(sample -> sample.machine().equals(first))
                .forEach(sample -> feed(watch, conversions, sample, judged));
        return judged;
    }

    private static void feed(
            Watch watch, Map<Channel, Conversion> conversions, Sample sample, List<String> judged) {
        long at = 1_767_592_800_000_000L + sample.micros();
        watch.feed(
                conversions.get(Channel.INLET).read(Channel.INLET, at, sample.inletCounts()),
                outcome -> note(outcome, judged));
        watch.feed(
                conversions.get(Channel.BOOSTED).read(Channel.BOOSTED, at, sample.boostedCounts()),
                outcome -> note(outcome, judged));
        if (at % Tick.PERIOD_MICROS == 0) {
            watch.feed(new Tick(at), outcome -> note(outcome, judged));
        }
    }

    private static void note(Outcome outcome, List<String> judged) {
        if (outcome instanceof Outcome.PhaseChanged changed) {
            judged.add(changed.change().toString());
        } else if (outcome instanceof Outcome.AlarmChanged changed) {
            judged.add(changed.change().alarmId() + " " + changed.change().finding().grade());
        }
    }
}
