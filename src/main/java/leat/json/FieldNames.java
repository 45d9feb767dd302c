package leat.json;

import com.fasterxml.jackson.databind.PropertyNamingStrategies.NamingBase;
import java.util.Locale;

/** {@code startedAtMicros} is {@code started_at_us}, {@code inletPsi} is {@code inlet_psi}. */
final class FieldNames extends NamingBase {

    private static final String MICROS = "_micros";

    @Override
    public String translate(String component) {
        String name = underscored(component);
        return name.endsWith(MICROS)
                ? name.substring(0, name.length() - MICROS.length()) + "_us"
                : name;
    }

    static String underscored(String component) {
        return component.replaceAll("(?=[A-Z])", "_").toLowerCase(Locale.ROOT);
    }
}
