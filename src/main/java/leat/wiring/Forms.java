package leat.wiring;

import java.util.List;
import java.util.stream.Stream;
import leat.signal.PressureUnit;
import leat.signal.TwoPoint;

/**
 * What is met in transducers and input modules. Trade rule of thumb, no published source. What is
 * not among it can still be written into {@code site.yaml} by hand.
 */
final class Forms {

    private static final List<Form> DIRECT_WHOLE =
            List.of(
                    new Form.Direct(PressureUnit.PSI, 0),
                    new Form.Direct(PressureUnit.PSI, 1),
                    new Form.Direct(PressureUnit.PSI, 2),
                    new Form.Direct(PressureUnit.PSI, 3),
                    new Form.Direct(PressureUnit.BAR, 1),
                    new Form.Direct(PressureUnit.BAR, 2),
                    new Form.Direct(PressureUnit.BAR, 3),
                    new Form.Direct(PressureUnit.KPA, 0),
                    new Form.Direct(PressureUnit.KPA, 2));

    private static final Form MICROAMPS =
            new Form.Current("uA", new TwoPoint(4000, 4, 20_000, 20), 0);

    private static final List<Form> CURRENT_WHOLE =
            List.of(
                    MICROAMPS,
                    new Form.Current("0.01 mA", new TwoPoint(400, 4, 2000, 20), 4),
                    counts("0-4095 is 0-20 mA", 0, 0, 4095, 20, 2),
                    counts("0-4095 is 0-20.5 mA", 0, 0, 4095, 20.5, 2),
                    counts("0-4095 is 4-20 mA", 0, 4, 4095, 20, 2),
                    counts("0-10000 is 4-20 mA", 0, 4, 10_000, 20, 3),
                    counts("0-32767 is 0-20 mA", 0, 0, 32_767, 20, 4),
                    counts("0-32767 is 4-20 mA", 0, 4, 32_767, 20, 4),
                    counts("0-65535 is 0-20 mA", 0, 0, 65_535, 20, 4),
                    counts("0-65535 is 4-20 mA", 0, 4, 65_535, 20, 4));

    /** A number with a decimal point of its own. */
    static final List<Form> FRACTIONAL =
            List.of(
                    new Form.Direct(PressureUnit.PSI, 0),
                    new Form.Direct(PressureUnit.BAR, 0),
                    new Form.Direct(PressureUnit.KPA, 0),
                    new Form.Direct(PressureUnit.BAR, 3),
                    new Form.Current("mA", new TwoPoint(4, 4, 20, 20), 2));

    /** One register. */
    static final List<Form> WHOLE =
            Stream.concat(DIRECT_WHOLE.stream(), CURRENT_WHOLE.stream()).toList();

    /** Two registers, or a payload: nobody sends the counts of a converter so. */
    static final List<Form> WHOLE_32 =
            Stream.concat(DIRECT_WHOLE.stream(), Stream.of(MICROAMPS)).toList();

    private Forms() {}

    private static Form counts(
            String words, double x1, double y1, double x2, double y2, int doubt) {
        return new Form.Current(words, new TwoPoint(x1, y1, x2, y2), doubt);
    }
}
