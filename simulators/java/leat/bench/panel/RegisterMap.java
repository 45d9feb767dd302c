package leat.bench.panel;

import leat.bench.scenario.Sample;
import leat.bench.sensor.Tap;

/**
 * Where a machine's signals stand in the data tables of its unit. Addresses are those on the wire,
 * from 0. Counts are unsigned; psi is float32, high word first.
 */
final class RegisterMap {

    static final int COUNTS_INLET = 0;
    static final int PSI_INLET = 10;
    static final int REGISTERS = PSI_INLET + 2 * Tap.values().length;

    static final int BIT_RUNNING = 0;
    static final int BIT_VALVE = 1;
    static final int BIT_CUTTING = 2;
    static final int BITS = 3;

    private RegisterMap() {}

    static short[] registers(Sample sample) {
        short[] words = new short[REGISTERS];
        words[COUNTS_INLET] = (short) sample.inletCounts();
        words[COUNTS_INLET + 1] = (short) sample.boostedCounts();
        words[COUNTS_INLET + 2] = (short) sample.filteredCounts();
        putFloat(words, PSI_INLET, sample.inletPsi());
        putFloat(words, PSI_INLET + 2, sample.boostedPsi());
        putFloat(words, PSI_INLET + 4, sample.filteredPsi());
        return words;
    }

    private static void putFloat(short[] words, int address, double value) {
        int bits = Float.floatToIntBits((float) value);
        words[address] = (short) (bits >>> 16);
        words[address + 1] = (short) bits;
    }

    static boolean[] bits(Sample sample) {
        boolean[] bits = new boolean[BITS];
        bits[BIT_RUNNING] = sample.running();
        bits[BIT_VALVE] = sample.valveOpen();
        bits[BIT_CUTTING] = sample.cutting();
        return bits;
    }
}
