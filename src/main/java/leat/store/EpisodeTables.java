package leat.store;

import leat.measure.RestSpell;
import leat.measure.Startup;
import leat.measure.SteadySpell;
import leat.phase.Phase;
import leat.phase.PhaseChange;
import leat.rule.StartupVerdict;

/** The rows of {@code phase_change}, {@code startup}, {@code steady} and {@code rest}. */
final class EpisodeTables {

    static final String PHASE_CHANGE = "at_us, from_phase, to_phase, reason";

    static final String STARTUP =
            "started_us, measured_us, base_psi, base_psi_absent, top_psi, top_psi_absent,"
                    + " inlet_rest_psi, inlet_rest_psi_absent, inlet_running_psi,"
                    + " inlet_running_psi_absent, dead_seconds, dead_seconds_absent, rise_seconds,"
                    + " rise_seconds_absent, rise_from_inlet_seconds,"
                    + " rise_from_inlet_seconds_absent, start_to_90_seconds,"
                    + " start_to_90_seconds_absent, overshoot_percent, overshoot_percent_absent,"
                    + " ratio, ratio_absent, double_seconds, double_seconds_absent, risen";

    static final String VERDICT = "verdict, note";

    static final String STEADY =
            "from_us, to_us, samples, inlet_psi, inlet_psi_absent, boosted_psi, boosted_psi_absent,"
                    + " boosted_low_psi, boosted_low_psi_absent, boosted_high_psi,"
                    + " boosted_high_psi_absent, ratio, ratio_absent";

    static final String REST =
            "stopped_us, measured_us, boosted_psi, boosted_psi_absent, inlet_psi,"
                    + " inlet_psi_absent, settled";

    private EpisodeTables() {}

    static Write put(Write write, PhaseChange change) {
        return write.number(change.atMicros())
                .word(change.from())
                .word(change.to())
                .text(change.reason());
    }

    static PhaseChange phaseChange(Row row) {
        long atMicros = row.number();
        return new PhaseChange(row.word(Phase.class), row.word(Phase.class), atMicros, row.text());
    }

    static Write put(Write write, Startup startup) {
        return write.number(startup.startedAtMicros())
                .number(startup.measuredAtMicros())
                .figure(startup.basePsi())
                .figure(startup.topPsi())
                .figure(startup.inletRestPsi())
                .figure(startup.inletRunningPsi())
                .figure(startup.deadSeconds())
                .figure(startup.riseSeconds())
                .figure(startup.riseFromInletSeconds())
                .figure(startup.startTo90Seconds())
                .figure(startup.overshootPercent())
                .figure(startup.ratio())
                .figure(startup.doubleSeconds())
                .flag(startup.risen());
    }

    static Startup startup(Row row) {
        return new Startup(
                row.number(),
                row.number(),
                row.figure(),
                row.figure(),
                row.figure(),
                row.figure(),
                row.figure(),
                row.figure(),
                row.figure(),
                row.figure(),
                row.figure(),
                row.figure(),
                row.figure(),
                row.flag());
    }

    static Write put(Write write, StartupVerdict verdict) {
        return write.word(verdict.outcome()).text(verdict.note());
    }

    static StartupVerdict verdict(Row row) {
        return new StartupVerdict(row.word(StartupVerdict.Outcome.class), row.text());
    }

    static Write put(Write write, SteadySpell spell) {
        return write.number(spell.fromMicros())
                .number(spell.toMicros())
                .number(spell.samples())
                .figure(spell.inletPsi())
                .figure(spell.boostedPsi())
                .figure(spell.boostedLowPsi())
                .figure(spell.boostedHighPsi())
                .figure(spell.ratio());
    }

    static SteadySpell steady(Row row) {
        return new SteadySpell(
                row.number(),
                row.number(),
                row.number(),
                row.figure(),
                row.figure(),
                row.figure(),
                row.figure(),
                row.figure());
    }

    static Write put(Write write, RestSpell spell) {
        return write.number(spell.stoppedAtMicros())
                .number(spell.measuredAtMicros())
                .figure(spell.boostedPsi())
                .figure(spell.inletPsi())
                .flag(spell.settled());
    }

    static RestSpell rest(Row row) {
        return new RestSpell(row.number(), row.number(), row.figure(), row.figure(), row.flag());
    }
}
