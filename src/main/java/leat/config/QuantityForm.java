package leat.config;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.DoubleUnaryOperator;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import leat.signal.PressureUnit;

/**
 * A number with a unit that must be written out. Read into the first of its units.
 *
 * @param noun what it measures, such as {@code pressure}
 * @param units the units allowed; the first is the one used inside leat
 * @param smallest smallest allowed, in the first unit
 * @param largest largest allowed, in the first unit
 */
record QuantityForm(String noun, List<Unit> units, double smallest, double largest)
        implements Form<Double> {

    /**
     * What is typed in bar must give the very number that its equal in psi gives: rounding to a
     * billionth takes away what the conversion adds in the last bits.
     */
    private static final double GRAIN = 1e9;

    QuantityForm {
        requireNonNull(noun, "noun");
        units = List.copyOf(units);
    }

    /** Gauge pressure, into psi. */
    static QuantityForm pressure(double smallestPsi, double largestPsi) {
        return new QuantityForm("pressure", pressureUnits(""), smallestPsi, largestPsi);
    }

    /** Change of a pressure, into psi per second. */
    static QuantityForm pressureRate(double smallestPsi, double largestPsi) {
        return new QuantityForm("pressure rate", pressureUnits("/s"), smallestPsi, largestPsi);
    }

    /** Loop current, in mA. */
    static QuantityForm current(double smallestMa, double largestMa) {
        Unit milliamps = new Unit("mA", x -> x, x -> x);
        return new QuantityForm("loop current", List.of(milliamps), smallestMa, largestMa);
    }

    private static List<Unit> pressureUnits(String per) {
        return Stream.of(PressureUnit.values())
                .map(u -> new Unit(u.symbol() + per, u::toPsi, u::fromPsi))
                .toList();
    }

    @Override
    public Optional<Double> read(Cursor at) {
        Optional<String> text = at.text(allowed(units.get(0)));
        if (text.isEmpty()) {
            return Optional.empty();
        }
        String what = Cursor.quote(text.get());
        Optional<Amount> amount = Amount.parse(text.get());
        if (amount.isEmpty()) {
            String comma =
                    Amount.hasDecimalComma(text.get())
                            ? ". Write a decimal point, not a comma"
                            : "";
            at.wrong(what + " is not a " + noun, allowed(units.get(0)) + comma);
            return Optional.empty();
        }
        return inUnit(at, amount.get(), what);
    }

    private Optional<Double> inUnit(Cursor at, Amount amount, String what) {
        if (amount.unit().isEmpty()) {
            String examples =
                    units.stream()
                            .map(u -> amount.number() + " " + u.symbol())
                            .collect(Collectors.joining(" or "));
            at.wrong(what + " has no unit", "write " + examples);
            return Optional.empty();
        }
        Optional<Unit> unit =
                units.stream().filter(u -> u.symbol().equals(amount.unit())).findFirst();
        if (unit.isEmpty()) {
            at.wrong(
                    what + " has a unit that is not known",
                    "units: " + unit() + "." + didYouMean(amount.unit()));
            return Optional.empty();
        }
        double value = round(unit.get().toBase().applyAsDouble(amount.value()));
        if (!(value >= smallest && value <= largest)) {
            at.wrong(what + " is out of range", allowed(unit.get()));
            return Optional.empty();
        }
        return Optional.of(value);
    }

    /** Somebody who writes psi for psi/s meant that. */
    private String didYouMean(String unit) {
        return symbols().stream()
                .filter(symbol -> symbol.startsWith(unit + "/"))
                .findFirst()
                .map(symbol -> " Did you mean " + symbol + "?")
                .orElse(Spelling.didYouMean(unit, symbols()));
    }

    private static double round(double value) {
        return Math.rint(value * GRAIN) / GRAIN;
    }

    /** The range in the unit that was used, so that nobody has to convert it. */
    private String allowed(Unit unit) {
        String also = units.size() > 1 ? " (units: " + unit() + ")" : "";
        return "a " + noun + " from " + unit.print(smallest) + " to " + unit.print(largest) + also;
    }

    private List<String> symbols() {
        return units.stream().map(Unit::symbol).toList();
    }

    @Override
    public String print(Double value) {
        return units.get(0).print(value);
    }

    @Override
    public String unit() {
        return String.join(", ", symbols());
    }

    @Override
    public String min() {
        return print(smallest);
    }

    @Override
    public String max() {
        return print(largest);
    }

    @Override
    public Map<String, Object> schema() {
        return Map.of("type", "string", "pattern", pattern(symbols()));
    }

    static String pattern(List<String> symbols) {
        return "^ *" + Amount.NUMBER + " *(" + String.join("|", symbols) + ") *$";
    }

    /**
     * One unit.
     *
     * @param symbol as written
     * @param toBase into the first unit of the form
     * @param fromBase out of it
     */
    record Unit(String symbol, DoubleUnaryOperator toBase, DoubleUnaryOperator fromBase) {
        String print(double base) {
            return Plain.number(fromBase.applyAsDouble(base)) + " " + symbol;
        }
    }
}
