package leat.config;

import static java.util.Objects.requireNonNull;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * A list of two pressures, the lower first.
 *
 * @param pressure how each of them is written
 */
record RangeForm(QuantityForm pressure) implements Form<RangeForm.Range> {

    private static final String ALLOWED =
            "the lower and the upper end, such as [ -15 psi, 500 psi ]";

    RangeForm {
        requireNonNull(pressure, "pressure");
    }

    @Override
    public Optional<Range> read(Cursor at) {
        Optional<List<Cursor>> items = at.items(ALLOWED);
        if (items.isEmpty()) {
            return Optional.empty();
        }
        if (items.get().size() != 2) {
            at.wrong("a list of " + items.get().size() + " stands here", ALLOWED);
            return Optional.empty();
        }
        Optional<Double> low = pressure.read(items.get().get(0));
        Optional<Double> high = pressure.read(items.get().get(1));
        if (low.isEmpty() || high.isEmpty()) {
            return Optional.empty();
        }
        if (low.get() >= high.get()) {
            at.wrong("the range does not run upwards", ALLOWED);
            return Optional.empty();
        }
        return Optional.of(new Range(low.get(), high.get()));
    }

    @Override
    public String print(Range value) {
        return "[ "
                + pressure.print(value.lowPsi())
                + ", "
                + pressure.print(value.highPsi())
                + " ]";
    }

    @Override
    public String unit() {
        return "two pressures: " + pressure.unit();
    }

    @Override
    public String min() {
        return pressure.min();
    }

    @Override
    public String max() {
        return pressure.max();
    }

    @Override
    public Map<String, Object> schema() {
        Map<String, Object> schema = new LinkedHashMap<>();
        schema.put("type", "array");
        schema.put("items", pressure.schema());
        schema.put("minItems", 2);
        schema.put("maxItems", 2);
        return schema;
    }

    /**
     * From low to high.
     *
     * @param lowPsi lower end, psi
     * @param highPsi upper end, psi
     */
    record Range(double lowPsi, double highPsi) {}
}
