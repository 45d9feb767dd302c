package leat.bench.water;

/**
 * Darcy friction factor of a round pipe: pressure lost is factor x length / bore x dynamic
 * pressure.
 */
public final class Friction {

    /** Below this Reynolds number flow is laminar (textbook figure). */
    static final double LAMINAR_BELOW = 2300;

    private static final int MOST_ROUNDS = 50;

    private Friction() {}

    /**
     * Factor of smooth flow below the transition, else of Colebrook.
     *
     * @param reynolds above 0
     * @param roughness height of the roughness as a share of the bore, 0 to 0.05
     */
    public static double factor(double reynolds, double roughness) {
        if (!(reynolds > 0 && roughness >= 0 && roughness <= 0.05)) {
            throw new IllegalArgumentException(
                    "Reynolds number " + reynolds + ", roughness " + roughness);
        }
        return reynolds < LAMINAR_BELOW ? laminar(reynolds) : colebrook(reynolds, roughness);
    }

    /** Hagen-Poiseuille. */
    static double laminar(double reynolds) {
        return 64 / reynolds;
    }

    /** Colebrook's implicit law, solved by repetition from Haaland's estimate. */
    static double colebrook(double reynolds, double roughness) {
        double x = 1 / Math.sqrt(haaland(reynolds, roughness));
        for (int round = 0; round < MOST_ROUNDS; round++) {
            double next = -2 * StrictMath.log10(roughness / 3.7 + 2.51 * x / reynolds);
            boolean settled = Math.abs(next - x) < 1e-13;
            x = next;
            if (settled) {
                break;
            }
        }
        return 1 / (x * x);
    }

    /** Haaland's explicit law, within 2 % of Colebrook. */
    static double haaland(double reynolds, double roughness) {
        double x = -1.8 * StrictMath.log10(StrictMath.pow(roughness / 3.7, 1.11) + 6.9 / reynolds);
        return 1 / (x * x);
    }

    /** The explicit law of Swamee and Jain. */
    static double swameeJain(double reynolds, double roughness) {
        double x = StrictMath.log10(roughness / 3.7 + 5.74 / StrictMath.pow(reynolds, 0.9));
        return 0.25 / (x * x);
    }
}
