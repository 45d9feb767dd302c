package leat.rule;

import static java.util.Objects.requireNonNull;

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
 * @param measured the value judged; psi, seconds or a plain ratio
 * @param limit the limit it broke, in the same unit
 * @param sense whether the value must not be below or above the limit
 * @param detail further measured facts in plain words, pressures in psi; may be empty
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
        String detail) {

    /** What a finding's numbers measure. */
    public enum Quantity {
        PRESSURE_PSI,
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
        requireNonNull(detail, "detail");
        if (!Double.isFinite(measured) || !Double.isFinite(limit)) {
            throw new IllegalArgumentException(
                    rule + ": measured " + measured + ", limit " + limit);
        }
    }
}
