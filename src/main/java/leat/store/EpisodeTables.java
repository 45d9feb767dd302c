package leat.store;

import static java.util.stream.Collectors.joining;

import java.util.Map;
import java.util.stream.Stream;
import leat.measure.Figure;
import leat.measure.Measurand;
import leat.measure.RestSpell;
import leat.measure.Startup;
import leat.measure.SteadySpell;
import leat.phase.Phase;
import leat.phase.PhaseChange;
import leat.rule.StartupVerdict;

/** The rows of {@code phase_change}, {@code startup}, {@code steady} and {@code rest}. */
final class EpisodeTables {

    static final String PHASE_CHANGE = "at_us, from_phase, to_phase, reason";

    static final String STARTUP = "started_us, measured_us, remarks, risen";

    static final String VERDICT = "verdict, note";

    static final String STEADY =
            "from_us, to_us, samples, "
                    + figures(
                            "inlet_psi",
                            "boosted_psi",
                            "boosted_low_psi",
                            "boosted_high_psi",
                            "ratio",
                            "ripple_psi",
                            "wander_psi");

    static final String REST =
            "stopped_us, measured_us, "
                    + figures("boosted_psi", "inlet_psi", "fall_seconds")
                    + ", settled";

    private EpisodeTables() {}

    /** The three columns of each figure, as {@link Write#figure} fills them. */
    static String figures(String... names) {
        return Stream.of(names)
                .map(name -> name + ", " + name + "_uncertainty, " + name + "_absent")
                .collect(joining(", "));
    }

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
                .text(String.join("\n", startup.remarks()))
                .flag(startup.risen());
    }

    /**
     * @param figures what {@link StartupFigures} holds of it
     */
    static Startup startup(Row row, Map<Measurand, Figure> figures) {
        return new Startup(
                row.number(), row.number(), figures, row.text().lines().toList(), row.flag());
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
                .figure(spell.ratio())
                .figure(spell.ripplePsi())
                .figure(spell.wanderPsi());
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
                row.figure(),
                row.figure(),
                row.figure());
    }

    static Write put(Write write, RestSpell spell) {
        return write.number(spell.stoppedAtMicros())
                .number(spell.measuredAtMicros())
                .figure(spell.boostedPsi())
                .figure(spell.inletPsi())
                .figure(spell.fallSeconds())
                .flag(spell.settled());
    }

    static RestSpell rest(Row row) {
        return new RestSpell(
                row.number(), row.number(), row.figure(), row.figure(), row.figure(), row.flag());
    }
}
