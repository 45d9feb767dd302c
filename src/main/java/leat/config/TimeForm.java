package leat.config;

import static java.util.Objects.requireNonNull;

import java.math.BigDecimal;
import java.time.Duration;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * A span of time with its unit.
 *
 * @param shortest shortest allowed
 * @param longest longest allowed
 * @param step must divide it without rest
 */
record TimeForm(Duration shortest, Duration longest, Duration step) implements Form<Duration> {

    /** From the longest to the shortest. */
    private static final Map<String, Duration> UNITS = new LinkedHashMap<>();

    private static final Map<String, String> OTHER_WORDS =
            Map.of(
                    "m", "min (minutes) or ms (milliseconds)",
                    "sec", "s",
                    "secs", "s",
                    "seconds", "s",
                    "minutes", "min",
                    "hr", "h",
                    "hours", "h",
                    "days", "d",
                    "msec", "ms");

    static {
        UNITS.put("d", Duration.ofDays(1));
        UNITS.put("h", Duration.ofHours(1));
        UNITS.put("min", Duration.ofMinutes(1));
        UNITS.put("s", Duration.ofSeconds(1));
        UNITS.put("ms", Duration.ofMillis(1));
    }

    TimeForm {
        requireNonNull(shortest, "shortest");
        requireNonNull(longest, "longest");
        requireNonNull(step, "step");
    }

    static TimeForm of(Duration shortest, Duration longest) {
        return new TimeForm(shortest, longest, Duration.ofMillis(1));
    }

    /** Whole seconds only. */
    static TimeForm wholeSeconds(Duration shortest, Duration longest) {
        return new TimeForm(shortest, longest, Duration.ofSeconds(1));
    }

    /** Read into seconds, as limits are. */
    static Form<Double> inSeconds(double shortest, double longest) {
        return new AdaptedForm<>(
                of(duration(shortest), duration(longest)), TimeForm::seconds, TimeForm::duration);
    }

    private static double seconds(Duration time) {
        return time.toMillis() / 1e3;
    }

    private static Duration duration(double seconds) {
        return Duration.ofMillis(Math.round(seconds * 1e3));
    }

    @Override
    public Optional<Duration> read(Cursor at) {
        Optional<String> text = at.text(allowed());
        if (text.isEmpty()) {
            return Optional.empty();
        }
        String what = Cursor.quote(text.get());
        Optional<Amount> amount = Amount.parse(text.get());
        if (amount.isEmpty()) {
            boolean comma = Amount.hasDecimalComma(text.get());
            at.wrong(
                    what + " is not a time",
                    allowed() + (comma ? ". Write a decimal point, not a comma" : ""));
            return Optional.empty();
        }
        Optional<Duration> unit = unitOf(at, amount.get(), what);
        return unit.flatMap(u -> inRange(at, amount.get(), u, what));
    }

    private Optional<Duration> unitOf(Cursor at, Amount amount, String what) {
        if (amount.unit().isEmpty()) {
            String number = amount.number();
            at.wrong(
                    what + " has no unit",
                    "write " + number + " ms, " + number + " s, or whatever it is; " + allowed());
            return Optional.empty();
        }
        Optional<Duration> unit = Optional.ofNullable(UNITS.get(amount.unit()));
        if (unit.isEmpty()) {
            String meant =
                    Optional.ofNullable(OTHER_WORDS.get(amount.unit()))
                            .map(w -> " Did you mean " + w + "?")
                            .orElse(Spelling.didYouMean(amount.unit(), UNITS.keySet()));
            at.wrong(what + " has a unit that is not known", "units: " + unit() + "." + meant);
        }
        return unit;
    }

    private Optional<Duration> inRange(Cursor at, Amount amount, Duration unit, String what) {
        double seconds = amount.value() * seconds(unit);
        double slack = 1e-9; // the exact comparison follows; this one keeps huge numbers out
        if (!(seconds >= seconds(shortest) - slack && seconds <= seconds(longest) + slack)) {
            at.wrong(what + " is out of range", allowed());
            return Optional.empty();
        }
        BigDecimal nanos =
                new BigDecimal(amount.number()).multiply(BigDecimal.valueOf(unit.toNanos()));
        BigDecimal stepNanos = BigDecimal.valueOf(step.toNanos());
        if (nanos.remainder(stepNanos).signum() != 0) {
            at.wrong(what + " is too fine", "whole multiples of " + print(step));
            return Optional.empty();
        }
        return Optional.of(Duration.ofNanos(nanos.longValueExact()));
    }

    private String allowed() {
        return "a time from " + min() + " to " + max() + " (units: " + unit() + ")";
    }

    @Override
    public String print(Duration value) {
        for (Map.Entry<String, Duration> unit : UNITS.entrySet()) {
            long nanos = unit.getValue().toNanos();
            if (value.toNanos() % nanos == 0 && !value.isZero()) {
                return value.toNanos() / nanos + " " + unit.getKey();
            }
        }
        return Plain.number(value.toMillis() / 1e3) + " s";
    }

    @Override
    public String unit() {
        return "ms, s, min, h, d";
    }

    @Override
    public String min() {
        return print(shortest);
    }

    @Override
    public String max() {
        return print(longest);
    }

    @Override
    public Map<String, Object> schema() {
        return Map.of(
                "type", "string", "pattern", QuantityForm.pattern(List.copyOf(UNITS.keySet())));
    }
}
