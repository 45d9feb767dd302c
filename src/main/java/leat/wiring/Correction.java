package leat.wiring;

import leat.signal.Transducer;
import leat.signal.TwoPoint;

/** Moves the line from number or current to pressure, so that it agrees with what is known. */
public final class Correction {

    private static final double LOW_MA = 4;
    private static final double HIGH_MA = 20;

    /** Of the usual transducer: one whose span nothing tells is not taken for a wider one. */
    private static final double USUAL_PSI = 200;

    private Correction() {}

    /**
     * The zero is moved and the gain kept.
     *
     * @param readPsi what the line gives with no pressure on the transducer
     */
    public static TwoPoint zeroed(TwoPoint line, double readPsi) {
        double moved = line.inputFor(readPsi) - line.inputFor(0);
        return new TwoPoint(line.x1() + moved, line.y1(), line.x2() + moved, line.y2());
    }

    /**
     * The gain is changed and the zero kept.
     *
     * @param readPsi what the line gives now, not 0
     * @param gaugePsi what it should give, not 0
     */
    public static TwoPoint against(TwoPoint line, double readPsi, double gaugePsi) {
        double zero = line.inputFor(0);
        double perPsi = (line.inputFor(readPsi) - zero) / gaugePsi;
        return new TwoPoint(
                zero + perPsi * line.y1(), line.y1(), zero + perPsi * line.y2(), line.y2());
    }

    /** The pressures from 4 to 20 mA, or from 0 up to what is believed. */
    public static double spanPsi(Transducer transducer) {
        TwoPoint line = transducer.pressure();
        return transducer.loop().isPresent()
                ? Math.abs(line.at(HIGH_MA) - line.at(LOW_MA))
                : Math.min(transducer.highPsi(), USUAL_PSI);
    }
}
