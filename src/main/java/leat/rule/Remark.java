package leat.rule;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.stream.DoubleStream;
import leat.measure.Figure;
import leat.measure.Measurand;
import leat.measure.absence.Absence;
import leat.phase.PhaseReason;
import leat.signal.PlainText;
import leat.signal.Quality;

/**
 * A further fact to a finding or to its end, not yet in words: in which language and unit it is
 * said is no business of the rules. Immutable.
 *
 * @param kind what it says
 * @param numbers the numbers in it, in psi, seconds, plain ratios or counts, as the kind orders
 *     them; all finite
 * @param about the key of a {@link Measurand}, {@link Quality}, {@link PhaseReason} or {@link
 *     Absence}, or what a link reported, made harmless; else empty
 */
public record Remark(Kind kind, List<Double> numbers, String about) {

    /** What can be said beside the measured value and its limit. */
    public enum Kind {
        /** What somebody else reported, in their own words. */
        REPORTED("reported", 0),
        /** What is wrong with the readings of a channel. */
        QUALITY("quality", 0),
        /** The boost over the inlet as the weak boost ended. */
        RATIO_NOW("ratio-now", 1),
        /** The rise and what it may take, seconds, as the slow rise ended. */
        RISE_NOW("rise-now", 2),
        /** No rise time is known, but 90 % was reached within these seconds. */
        FAST_ENOUGH("fast-enough", 1),
        /** What a rise may take: so many times its own usual rise, instead of the limit. */
        OWN_RISE("own-rise", 3),
        /** So many seconds after the start. */
        NOT_RISEN("not-risen", 1),
        RISEN_LATE("risen-late", 0),
        /** Without a valve contact: the water may have been left on. */
        NO_VALVE_SIGNAL("no-valve-signal", 0),
        /** Without a run signal: the booster may be meant to run. */
        NO_RUN_SIGNAL("no-run-signal", 0),
        /** The line keeps its pressure by its build and is not judged at rest. */
        NO_BLEED("no-bleed", 0),
        /** A measurand, what it usually is, and the share by which it is less. */
        SHARE_LESS("share-less", 3),
        /** A measurand, what it usually is, and the share by which it is more. */
        SHARE_MORE("share-more", 3),
        /** A measurand, what it usually is, and by how much it is more. */
        MORE("more", 3),
        /** So many starts running differ, against a baseline of so many. */
        STARTS_RUNNING("starts-running", 2),
        /** What is compared is of a run, and not of its start. */
        OVER_THE_RUN("over-the-run", 0),
        LEARNED_ANEW("learned-anew", 0),
        AS_USUAL("as-usual", 0),
        /** The same to the last bit while the other gauge moves. */
        STANDS_STILL("stands-still", 0),
        /** The same to the last bit; before that never for longer than so many seconds. */
        NEVER_SO_STILL("never-so-still", 1),
        /** A channel that has never read right since leat knows it. */
        NEVER_RIGHT("never-right", 0),
        /** It has read only this, psi, although the booster has run. */
        NEVER_MOVED("never-moved", 1),
        /** What inlet and boosted read at rest, psi. */
        SWAPPED_AT_REST("swapped-at-rest", 2),
        /** No reading has come, and no source has said why. */
        NO_PRESENT_TIME("no-present-time", 0),
        /** The sensor's clock is ahead of the computer's. */
        CLOCK_AHEAD("clock-ahead", 0),
        CLOCK_BEHIND("clock-behind", 0),
        /** Of a start: boosted over inlet at its top, which is no boost. */
        NO_BOOST("no-boost", 1),
        /** Of a start without an inlet gauge: its level, which may be the supply's alone. */
        NO_BOOST_ALONE("no-boost-alone", 1),
        /** Of a slow start: the how manieth of so many in which air may still purge. */
        PURGING("purging", 2),
        /** Of a slow start: the only one of the last three. */
        FIRST_SLOW("first-slow", 0),
        /** Of a start that did not rise: the inlet was starved, whose own rule calls. */
        STARVED("starved", 0),
        /** Of a start: a measurand that differed in so many starts running; it takes so many. */
        UNUSUAL("unusual", 2),
        /** Of a start that is not judged: a reading stands still. */
        READING_STUCK("reading-stuck", 0),
        /** Of a start that is not judged: a channel has never read right, or reads another's. */
        READING_DOUBTED("reading-doubted", 0),
        /** Of a start that is not judged: stopped after so many seconds, and the phase's reason. */
        BROKEN_OFF("broken-off", 1),
        /** Of a start that is not judged: the phase's reason for which it was cut short. */
        CUT_SHORT("cut-short", 0),
        /** Of a start: why there is no rise time. */
        NO_RISE_TIME("no-rise-time", 0),
        /** Found by the mean of a run of so many seconds. */
        MEAN_OF_RUN("mean-of-run", 1),
        /** Found with the jet on. */
        JET_ON("jet-on", 0),
        JET_OFF("jet-off", 0),
        /** Found while the machine was in service. */
        AFRESH_AFTER_SERVICE("afresh-after-service", 0),
        /** What leat knew of the machine is lost to it. */
        AFRESH_WITHOUT_PAST("afresh-without-past", 0);

        private final String key;
        private final int numbers;

        Kind(String key, int numbers) {
            this.key = key;
            this.numbers = numbers;
        }

        /** Its name in the store and among the phrases, such as {@code ratio-now}. */
        public String key() {
            return key;
        }
    }

    public Remark {
        requireNonNull(kind, "kind");
        numbers = List.copyOf(numbers);
        about = PlainText.harmless(requireNonNull(about, "about"));
        if (numbers.size() != kind.numbers
                || !numbers.stream().allMatch(number -> Double.isFinite(number))) {
            throw new IllegalArgumentException(kind + " with " + numbers);
        }
    }

    /** One that is about nothing in particular. */
    public static Remark of(Kind kind, double... numbers) {
        return new Remark(kind, DoubleStream.of(numbers).boxed().toList(), "");
    }

    static Remark about(Measurand measurand, Kind kind, double... numbers) {
        return new Remark(kind, DoubleStream.of(numbers).boxed().toList(), measurand.key());
    }

    static Remark about(Quality quality) {
        return new Remark(Kind.QUALITY, List.of(), quality.key());
    }

    /** A start was stopped in its climb. */
    static Remark brokenOff(double seconds, PhaseReason by) {
        return new Remark(Kind.BROKEN_OFF, List.of(seconds), by.key());
    }

    /** A start was cut short. */
    static Remark cutShort(PhaseReason by) {
        return new Remark(Kind.CUT_SHORT, List.of(), by.key());
    }

    /** A start has no rise time. */
    static Remark noRiseTime(Figure rise) {
        return new Remark(Kind.NO_RISE_TIME, List.of(), rise.absentBecause().key());
    }

    /** What somebody else reported; nothing when they said nothing. */
    static List<Remark> reported(String words) {
        return words.isBlank() ? List.of() : List.of(new Remark(Kind.REPORTED, List.of(), words));
    }
}
