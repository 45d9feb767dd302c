package leat.signal;

/**
 * A dry contact or coil: reads 1 while closed, 0 while open.
 *
 * @param inverted true where the wire says 1 for off (a normally-closed contact)
 */
public record Contact(boolean inverted) implements Conversion {

    @Override
    public Reading read(Channel channel, long atMicros, double raw) {
        if (!Double.isFinite(raw)) {
            return Reading.bad(channel, atMicros, Quality.UNDECODABLE);
        }
        boolean closed = (raw != 0) != inverted;
        return Reading.good(channel, atMicros, closed ? 1 : 0);
    }
}
