package leat.live;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import leat.signal.Channel;
import leat.signal.Keyword;
import leat.signal.Reading;

/**
 * What one gauge or contact shows.
 *
 * @param channel which
 * @param showing whether it shows anything, or why not
 * @param last its last reading, however old; empty where none is known
 * @param lostReason of one that is lost, endpoint and what to check next; else empty
 * @param limits what applies to its pressure at this moment, from the lowest to the highest
 */
public record GaugeNow(
        Channel channel,
        Showing showing,
        Optional<Reading> last,
        String lostReason,
        List<LimitNow> limits) {

    /** Whether a gauge shows anything. */
    public enum Showing {
        /** The last reading is of this moment. */
        NOW,
        /** The last reading is BAD; its quality says why. */
        BAD,
        /** The source is gone; the reason says what to check. */
        LOST,
        /** The last reading is too old to be of this moment. */
        SILENT,
        /** Nothing was heard of it. */
        NOTHING;

        /** Such as {@code silent}. */
        public String key() {
            return Keyword.of(this);
        }
    }

    public GaugeNow {
        requireNonNull(channel, "channel");
        requireNonNull(showing, "showing");
        requireNonNull(last, "last");
        requireNonNull(lostReason, "lostReason");
        limits = List.copyOf(limits);
    }

    /** The pressure, psi, or 0 and 1 of a contact; empty where there is none of this moment. */
    public OptionalDouble value() {
        return showing == Showing.NOW
                ? OptionalDouble.of(last.orElseThrow().value())
                : OptionalDouble.empty();
    }
}
