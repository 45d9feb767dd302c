package leat.report;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import leat.json.IfThere;
import leat.json.Inline;
import leat.measure.Figure;
import leat.measure.Measurand;
import leat.measure.RestSpell;
import leat.measure.Startup;
import leat.measure.SteadySpell;
import leat.rule.Baseline;
import leat.rule.Grade;
import leat.rule.JudgedRun;
import leat.rule.Rule;
import leat.rule.RunVerdict;
import leat.rule.StartupVerdict;
import leat.rule.Usual;
import leat.signal.Channel;

/** What was measured, as programs read it. {@code tSeconds}: on the time axis of a recording. */
public final class Episodes {

    private Episodes() {}

    /** One start of the booster; it is {@code at} its begin. */
    public record Start(
            String machine,
            long atMicros,
            long measuredAtMicros,
            @Inline Map<Measurand, Figure> figures,
            List<String> remarks,
            boolean risen,
            StartupVerdict.Outcome verdict,
            String note,
            Optional<RunVerdict.Mark> runVerdict,
            String runNote,
            Optional<Run> run) {

        /**
         * @param run the run that it began, where that has been judged
         */
        public static Start of(
                String machine, Startup startup, StartupVerdict verdict, Optional<JudgedRun> run) {
            return new Start(
                    machine,
                    startup.startedAtMicros(),
                    startup.measuredAtMicros(),
                    startup.figures(),
                    startup.remarks().stream().map(Json.IN_PSI::climb).toList(),
                    startup.risen(),
                    verdict.outcome(),
                    Json.IN_PSI.note(verdict),
                    run.map(judged -> judged.verdict().mark()),
                    run.map(judged -> Json.IN_PSI.runs().brief(judged, verdict)).orElse(""),
                    run.map(Run::of));
        }
    }

    /** A run from start to stop, or as far as it has come. */
    public record Run(
            long startedAtMicros,
            long endedAtMicros,
            boolean over,
            Figure topPsi,
            Figure loadedPsi,
            Figure unloadedPsi,
            Figure inletPsi,
            Figure ratio,
            Figure filterLossPsi,
            List<Part> parts,
            List<Raised> raised) {

        public static Run of(JudgedRun judged) {
            return new Run(
                    judged.run().startedAtMicros(),
                    judged.run().endedAtMicros(),
                    judged.run().over(),
                    judged.run().figure(Measurand.TOP),
                    judged.run().figure(Measurand.LOADED),
                    judged.run().figure(Measurand.UNLOADED),
                    judged.run().figure(Measurand.INLET_RUNNING),
                    judged.run().figure(Measurand.RATIO),
                    judged.run().figure(Measurand.FILTER_LOSS),
                    judged.verdict().parts().stream()
                            .map(part -> new Part(part.aspect(), part.mark()))
                            .toList(),
                    judged.verdict().raised().stream()
                            .map(each -> new Raised(each.rule(), each.channel(), each.grade()))
                            .toList());
        }
    }

    /** One thing of a run. */
    public record Part(RunVerdict.Aspect aspect, RunVerdict.Mark mark) {}

    /** An alarm that a run raised. */
    public record Raised(Rule rule, Channel channel, Grade grade) {}

    /** The rest pressure after a stop. */
    public record Rest(
            String machine,
            long atMicros,
            @IfThere OptionalDouble tSeconds,
            long measuredAtMicros,
            Figure boostedPsi,
            Figure inletPsi,
            Figure fallSeconds,
            boolean settled) {

        public static Rest of(String machine, OptionalDouble tSeconds, RestSpell spell) {
            return new Rest(
                    machine,
                    spell.stoppedAtMicros(),
                    tSeconds,
                    spell.measuredAtMicros(),
                    spell.boostedPsi(),
                    spell.inletPsi(),
                    spell.fallSeconds(),
                    spell.settled());
        }
    }

    /** A stretch of steady running. */
    public record Steady(
            String machine,
            long atMicros,
            @IfThere OptionalDouble tSeconds,
            long toMicros,
            long samples,
            Figure inletPsi,
            Figure boostedPsi,
            Figure boostedLowPsi,
            Figure boostedHighPsi,
            Figure ratio,
            Figure ripplePsi,
            Figure wanderPsi) {

        public static Steady of(String machine, OptionalDouble tSeconds, SteadySpell spell) {
            return new Steady(
                    machine,
                    spell.fromMicros(),
                    tSeconds,
                    spell.toMicros(),
                    spell.samples(),
                    spell.inletPsi(),
                    spell.boostedPsi(),
                    spell.boostedLowPsi(),
                    spell.boostedHighPsi(),
                    spell.ratio(),
                    spell.ripplePsi(),
                    spell.wanderPsi());
        }
    }

    /** What is usual for a machine. */
    public record Normal(
            long learnedAtMicros,
            List<Long> startsMicros,
            Map<Measurand, Usual> figures,
            Map<Measurand, Usual> runs) {

        public static Normal of(Baseline baseline) {
            return new Normal(
                    baseline.learnedAtMicros(),
                    baseline.starts(),
                    baseline.figures(),
                    baseline.runs());
        }
    }
}
