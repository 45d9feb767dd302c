package leat.bench.recording;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.time.LocalDateTime;
import leat.bench.scenario.Scenario;

/**
 * What is to be recorded. Immutable.
 *
 * @param scenario what is played
 * @param machine which of its machines
 * @param from time of day at which it begins, UTC
 * @param length how long it is, above 0
 * @param rateHz rows a second, 1 to 100
 * @param restHz rows a second while the machine rests, 1 to {@code rateHz}
 */
public record Plan(
        Scenario scenario,
        String machine,
        LocalDateTime from,
        Duration length,
        double rateHz,
        double restHz) {

    public Plan {
        requireNonNull(from, "from");
        if (!scenario.machineNames().contains(machine)) {
            throw new IllegalArgumentException(
                    machine + " is no machine of it; there are " + scenario.machineNames());
        }
        if (length.isZero() || length.isNegative()) {
            throw new IllegalArgumentException("a recording needs a length above 0: " + length);
        }
        if (!(rateHz >= 1 && rateHz <= 100)) {
            throw new IllegalArgumentException("the rate is " + rateHz + ", allowed is 1 to 100");
        }
        if (!(restHz >= 1 && restHz <= rateHz)) {
            throw new IllegalArgumentException(
                    "the rate at rest is " + restHz + ", allowed is 1 to " + rateHz);
        }
    }
}
