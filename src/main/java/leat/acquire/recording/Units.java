package leat.acquire.recording;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import leat.config.Spelling;
import leat.signal.PressureUnit;

/** Units as loggers and people write them. */
final class Units {

    private static final List<String> SYMBOLS =
            Stream.of(PressureUnit.values()).map(PressureUnit::symbol).toList();

    /** Such as {@code psi, bar or kPa}. */
    static final String KNOWN =
            String.join(", ", SYMBOLS.subList(0, SYMBOLS.size() - 1))
                    + " or "
                    + SYMBOLS.get(SYMBOLS.size() - 1);

    /** Units that are no slip of the pen: a thousand of one may be one of the other. */
    private static final Set<String> OTHERS =
            Set.of("pa", "hpa", "mpa", "mbar", "ksi", "atm", "at");

    /** {@code P in (bar)}, {@code P in [kPa]}, {@code p_in_psi}, {@code p in bar}. */
    private static final Pattern ENDS_IN_UNIT =
            Pattern.compile(".*[_\\s(\\[](psi|bar|kpa)[)\\]]?", Pattern.CASE_INSENSITIVE);

    private Units() {}

    /** The unit of this symbol, whatever its case. */
    static Optional<PressureUnit> of(String symbol) {
        return Stream.of(PressureUnit.values())
                .filter(unit -> unit.symbol().equalsIgnoreCase(symbol))
                .findFirst();
    }

    /** The one in which a name ends. */
    static Optional<PressureUnit> in(String name) {
        Matcher unit = ENDS_IN_UNIT.matcher(name);
        return unit.matches() ? of(unit.group(1)) : Optional.empty();
    }

    static BadCell unknown(String symbol) {
        boolean isOther = OTHERS.contains(symbol.toLowerCase(Locale.ROOT));
        return new BadCell(
                BadCell.quoted(symbol) + " is no unit that leat knows",
                "known are "
                        + KNOWN
                        + "."
                        + (isOther
                                ? " Convert the column to one of them."
                                : Spelling.didYouMean(symbol, SYMBOLS)));
    }
}
