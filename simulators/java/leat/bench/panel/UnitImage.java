package leat.bench.panel;

import com.ghgande.j2mod.modbus.procimg.DigitalIn;
import com.ghgande.j2mod.modbus.procimg.DigitalOut;
import com.ghgande.j2mod.modbus.procimg.FIFO;
import com.ghgande.j2mod.modbus.procimg.File;
import com.ghgande.j2mod.modbus.procimg.IllegalAddressException;
import com.ghgande.j2mod.modbus.procimg.InputRegister;
import com.ghgande.j2mod.modbus.procimg.ProcessImage;
import com.ghgande.j2mod.modbus.procimg.Register;
import com.ghgande.j2mod.modbus.procimg.SimpleDigitalIn;
import com.ghgande.j2mod.modbus.procimg.SimpleDigitalOut;
import com.ghgande.j2mod.modbus.procimg.SimpleInputRegister;
import com.ghgande.j2mod.modbus.procimg.SimpleRegister;
import java.util.function.IntFunction;
import leat.bench.scenario.Sample;

/**
 * The data tables of one unit. Every request is answered from one sample, so that the two words of
 * a float belong together. Coils and holding registers show the same as the inputs. Thread-safe.
 */
final class UnitImage implements ProcessImage {

    private record Tables(short[] registers, boolean[] bits) {}

    private volatile Tables tables =
            new Tables(new short[RegisterMap.REGISTERS], new boolean[RegisterMap.BITS]);
    private final int unitId;

    UnitImage(int unitId) {
        this.unitId = unitId;
    }

    void show(Sample sample) {
        tables = new Tables(RegisterMap.registers(sample), RegisterMap.bits(sample));
    }

    private static <T> T[] range(int from, T[] cells, int size, IntFunction<T> cell) {
        if (from < 0 || from + cells.length > size) {
            throw new IllegalAddressException("nothing at address " + from);
        }
        for (int i = 0; i < cells.length; i++) {
            cells[i] = cell.apply(from + i);
        }
        return cells;
    }

    @Override
    public InputRegister[] getInputRegisterRange(int from, int count) {
        short[] words = tables.registers();
        return range(
                from,
                new InputRegister[count],
                words.length,
                i -> new SimpleInputRegister(words[i]));
    }

    @Override
    public Register[] getRegisterRange(int from, int count) {
        short[] words = tables.registers();
        return range(from, new Register[count], words.length, i -> new SimpleRegister(words[i]));
    }

    @Override
    public DigitalIn[] getDigitalInRange(int from, int count) {
        boolean[] bits = tables.bits();
        return range(from, new DigitalIn[count], bits.length, i -> new SimpleDigitalIn(bits[i]));
    }

    @Override
    public DigitalOut[] getDigitalOutRange(int from, int count) {
        boolean[] bits = tables.bits();
        return range(from, new DigitalOut[count], bits.length, i -> new SimpleDigitalOut(bits[i]));
    }

    @Override
    public InputRegister getInputRegister(int address) {
        return getInputRegisterRange(address, 1)[0];
    }

    @Override
    public Register getRegister(int address) {
        return getRegisterRange(address, 1)[0];
    }

    @Override
    public DigitalIn getDigitalIn(int address) {
        return getDigitalInRange(address, 1)[0];
    }

    @Override
    public DigitalOut getDigitalOut(int address) {
        return getDigitalOutRange(address, 1)[0];
    }

    @Override
    public int getInputRegisterCount() {
        return RegisterMap.REGISTERS;
    }

    @Override
    public int getRegisterCount() {
        return RegisterMap.REGISTERS;
    }

    @Override
    public int getDigitalInCount() {
        return RegisterMap.BITS;
    }

    @Override
    public int getDigitalOutCount() {
        return RegisterMap.BITS;
    }

    int unitId() {
        return unitId;
    }

    @Override
    public File getFile(int number) {
        throw new IllegalAddressException("no file records");
    }

    @Override
    public File getFileByNumber(int number) {
        throw new IllegalAddressException("no file records");
    }

    @Override
    public int getFileCount() {
        return 0;
    }

    @Override
    public FIFO getFIFO(int number) {
        throw new IllegalAddressException("no FIFO queues");
    }

    @Override
    public FIFO getFIFOByAddress(int address) {
        throw new IllegalAddressException("no FIFO queues");
    }

    @Override
    public int getFIFOCount() {
        return 0;
    }
}
