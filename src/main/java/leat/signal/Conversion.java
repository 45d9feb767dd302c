package leat.signal;

/** From the number that a device delivers to a reading. */
public sealed interface Conversion permits Transducer, Contact {

    /**
     * Converts one raw number. Never throws: what cannot be converted becomes a BAD reading with
     * its reason.
     *
     * @param raw register value or payload number as delivered; any double, NaN included
     */
    Reading read(Channel channel, long atMicros, double raw);
}
