package leat.report;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Function;
import leat.diagnose.Cause;
import leat.diagnose.Diagnosis;
import leat.diagnose.Reason;
import leat.measure.Figure;
import leat.measure.Measurand;
import leat.measure.RestSpell;
import leat.measure.Startup;
import leat.measure.absence.Absence;
import leat.rule.Baseline;
import leat.signal.Channel;

/**
 * Where in the curve of a start the strongest reasons for the likeliest cause can be seen. A reason
 * that comes from other starts, and that this one does not show, is not marked in it. Immutable.
 *
 * @param startup the numbers of the start
 * @param inlet its inlet pressure; may be empty
 * @param boosted its boosted pressure; may be empty
 * @param rest the stop after it, where that is drawn too
 * @param baseline what is usual for the machine, where that is known
 * @param shown how numbers are shown
 */
public record CurveMarks(
        Startup startup,
        Trace inlet,
        Trace boosted,
        Optional<RestSpell> rest,
        Optional<Baseline> baseline,
        Shown shown) {

    /** More would hide the curve. */
    private static final int MOST = 2;

    /** A smaller difference cannot be seen in a curve: a share of what is usual; own choice. */
    private static final double LEAST_SHARE = 0.05;

    /** A line at rest that reads less is called empty, psi; own choice. */
    private static final double LEAST_BASE = 2;

    /** Marks of one curve that are nearer than this say one thing; seconds. */
    private static final double APART = 0.4;

    /** How far from its own usual time a fill is still called normal; a factor, own choice. */
    private static final double NORMAL_FILL = 1.35;

    private static final double BEFORE_THE_START = -1;
    private static final Figure NOT_KNOWN = Figure.absent(Absence.NOT_LOOKED_AT);

    public CurveMarks {
        requireNonNull(startup, "startup");
        requireNonNull(inlet, "inlet");
        requireNonNull(boosted, "boosted");
        requireNonNull(rest, "rest");
        requireNonNull(baseline, "baseline");
        requireNonNull(shown, "shown");
    }

    /** At most two, the most telling first; none where nothing is wrong. */
    public List<CurveMark> of(Diagnosis why) {
        if (why.first().cause() == Cause.HEALTHY) {
            return List.of();
        }
        List<CurveMark> marks = new ArrayList<>();
        for (Reason reason : why.first().pro()) {
            mark(reason)
                    .filter(mark -> marks.size() < MOST && isApart(mark, marks))
                    .ifPresent(marks::add);
        }
        return List.copyOf(marks);
    }

    private static boolean isApart(CurveMark mark, List<CurveMark> others) {
        return others.stream()
                .noneMatch(
                        other ->
                                other.curve() == mark.curve()
                                        && Math.abs(other.second() - mark.second()) < APART);
    }

    private Optional<CurveMark> mark(Reason reason) {
        return switch (reason.feature()) {
            case BOOST_RATE, RISE_FROM_INLET -> slower(reason, boostBegins());
            case RISE, TIME_TO_LEVEL, START_TO_90 -> slower(reason, riseBegins());
            case DEAD -> ofStart(reason, Measurand.DEAD, "late", moves());
            case BASE -> base(reason);
            case REST_PRESSURE, REST_SHARE -> atRest(reason);
            case NOT_RISEN -> on(Channel.BOOSTED, end(boosted), shown.say("mark.not-risen"));
            case UNLOADED, HIGHEST -> ofStart(reason, Measurand.UNLOADED, "level", standing());
            case LEVEL -> ofStart(reason, Measurand.TOP, "level", standing());
            case LOADED -> ofStart(reason, Measurand.LOADED, "level", stroking());
            case DROP, RUN_DROP -> ofStart(reason, Measurand.DROP, "drop", onset());
            case PEAK_DROP -> ofStart(reason, Measurand.PEAK_DROP, "peak-drop", givesWay());
            case OVERSHOOT -> ofStart(reason, Measurand.OVERSHOOT, "overshoot", highest());
            case RATIO -> ofStart(reason, Measurand.RATIO, "ratio", stroking());
            case LIFT -> lift(reason);
            case RIPPLE -> ofStart(reason, Measurand.RIPPLE, "ripple", stroking());
            case START_WANDER, WANDER -> ofStart(reason, Measurand.WANDER, "wander", stroking());
            case INLET_REST, INLET_DRAINED ->
                    ofInlet(reason, Measurand.INLET_REST, "inlet", before(inlet));
            case INLET -> ofInlet(reason, Measurand.INLET_RUNNING, "inlet", end(inlet));
            case INLET_SAG -> ofInlet(reason, Measurand.INLET_SAG, "inlet-sag", end(inlet));
            case INLET_DIP -> ofInlet(reason, Measurand.INLET_DIP, "inlet-dip", lowestOfRise());
            case FILTER_LOSS,
                    FALL,
                    LEVEL_SCATTER,
                    QUICKER,
                    INLET_WANDER,
                    INLET_RIPPLE,
                    SWAY,
                    UNBOOSTED ->
                    Optional.empty();
        };
    }

    private Optional<CurveMark> ofStart(
            Reason reason, Measurand measurand, String what, OptionalDouble second) {
        return told(reason, own(reason, measurand), what, Channel.BOOSTED, second);
    }

    private Optional<CurveMark> ofInlet(
            Reason reason, Measurand measurand, String what, OptionalDouble second) {
        return told(reason, own(reason, measurand), what, Channel.INLET, second);
    }

    private OptionalDouble moves() {
        return startup.figure(Measurand.DEAD).value();
    }

    /** By how much the booster lifts, under strokes where there are any. */
    private Optional<CurveMark> lift(Reason reason) {
        Figure loaded = startup.figure(Measurand.LOADED);
        Figure level = loaded.isPresent() ? loaded : startup.topPsi();
        Figure running = startup.inletRunningPsi();
        double lift =
                level.isPresent() && running.isPresent()
                        ? level.get() - running.get()
                        : reason.value();
        return told(reason, lift, "lift", Channel.BOOSTED, stroking());
    }

    /** What the curve itself shows of it, beside the usual. */
    private Optional<CurveMark> told(
            Reason reason, double value, String what, Channel curve, OptionalDouble second) {
        return differsLikewise(value, reason)
                ? on(curve, second, said(what, value, reason))
                : Optional.empty();
    }

    /** What this start shows of it; what all that were looked at do, where it shows nothing. */
    private double own(Reason reason, Measurand measurand) {
        return startup.figure(measurand).value().orElse(reason.value());
    }

    /** After the stop, where that is known; else before the start. */
    private Optional<CurveMark> atRest(Reason reason) {
        return rest.filter(spell -> spell.boostedPsi().isPresent())
                .filter(spell -> spell.boostedPsi().get() > LEAST_BASE)
                .map(
                        spell ->
                                new CurveMark(
                                        Channel.BOOSTED,
                                        (spell.measuredAtMicros() - startup.startedAtMicros())
                                                / 1e6,
                                        spell.boostedPsi().get(),
                                        said("base", spell.boostedPsi().get(), reason)))
                .or(() -> base(reason));
    }

    /** A pressure that stays after a stop is there before the next start too. */
    private Optional<CurveMark> base(Reason reason) {
        Figure base = startup.figure(Measurand.BASE);
        return base.isPresent() && base.get() > LEAST_BASE
                ? on(Channel.BOOSTED, before(boosted), said("base", base.get(), reason))
                : Optional.empty();
    }

    /** Whether this start shows it too: as far from the usual, to the same side. */
    private static boolean differsLikewise(double value, Reason reason) {
        if (reason.usual().isEmpty()) {
            return true;
        }
        double usual = reason.usual().getAsDouble();
        double side = Math.signum(reason.value() - usual);
        return side * (value - usual) > LEAST_SHARE * Math.abs(usual);
    }

    private String said(String what, double value, Reason reason) {
        Measurand.Unit unit = reason.feature().measurand().unit();
        if (what.equals("base")) {
            return shown.say("mark.base", shown.pressure(value));
        }
        String mark = shown.say("mark." + what, shown.figure(unit, Figure.of(value)));
        return reason.usual().isEmpty()
                ? mark
                : shown.say(
                        "mark.usual",
                        mark,
                        shown.figure(unit, Figure.of(reason.usual().getAsDouble())));
    }

    /** By how much it climbs more slowly or faster; and that the fill before it is as ever. */
    private Optional<CurveMark> slower(Reason reason, OptionalDouble from) {
        boolean isRate = reason.feature().measurand() == Measurand.BOOST_RATE;
        double value = own(reason, reason.feature().measurand());
        if (!differsLikewise(value, reason)) {
            return Optional.empty();
        }
        if (reason.usual().isEmpty() || !(value > 0) || !(reason.usual().getAsDouble() > 0)) {
            return on(Channel.BOOSTED, from, said(isRate ? "rate" : "time", value, reason));
        }
        double times = value / reason.usual().getAsDouble();
        double slower = isRate ? 1 / times : times;
        String what =
                slower < 1
                        ? "mark.faster"
                        : fillIsNormal() ? "mark.slower-fill-normal" : "mark.slower";
        return on(
                Channel.BOOSTED,
                from,
                shown.say(what, shown.times(slower >= 1 ? slower : 1 / slower)));
    }

    private boolean fillIsNormal() {
        OptionalDouble own = fill(startup::figure);
        OptionalDouble usual = baseline.map(this::usualFill).orElse(OptionalDouble.empty());
        if (own.isEmpty() || usual.isEmpty() || !(usual.getAsDouble() > 0)) {
            return false;
        }
        double times = own.getAsDouble() / usual.getAsDouble();
        return times < NORMAL_FILL && times > 1 / NORMAL_FILL;
    }

    private OptionalDouble usualFill(Baseline known) {
        return fill(
                measurand ->
                        known.usual(measurand)
                                .map(usual -> Figure.of(usual.median()))
                                .orElse(NOT_KNOWN));
    }

    /** Seconds from the first movement until the boost begins. */
    private static OptionalDouble fill(Function<Measurand, Figure> figure) {
        Figure until = figure.apply(Measurand.START_TO_90);
        Figure boost = figure.apply(Measurand.RISE_FROM_INLET);
        Figure dead = figure.apply(Measurand.DEAD);
        return until.isPresent() && boost.isPresent() && dead.isPresent()
                ? OptionalDouble.of(until.get() - boost.get() - dead.get())
                : OptionalDouble.empty();
    }

    private OptionalDouble boostBegins() {
        OptionalDouble begins = before90(startup.riseFromInletSeconds());
        return begins.isPresent() ? begins : riseBegins();
    }

    private OptionalDouble riseBegins() {
        return before90(startup.riseSeconds());
    }

    private OptionalDouble before90(Figure seconds) {
        return startup.startTo90Seconds().isPresent() && seconds.isPresent()
                ? OptionalDouble.of(startup.startTo90Seconds().get() - seconds.get())
                : OptionalDouble.empty();
    }

    /** Well before the start, where that is kept. */
    private static OptionalDouble before(Trace trace) {
        return trace.size() == 0
                ? OptionalDouble.empty()
                : OptionalDouble.of(Math.max(trace.second(0), BEFORE_THE_START));
    }

    /** The last second of it that was measured. */
    private OptionalDouble end(Trace trace) {
        if (trace.size() == 0) {
            return OptionalDouble.empty();
        }
        double measured = (startup.measuredAtMicros() - startup.startedAtMicros()) / 1e6;
        return OptionalDouble.of(Math.min(measured, trace.second(trace.size() - 1)));
    }

    /** Where the pressure stands after the climb, before strokes. */
    private OptionalDouble standing() {
        OptionalDouble until = onset().isPresent() ? onset() : end(boosted);
        Figure risen = startup.startTo90Seconds();
        return until.isPresent() && risen.isPresent()
                ? OptionalDouble.of((until.getAsDouble() + risen.get()) / 2)
                : until;
    }

    /** In the middle of what is seen under strokes. */
    private OptionalDouble stroking() {
        OptionalDouble end = end(boosted);
        OptionalDouble from = onset().isPresent() ? onset() : standing();
        return end.isPresent() && from.isPresent()
                ? OptionalDouble.of((from.getAsDouble() + end.getAsDouble()) / 2)
                : end;
    }

    /** Where the level is half lost after the climb; empty where it is not. */
    private OptionalDouble onset() {
        Figure unloaded = startup.figure(Measurand.UNLOADED);
        Figure drop = startup.figure(Measurand.DROP);
        Figure risen = startup.startTo90Seconds();
        if (!unloaded.isPresent() || !drop.isPresent() || !risen.isPresent()) {
            return OptionalDouble.empty();
        }
        boolean stood = false;
        for (int i = 0; i < boosted.size(); i++) {
            double below = unloaded.get() - boosted.psi(i);
            boolean isLater = boosted.second(i) > risen.get();
            stood |= isLater && below < drop.get() / 4;
            if (stood && isLater && below > drop.get() / 2) {
                return OptionalDouble.of(boosted.second(i));
            }
        }
        return OptionalDouble.empty();
    }

    private OptionalDouble highest() {
        int highest = highestIndex();
        return highest < 0 ? OptionalDouble.empty() : OptionalDouble.of(boosted.second(highest));
    }

    /** Where half of what lies between the highest point and the level under strokes is lost. */
    private OptionalDouble givesWay() {
        double half = startup.figure(Measurand.PEAK_DROP).orElse(0) / 2;
        int highest = highestIndex();
        for (int i = Math.max(0, highest); i < boosted.size(); i++) {
            if (boosted.psi(highest) - boosted.psi(i) > half) {
                return OptionalDouble.of(boosted.second(i));
            }
        }
        return highest();
    }

    private int highestIndex() {
        int highest = -1;
        for (int i = 0; i < boosted.size(); i++) {
            if (highest < 0 || boosted.psi(i) > boosted.psi(highest)) {
                highest = i;
            }
        }
        return highest;
    }

    private OptionalDouble lowestOfRise() {
        double until = startup.startTo90Seconds().value().orElse(Double.POSITIVE_INFINITY);
        int lowest = -1;
        for (int i = 0; i < inlet.size(); i++) {
            boolean isIn = inlet.second(i) >= 0 && inlet.second(i) <= until;
            if (isIn && (lowest < 0 || inlet.psi(i) < inlet.psi(lowest))) {
                lowest = i;
            }
        }
        return lowest < 0 ? OptionalDouble.empty() : OptionalDouble.of(inlet.second(lowest));
    }

    /** On the curve at this time; empty where it is not drawn there. */
    private Optional<CurveMark> on(Channel curve, OptionalDouble second, String text) {
        Trace trace = curve == Channel.INLET ? inlet : boosted;
        if (second.isEmpty() || trace.size() == 0) {
            return Optional.empty();
        }
        double at = second.getAsDouble();
        int i = 0;
        while (i + 1 < trace.size() && trace.second(i + 1) <= at) {
            i++;
        }
        boolean isDrawn =
                at >= trace.second(0) - APART && at <= trace.second(trace.size() - 1) + APART;
        return isDrawn
                ? Optional.of(new CurveMark(curve, at, trace.psi(i), text))
                : Optional.empty();
    }
}
