package leat.acquire;

import static java.util.Objects.requireNonNull;

import java.util.Locale;
import java.util.Optional;
import leat.signal.Conversion;
import leat.signal.Reading;
import leat.signal.Transducer;

/**
 * One channel while it has hardly read right yet: the first number that is no pressure is a matter
 * of set-up, and a log is to hear of it once, as the device sent it. Thread-confined.
 */
public final class SetUp {

    /** A wrong word order gives a number that looks like a pressure now and then, not so often. */
    private static final int RIGHT_READINGS = 100;

    private final Conversion conversion;
    private int usable;
    private boolean over;

    /**
     * @param conversion of the channel
     */
    public SetUp(Conversion conversion) {
        this.conversion = requireNonNull(conversion, "conversion");
    }

    /**
     * Looks at the next reading.
     *
     * @param raw the number that it was made of
     * @return what the log is to hear: the number, what it comes to, what was expected; empty
     *     nearly always
     */
    public Optional<String> news(double raw, Reading reading) {
        if (over) {
            return Optional.empty();
        }
        if (reading.quality().isUsable()) {
            over = ++usable >= RIGHT_READINGS;
            return Optional.empty();
        }
        over = true;
        return Optional.of(
                number(raw)
                        + (conversion instanceof Transducer transducer
                                ? comesTo(raw, transducer)
                                : ", expected 0 or 1"));
    }

    private static String comesTo(double raw, Transducer transducer) {
        double signal = transducer.loop().map(loop -> loop.at(raw)).orElse(raw);
        return (transducer.loop().isPresent() ? " = " + number(signal) + " mA" : "")
                + " = "
                + number(transducer.pressure().at(signal))
                + " psi, expected "
                + number(transducer.lowPsi())
                + " to "
                + number(transducer.highPsi())
                + " psi";
    }

    private static String number(double value) {
        boolean plain = value == 0 || Math.abs(value) >= 1e-3 && Math.abs(value) < 1e7;
        return plain
                ? String.format(Locale.ROOT, "%.4f", value).replaceAll("\\.?0+$", "")
                : String.format(Locale.ROOT, "%.3g", value);
    }
}
