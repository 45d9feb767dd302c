package leat.acquire.modbus;

import java.nio.ByteBuffer;
import leat.acquire.modbus.LinkFault.Failure;
import leat.config.Point.Table;
import leat.words.FaultWords;

/**
 * Questions and answers as bytes: MODBUS Application Protocol Specification V1.1b3, 6.1 to 6.4 and
 * 7, behind the header of the MODBUS Messaging on TCP/IP Implementation Guide V1.0b, 3.1.3
 * (transaction, protocol, length, unit). It can ask with function codes 1 to 4 and no other.
 * Stateless.
 */
final class Frames {

    static final int QUESTION_BYTES = 12;

    /** Header with unit, 7, and the longest message, 253. */
    static final int LONGEST_BYTES = 260;

    private static final int TRANSACTION = 0;
    private static final int PROTOCOL = 2;
    private static final int LENGTH = 4;
    private static final int UNIT = 6;
    private static final int FUNCTION = 7;
    private static final int BYTE_COUNT = 8;
    private static final int EXCEPTION_CODE = 8;
    private static final int DATA = 9;

    /** What the length does not count. */
    private static final int BEFORE_UNIT = 6;

    /** Unit, function, and the byte count or the exception code. */
    private static final int SHORTEST_LENGTH = 3;

    private static final int EXCEPTION_BIT = 0x80;

    private Frames() {}

    /** Writes the question for a block. */
    static void question(ByteBuffer out, int transactionId, Block block) {
        out.putShort((short) transactionId)
                .putShort((short) 0)
                .putShort((short) (QUESTION_BYTES - BEFORE_UNIT))
                .put((byte) block.unitId())
                .put((byte) function(block.table()))
                .putShort((short) block.address())
                .putShort((short) block.count());
    }

    /**
     * The bytes of the frame that {@code in} begins with, from 0 to its position; empty of what the
     * rest may be.
     *
     * @return 0 while too little of it is there to tell
     * @throws LinkFault when no frame begins so
     */
    static int length(ByteBuffer in) throws LinkFault {
        if (in.position() < BEFORE_UNIT) {
            return 0;
        }
        int length = word(in, LENGTH);
        boolean isFrame = length >= SHORTEST_LENGTH && length <= LONGEST_BYTES - BEFORE_UNIT;
        if (word(in, PROTOCOL) != 0 || !isFrame) {
            throw malformed(FaultWords.english("modbus.no-frame"));
        }
        return BEFORE_UNIT + length;
    }

    /**
     * Reads a whole frame as the answer to a question.
     *
     * @return as many words as the block counts: registers 0 to 65535, or bits 0 and 1
     * @throws LinkFault when it is not the answer to it
     * @throws DeviceRefused when the device says that it will not answer
     */
    static int[] answer(ByteBuffer in, int transactionId, Block block)
            throws LinkFault, DeviceRefused {
        if (word(in, TRANSACTION) != transactionId) {
            throw unasked();
        }
        if (octet(in, UNIT) != block.unitId()) {
            throw malformed(
                    FaultWords.english("modbus.other-unit", Integer.toString(octet(in, UNIT))));
        }
        int function = octet(in, FUNCTION);
        if ((function & ~EXCEPTION_BIT) != function(block.table())) {
            throw malformed(
                    FaultWords.english("modbus.other-function", Integer.toString(function)));
        }
        if (function >= EXCEPTION_BIT) {
            throw new DeviceRefused(octet(in, EXCEPTION_CODE));
        }
        boolean bits = block.table().isBits();
        int bytes = octet(in, BYTE_COUNT);
        if (bytes != (bits ? (block.count() + 7) / 8 : 2 * block.count())) {
            throw malformed(
                    FaultWords.english(
                            bits ? "modbus.bits" : "modbus.registers",
                            Integer.toString(bytes),
                            Integer.toString(block.count())));
        }
        if (word(in, LENGTH) != SHORTEST_LENGTH + bytes) {
            throw malformed(FaultWords.english("modbus.length", Integer.toString(bytes)));
        }
        int[] words = new int[block.count()];
        for (int i = 0; i < words.length; i++) {
            words[i] = bits ? octet(in, DATA + i / 8) >>> i % 8 & 1 : word(in, DATA + 2 * i);
        }
        return words;
    }

    /** Something came before the question, or under a number that was not asked under. */
    static LinkFault unasked() {
        return new LinkFault(Failure.UNASKED, FaultWords.english("modbus.unasked"));
    }

    private static LinkFault malformed(String why) {
        return new LinkFault(Failure.MALFORMED, FaultWords.english("modbus.malformed", why));
    }

    private static int function(Table table) {
        return switch (table) {
            case COIL -> 1;
            case DISCRETE_INPUT -> 2;
            case HOLDING_REGISTER -> 3;
            case INPUT_REGISTER -> 4;
        };
    }

    private static int word(ByteBuffer in, int at) {
        return in.getShort(at) & 0xffff;
    }

    private static int octet(ByteBuffer in, int at) {
        return in.get(at) & 0xff;
    }
}
