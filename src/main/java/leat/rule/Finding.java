package leat.rule;

import static java.util.Objects.requireNonNull;

import java.util.List;
import leat.measure.Figure;
import leat.signal.Channel;

/**
 * What a rule found: the measured value against its limit.
 *
 * @param rule the rule that found it
 * @param channel the channel it is about
 * @param grade how grave
 * @param sinceMicros since when the condition has held, microseconds UTC; before {@code atMicros}
 *     by the on-delay
 * @param atMicros when it was found, microseconds UTC
 * @param quantity what {@code measured} and {@code limit} are
 * @param measured the value judged; psi, psi per second, seconds or a plain ratio
 * @param limit the limit it broke, in the same unit
 * @param sense whether the value must not be below or above the limit
 * @param inletPsi what the inlet gauge read at that time
 * @param boostedPsi what the boosted gauge read at that time
 * @param remarks further facts, the most telling first; may be empty
 */
public record Finding(
        Rule rule,
        Channel channel,
        Grade grade,
        long sinceMicros,
        long atMicros,
        Quantity quantity,
        double measured,
        double limit,
        Sense sense,
        Figure inletPsi,
        Figure boostedPsi,
        List<Remark> remarks) {

    /** What a finding's numbers measure. */
    public enum Quantity {
        PRESSURE_PSI,
        PRESSURE_PSI_PER_SECOND,
        TIME_SECONDS,
        RATIO
    }

    /** On which side of the limit good values lie. */
    public enum Sense {
        AT_LEAST,
        AT_MOST
    }

    public Finding {
        requireNonNull(rule, "rule");
        requireNonNull(channel, "channel");
        requireNonNull(grade, "grade");
        requireNonNull(quantity, "quantity");
        requireNonNull(sense, "sense");
        requireNonNull(inletPsi, "inletPsi");
        requireNonNull(boostedPsi, "boostedPsi");
        remarks = List.copyOf(remarks);
        if (!Double.isFinite(measured) || !Double.isFinite(limit)) {
            throw new IllegalArgumentException(
                    rule + ": measured " + measured + ", limit " + limit);
        }
    }

    /**
     * Whether nothing comes from a channel: that is power or network, and says nothing of the line
     * or of the gauge's loop, for one that is open is read, and BAD.
     */
    public boolean isOfSilence() {
        return rule == Rule.SIGNAL_MISSING && quantity == Quantity.TIME_SECONDS;
    }

    /** The same finding by a clock that was set by so much since. */
    public Finding moved(long byMicros) {
        return new Finding(
                rule,
                channel,
                grade,
                sinceMicros + byMicros,
                atMicros + byMicros,
                quantity,
                measured,
                limit,
                sense,
                inletPsi,
                boostedPsi,
                remarks);
    }

    /** The same finding with what the gauges read later. */
    public Finding asOf(Figure inletNowPsi, Figure boostedNowPsi, List<Remark> now) {
        return new Finding(
                rule,
                channel,
                grade,
                sinceMicros,
                atMicros,
                quantity,
                measured,
                limit,
                sense,
                inletNowPsi,
                boostedNowPsi,
                now);
    }
}
