package leat.words;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import leat.diagnose.Advice;
import leat.measure.ClimbRemark;
import leat.measure.Measurand;
import leat.measure.absence.Absence;
import leat.phase.PhaseReason;
import leat.rule.Finding;
import leat.rule.Finding.Quantity;
import leat.rule.Finding.Sense;
import leat.rule.Grade;
import leat.rule.Learning;
import leat.rule.Rule;
import leat.rule.StartupVerdict;
import leat.signal.Channel;

/** What a rule found, in words. Immutable. */
public final class FindingWords {

    private final Phrases phrases;
    private final Numbers numbers;
    private final RemarkWords remarks;

    public FindingWords(Phrases phrases, Numbers numbers) {
        this.phrases = requireNonNull(phrases, "phrases");
        this.numbers = requireNonNull(numbers, "numbers");
        remarks = new RemarkWords(phrases, numbers);
    }

    /** The word for a grade, such as {@code WARNING}. */
    public String grade(Grade grade) {
        return phrases.say("grade." + key(grade));
    }

    /** How soon somebody must act. */
    public String meaning(Grade grade) {
        return phrases.say("grade." + key(grade) + ".meaning");
    }

    /** What a finding of this rule and grade means, without its channel. */
    public String title(Rule rule, Grade grade) {
        String ofGrade = "rule." + rule.key() + "." + key(grade);
        return phrases.say(phrases.has(ofGrade) ? ofGrade : "rule." + rule.key());
    }

    /** What was found, in a few words; of a rule about signals with the channel. */
    public String what(Finding finding) {
        return finding.rule() == Rule.SIGNAL_MISSING && finding.quantity() == Quantity.RATIO
                ? ofChannel(finding.channel(), phrases.say("rule.signal-missing.share"))
                : what(finding.rule(), finding.channel(), finding.grade());
    }

    String what(Rule rule, Channel channel, Grade grade) {
        String own = "rule." + rule.key() + "." + channel.key();
        String title = phrases.has(own) ? phrases.say(own) : title(rule, grade);
        return rule.isAboutSignal() && rule != Rule.SIGNAL_SWAPPED
                ? ofChannel(channel, title)
                : title;
    }

    private String ofChannel(Channel channel, String title) {
        return phrases.say("rule.of-channel", channel(channel), title);
    }

    /** The name of the number that was judged. */
    public String judged(Finding finding) {
        return switch (finding.quantity()) {
            case PRESSURE_PSI -> pressure(finding);
            case PRESSURE_PSI_PER_SECOND -> phrases.say("judged.slope");
            case RATIO ->
                    finding.rule() == Rule.SIGNAL_MISSING
                            ? phrases.say("judged.share", channel(finding.channel()))
                            : phrases.say("judged.ratio");
            case TIME_SECONDS ->
                    switch (finding.rule()) {
                        case SIGNAL_MISSING, SIGNAL_BAD ->
                                phrases.say("judged.silent", channel(finding.channel()));
                        case SIGNAL_STUCK ->
                                phrases.say("judged.stuck", channel(finding.channel()));
                        case SIGNAL_CLOCK ->
                                phrases.say("judged.clock", channel(finding.channel()));
                        case RISE -> phrases.say("judged.rise");
                        case RATIO,
                                LEVEL_LOW,
                                LEVEL_HIGH,
                                REST,
                                INLET,
                                BASELINE,
                                FILTER_LOSS,
                                SIGNAL_SWAPPED ->
                                phrases.say("judged.time");
                    };
        };
    }

    private String pressure(Finding finding) {
        if (finding.rule() == Rule.FILTER_LOSS) {
            return phrases.say("judged.filter-loss");
        }
        return finding.rule() == Rule.BASELINE || !finding.channel().isPressure()
                ? phrases.say("judged.pressure-of-start")
                : phrases.say("pressure." + finding.channel().key());
    }

    /** The value that was judged, with its unit. */
    public String measured(Finding finding) {
        return quantity(finding, finding.measured());
    }

    /** What the value should be, with its unit. */
    public String limit(Finding finding) {
        String limit = quantity(finding, finding.limit());
        return phrases.say(
                finding.sense() == Sense.AT_LEAST ? "limit.at-least" : "limit.at-most", limit);
    }

    /**
     * What was measured beside the limit that it broke, in as little room as can be, such as {@code
     * 74.8 < 80.0 psi}; the unit stands once where both have it, and of a ratio not at all.
     */
    public String beside(Finding finding) {
        String sign = finding.sense() == Sense.AT_LEAST ? " < " : " > ";
        if (finding.quantity() == Quantity.RATIO && finding.rule() != Rule.SIGNAL_MISSING) {
            return numbers.number(finding.measured(), 2)
                    + sign
                    + numbers.number(finding.limit(), 2);
        }
        String measured = measured(finding);
        String limit = quantity(finding, finding.limit());
        String unit = limit.substring(limit.lastIndexOf(' ') + 1);
        return (measured.endsWith(" " + unit) ? without(unit, measured) : measured) + sign + limit;
    }

    private static String without(String unit, String quantity) {
        return quantity.substring(0, quantity.length() - unit.length() - 1);
    }

    /** What the two dial gauges should show, for a person in front of them. */
    public Optional<String> gauges(Finding finding) {
        if (!finding.boostedPsi().isPresent()) {
            return Optional.empty();
        }
        if (finding.inletPsi().absence().equals(Optional.of(Absence.NO_INLET_GAUGE))) {
            return Optional.of(
                    phrases.say(
                            "gauges.boosted-alone", numbers.pressure(finding.boostedPsi().get())));
        }
        if (!finding.inletPsi().isPresent()) {
            return Optional.empty();
        }
        return Optional.of(
                phrases.say(
                        "gauges",
                        numbers.pressure(finding.inletPsi().get()),
                        numbers.pressure(finding.boostedPsi().get())));
    }

    /** The further facts in one line; empty when there are none. */
    public String remarks(Finding finding) {
        return String.join("; ", finding.remarks().stream().map(remarks::say).toList());
    }

    /** How a start was judged: the figure and the limit, or why it was not judged. */
    public String note(StartupVerdict verdict) {
        return new VerdictWords(phrases, remarks).note(verdict);
    }

    /** The words for the verdict on a run. */
    public RunWords runs() {
        return new RunWords(phrases, this);
    }

    /** What showed that the line went from one phase to another. */
    public String reason(PhaseReason reason) {
        return phrases.say("phase-reason." + reason.key());
    }

    /** The name of a number of a start, in a few words. */
    public String title(Measurand measurand) {
        return phrases.say("measurand." + measurand.key());
    }

    /** How far a baseline has been learned, and why there is none. */
    public String learning(Learning learning) {
        return phrases.say(
                "learning." + learning.cause().name().toLowerCase(Locale.ROOT),
                numbers.number(learning.good(), 0),
                numbers.number(learning.wanted(), 0));
    }

    /** Why there is no figure. */
    public String absence(Absence absence) {
        return phrases.say("absence." + absence.key());
    }

    /** What a person should know of how a start was measured; a whole sentence. */
    public String climb(ClimbRemark remark) {
        return phrases.say("climb." + remark.kind().key());
    }

    /** What to look at, the likeliest and cheapest check first. */
    public List<String> checks(Finding finding) {
        String key = Advice.on(finding).key();
        List<String> checks = new ArrayList<>();
        for (int i = 1; phrases.has("advice." + key + "." + i); i++) {
            checks.add(phrases.say("advice." + key + "." + i));
        }
        return List.copyOf(checks);
    }

    /** What to do before any hands-on check. */
    public String caution() {
        return phrases.say("advice.caution");
    }

    private String channel(Channel channel) {
        return phrases.say("channel." + channel.key());
    }

    private String quantity(Finding finding, double value) {
        return switch (finding.quantity()) {
            case PRESSURE_PSI -> numbers.pressure(value);
            case PRESSURE_PSI_PER_SECOND -> numbers.slope(value);
            case TIME_SECONDS -> numbers.span(value);
            case RATIO ->
                    finding.rule() == Rule.SIGNAL_MISSING
                            ? phrases.say("share", numbers.number(100 * value, 0))
                            : remarks.ratio(value);
        };
    }

    private static String key(Grade grade) {
        return grade.name().toLowerCase(Locale.ROOT);
    }
}
