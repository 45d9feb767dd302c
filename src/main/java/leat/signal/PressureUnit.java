package leat.signal;

import java.util.Optional;

/**
 * Units of gauge pressure. Inside leat pressure is psi; conversion happens once, where a value
 * enters or is shown.
 *
 * <p>Factors: NIST SP 811 (2008) Appendix B, 1 psi = 4.4482216152605 N / (0.0254 m)^2 =
 * 6894.757293168 Pa; 1 bar = 1E+05 Pa exactly.
 */
public enum PressureUnit {
    PSI("psi", 1.0, 1),
    BAR("bar", 1e5 / PressureUnit.PASCAL_PER_PSI, 2),
    KPA("kPa", 1e3 / PressureUnit.PASCAL_PER_PSI, 0);

    private static final double PASCAL_PER_PSI = 4.4482216152605 / (0.0254 * 0.0254);

    private final String symbol;
    private final double psi;
    private final int decimals;

    PressureUnit(String symbol, double psi, int decimals) {
        this.symbol = symbol;
        this.psi = psi;
        this.decimals = decimals;
    }

    /** As written in configuration and shown to people: {@code psi}, {@code bar}, {@code kPa}. */
    public String symbol() {
        return symbol;
    }

    /** Decimals that show a dial gauge's resolution without pretending more. */
    public int decimals() {
        return decimals;
    }

    public double toPsi(double value) {
        return this == PSI ? value : value * psi;
    }

    public double fromPsi(double valuePsi) {
        return this == PSI ? valuePsi : valuePsi / psi;
    }

    public static Optional<PressureUnit> bySymbol(String symbol) {
        for (PressureUnit unit : values()) {
            if (unit.symbol.equals(symbol)) {
                return Optional.of(unit);
            }
        }
        return Optional.empty();
    }
}
