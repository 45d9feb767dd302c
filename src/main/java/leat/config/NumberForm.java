package leat.config;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;

/**
 * A plain number.
 *
 * @param smallest smallest allowed
 * @param largest largest allowed
 * @param isWhole whether it must be a whole number
 */
record NumberForm(double smallest, double largest, boolean isWhole) implements Form<Double> {

    /** A whole number that fits an int. */
    static Form<Integer> whole(int smallest, int largest) {
        return new AdaptedForm<>(
                new NumberForm(smallest, largest, true), Double::intValue, Integer::doubleValue);
    }

    @Override
    public Optional<Double> read(Cursor at) {
        Optional<String> text = at.text(allowed());
        if (text.isEmpty()) {
            return Optional.empty();
        }
        String what = Cursor.quote(text.get());
        if (at.isQuoted() && Amount.isNumber(text.get())) {
            at.wrong(what + " is in quotes and so is text", "write it without quotes");
            return Optional.empty();
        }
        if (!Amount.isNumber(text.get())) {
            boolean comma = Amount.hasDecimalComma(text.get());
            at.wrong(
                    what + " is not a number",
                    allowed() + (comma ? ". Write a decimal point, not a comma" : ""));
            return Optional.empty();
        }
        return inRange(at, Double.parseDouble(text.get()), what);
    }

    private Optional<Double> inRange(Cursor at, double value, String what) {
        if (isWhole && value != Math.rint(value)) {
            at.wrong(what + " is not a whole number", allowed());
            return Optional.empty();
        }
        if (!(value >= smallest && value <= largest)) {
            at.wrong(what + " is out of range", allowed());
            return Optional.empty();
        }
        return Optional.of(value);
    }

    private String allowed() {
        return (isWhole ? "a whole number from " : "a number from ") + min() + " to " + max();
    }

    @Override
    public String print(Double value) {
        return Plain.number(value);
    }

    @Override
    public String unit() {
        return isWhole ? "whole number" : "number";
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
        Map<String, Object> schema = new LinkedHashMap<>();
        schema.put("type", isWhole ? "integer" : "number");
        schema.put("minimum", schemaValue(smallest));
        schema.put("maximum", schemaValue(largest));
        return schema;
    }

    @Override
    public Object schemaValue(Double value) {
        return value == Math.rint(value) ? (Object) value.longValue() : value;
    }
}
