package leat.words;

import java.util.List;
import leat.measure.Measurand;
import leat.rule.Remark;
import leat.signal.PlainText;

/** Further facts to a finding or a start, in words. Immutable. */
final class RemarkWords {

    private static final int LONGEST_REMARK = 1000;

    private final Phrases phrases;
    private final Numbers numbers;

    RemarkWords(Phrases phrases, Numbers numbers) {
        this.phrases = phrases;
        this.numbers = numbers;
    }

    String ratio(double value) {
        return phrases.say("ratio", numbers.number(value, 2));
    }

    String say(Remark remark) {
        return say("remark." + remark.kind().key(), remark);
    }

    /**
     * @param key of the phrase for a remark of this kind
     */
    String say(String key, Remark remark) {
        List<Double> n = remark.numbers();
        return switch (remark.kind()) {
            case REPORTED ->
                    phrases.say(
                            key,
                            PlainText.harmless(
                                    new FaultWords(phrases).of(remark.about()), LONGEST_REMARK));
            case QUALITY -> phrases.say("quality." + remark.about());
            case RATIO_NOW -> phrases.say(key, ratio(n.get(0)));
            case RISE_NOW ->
                    phrases.say(key, numbers.seconds(n.get(0), 2), numbers.seconds(n.get(1), 1));
            case NO_BOOST -> phrases.say(key, numbers.number(n.get(0), 2));
            case NO_BOOST_ALONE -> phrases.say(key, numbers.pressure(n.get(0)));
            case UNUSUAL -> unusual(key, remark);
            case BROKEN_OFF ->
                    phrases.say(
                            key,
                            numbers.seconds(n.get(0), 1),
                            phrases.say("phase-reason." + remark.about()));
            case CUT_SHORT -> phrases.say(key, phrases.say("phase-reason." + remark.about()));
            case NO_RISE_TIME -> phrases.say(key, phrases.say("absence." + remark.about()));
            case FAST_ENOUGH, NOT_RISEN, NEVER_SO_STILL ->
                    phrases.say(key, numbers.seconds(n.get(0), 1));
            case OWN_RISE ->
                    phrases.say(
                            key,
                            numbers.number(n.get(0), 1),
                            numbers.seconds(n.get(1), 2),
                            numbers.seconds(n.get(2), 1));
            case SHARE_LESS, SHARE_MORE -> compared(key, remark, numbers.number(100 * n.get(2), 0));
            case MORE -> compared(key, remark, figure(remark, n.get(2)));
            case STARTS_RUNNING ->
                    phrases.say(
                            n.get(0) > 1 ? key : key + ".one",
                            numbers.number(n.get(0), 0),
                            numbers.number(n.get(1), 0));
            case PURGING ->
                    phrases.say(key, numbers.number(n.get(0), 0), numbers.number(n.get(1), 0));
            case NEVER_MOVED -> phrases.say(key, numbers.pressure(n.get(0)));
            case SWAPPED_AT_REST ->
                    phrases.say(key, numbers.pressure(n.get(0)), numbers.pressure(n.get(1)));
            case MEAN_OF_RUN -> phrases.say(key, numbers.span(n.get(0)));
            case FIRST_SLOW,
                    STARVED,
                    READING_STUCK,
                    READING_DOUBTED,
                    NEVER_RIGHT,
                    RISEN_LATE,
                    NO_VALVE_SIGNAL,
                    NO_RUN_SIGNAL,
                    NO_BLEED,
                    OVER_THE_RUN,
                    LEARNED_ANEW,
                    AS_USUAL,
                    STANDS_STILL,
                    NO_PRESENT_TIME,
                    CLOCK_AHEAD,
                    CLOCK_BEHIND,
                    JET_ON,
                    JET_OFF,
                    AFRESH_AFTER_SERVICE,
                    AFRESH_WITHOUT_PAST ->
                    phrases.say(key);
        };
    }

    private String compared(String key, Remark remark, String difference) {
        return phrases.say(
                key,
                measurand(remark),
                figure(remark, remark.numbers().get(0)),
                figure(remark, remark.numbers().get(1)),
                difference);
    }

    private String unusual(String key, Remark remark) {
        double running = remark.numbers().get(0);
        double needed = remark.numbers().get(1);
        String enough = running > 1 ? ".enough" : ".one";
        return phrases.say(
                running < needed ? key : key + enough,
                measurand(remark),
                numbers.number(running, 0),
                numbers.number(needed, 0));
    }

    private String measurand(Remark remark) {
        return phrases.say("measurand." + remark.about());
    }

    private String figure(Remark remark, double value) {
        return Measurand.byKey(remark.about())
                .map(measurand -> figure(measurand.unit(), value))
                .orElseGet(() -> numbers.pressure(value));
    }

    private String figure(Measurand.Unit unit, double value) {
        return switch (unit) {
            case TIME -> numbers.seconds(value, 2);
            case PRESSURE_RATE -> numbers.slope(value);
            case PRESSURE, RATIO, PERCENT, FREQUENCY -> numbers.pressure(value);
        };
    }
}
