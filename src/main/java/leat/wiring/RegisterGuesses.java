package leat.wiring;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.List;
import leat.acquire.modbus.Decoding;
import leat.acquire.modbus.RegisterStrip;
import leat.config.Point.NumberType;
import leat.config.Point.Register;
import leat.config.Point.WordOrder;

/**
 * Reads registers of which nothing is known in every way that leat has. Immutable.
 *
 * @param unitId of the device
 * @param from first address that was asked for; a neighbour comes after what was asked for
 * @param to last one
 * @param doubts what is asked of each reading
 */
public record RegisterGuesses(int unitId, int from, int to, Doubts doubts) {

    /** Few bits make a float that a gauge may show: it is hardly there by chance. */
    private static final int FLOAT = 2;

    private static final int TWICE_AS_WIDE = 2;

    /** Bytes changed over within a word: hardly met. */
    private static final int SWAPPED_BYTES = 2;

    /** A pressure hardly stands to the bit, a setting does. */
    private static final int STILL = 4;

    /** Two words mostly begin at an even address; the half of a float looks like one beside it. */
    private static final int ODD = 1;

    private static final int NEIGHBOUR = 3;
    private static final int NEXT_TO_NOTHING = 6;

    public RegisterGuesses {
        requireNonNull(doubts, "doubts");
    }

    /** The likeliest first; what cannot be a pressure is left out. */
    public List<Guess> of(List<RegisterStrip> strips) {
        List<Guess> guesses = new ArrayList<>();
        for (RegisterStrip strip : strips) {
            for (int at = 0; at < strip.width(); at++) {
                one(strip, at, guesses);
                if (at + 1 < strip.width()) {
                    two(strip, at, guesses);
                }
            }
        }
        return guesses.stream()
                .filter(guess -> guess.sense().kind() != Sense.Kind.NO_PRESSURE)
                .sorted(Guess.LIKELIEST_FIRST)
                .toList();
    }

    /** Below 32768 signed and unsigned are alike; signed, a gauge may read a little below 0. */
    private void one(RegisterStrip strip, int at, List<Guess> guesses) {
        List<Double> signed = numbers(strip, at, NumberType.INT16, WordOrder.ABCD);
        List<Double> unsigned = numbers(strip, at, NumberType.UINT16, WordOrder.ABCD);
        add(strip, at, NumberType.INT16, WordOrder.ABCD, signed, Forms.WHOLE, 0, guesses);
        if (!signed.equals(unsigned)) {
            add(strip, at, NumberType.UINT16, WordOrder.ABCD, unsigned, Forms.WHOLE, 0, guesses);
        }
    }

    private void two(RegisterStrip strip, int at, List<Guess> guesses) {
        for (WordOrder order : WordOrder.values()) {
            int swapped =
                    switch (order) {
                        case ABCD, CDAB -> 0;
                        case BADC, DCBA -> SWAPPED_BYTES;
                    };
            List<Double> floats = numbers(strip, at, NumberType.FLOAT32, order);
            add(
                    strip,
                    at,
                    NumberType.FLOAT32,
                    order,
                    floats,
                    Forms.FRACTIONAL,
                    swapped - FLOAT,
                    guesses);
            List<Double> wholes = numbers(strip, at, NumberType.INT32, order);
            int doubt = TWICE_AS_WIDE + swapped;
            add(strip, at, NumberType.INT32, order, wholes, Forms.WHOLE_32, doubt, guesses);
        }
    }

    private void add(
            RegisterStrip strip,
            int at,
            NumberType type,
            WordOrder order,
            List<Double> numbers,
            List<Form> forms,
            int doubt,
            List<Guess> guesses) {
        int address = strip.address() + at;
        Register register = new Register(unitId, strip.table(), address, type, order);
        int neighbour = address < from || address > to ? NEIGHBOUR : 0;
        int odd = type.registers() == 2 && address % 2 == 1 ? ODD : 0;
        int still = numbers.stream().distinct().count() == 1 ? STILL : 0;
        for (Form form : forms) {
            Sense sense = doubts.of(form, numbers);
            int small = isSmallFloat(type, sense) ? NEXT_TO_NOTHING : 0;
            guesses.add(
                    new Guess(
                            register,
                            form,
                            numbers,
                            sense,
                            doubt + neighbour + small + still + odd + form.doubt(doubts.span())));
        }
    }

    /** Two numbers of 16 bits that are read as one float often come out near 0. */
    private boolean isSmallFloat(NumberType type, Sense sense) {
        return type == NumberType.FLOAT32
                && sense.psi().isPresent()
                && Math.abs(sense.psi().getAsDouble()) < 0.02 * doubts.widthPsi();
    }

    private static List<Double> numbers(
            RegisterStrip strip, int at, NumberType type, WordOrder order) {
        Decoding decoding = new Decoding(type, order);
        return strip.reads().stream()
                .map(words -> words.stream().mapToInt(word -> word).toArray())
                .map(words -> decoding.number(words, at))
                .toList();
    }
}
