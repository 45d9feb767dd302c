package leat.json;

import com.fasterxml.jackson.databind.PropertyNamingStrategies.SnakeCaseStrategy;

/** {@code startedAtMicros} is {@code started_at_us}, {@code inletPsi} is {@code inlet_psi}. */
final class FieldNames extends SnakeCaseStrategy {

    private static final String MICROS = "_micros";

    @Override
    public String translate(String component) {
        String name = super.translate(component);
        return name.endsWith(MICROS)
                ? name.substring(0, name.length() - MICROS.length()) + "_us"
                : name;
    }
}
