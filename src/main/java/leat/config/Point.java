package leat.config;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.util.Optional;

/** Where at a connection a number is found. */
public sealed interface Point {

    /** Modbus data tables, in the words of the Modbus Application Protocol Specification. */
    enum Table {
        /** Function code 1. */
        COIL,
        /** Function code 2. */
        DISCRETE_INPUT,
        /** Function code 3. */
        HOLDING_REGISTER,
        /** Function code 4. */
        INPUT_REGISTER;

        public boolean isBits() {
            return this == COIL || this == DISCRETE_INPUT;
        }
    }

    /** How one or two registers are read as a number. */
    enum NumberType {
        INT16(1),
        UINT16(1),
        INT32(2),
        UINT32(2),
        FLOAT32(2);

        private final int registers;

        NumberType(int registers) {
            this.registers = registers;
        }

        public int registers() {
            return registers;
        }
    }

    /**
     * Order of the four bytes of a 32-bit number, A the most significant, as they come over the
     * wire. The Modbus specification does not fix it.
     */
    enum WordOrder {
        ABCD,
        CDAB,
        BADC,
        DCBA
    }

    /**
     * A place in a Modbus device.
     *
     * @param unitId 0 to 255
     * @param table which data table
     * @param address PDU address 0 to 65535, so input register 30001 has address 0
     * @param type how to read it; UINT16 for a bit table
     * @param order order of the bytes of a 32-bit number
     */
    record Register(int unitId, Table table, int address, NumberType type, WordOrder order)
            implements Point {
        public Register {
            requireNonNull(table, "table");
            requireNonNull(type, "type");
            requireNonNull(order, "order");
        }

        /** Registers or bits that the value takes. */
        public int width() {
            return table.isBits() ? 1 : type.registers();
        }
    }

    /**
     * A topic at an MQTT broker.
     *
     * @param topic without wildcards
     * @param qos 0, 1 or 2
     * @param valuePointer JSON pointer (RFC 6901) to the number; empty for a payload that is the
     *     number
     * @param timePointer JSON pointer to the payload's time; empty to stamp on arrival
     * @param timeFormat how that time is written
     * @param silentAfter silence after which the channel counts as lost
     */
    record Topic(
            String topic,
            int qos,
            Optional<String> valuePointer,
            Optional<String> timePointer,
            TimeFormat timeFormat,
            Duration silentAfter)
            implements Point {
        public Topic {
            requireNonNull(topic, "topic");
            requireNonNull(valuePointer, "valuePointer");
            requireNonNull(timePointer, "timePointer");
            requireNonNull(timeFormat, "timeFormat");
            requireNonNull(silentAfter, "silentAfter");
        }
    }

    /** How a payload writes its time. */
    enum TimeFormat {
        /** ISO 8601 with offset or Z. */
        ISO,
        /** Seconds since 1970, fractions allowed. */
        EPOCH_S,
        /** Milliseconds since 1970. */
        EPOCH_MS
    }
}
