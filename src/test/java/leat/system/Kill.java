package leat.system;

import java.time.Duration;
import java.util.Locale;

/**
 * One kill and what it left behind: what the store held and what the receivers had heard.
 *
 * @param round from 1
 * @param aim what its moment was chosen by
 * @param after how long after that
 * @param atMicros just before, microseconds UTC
 * @param deadMicros when it was dead
 * @param deskAway whether the receiver of webhooks took nothing
 * @param watching whether it had begun to watch
 * @param secondOpen whether a second was over whose tick was not committed
 * @param openPages pages of a transaction that was not committed
 * @param untold messages that were due and that their receiver had not heard
 * @param unmarked messages that were due and that their receiver had heard
 * @param split messages that one receiver had heard and another had not
 * @param half messages that were told at the broker as a state and not as an event
 */
record Kill(
        int round,
        Aim aim,
        Duration after,
        long atMicros,
        long deadMicros,
        boolean deskAway,
        boolean watching,
        boolean secondOpen,
        int openPages,
        long untold,
        long unmarked,
        long split,
        long half) {

    /** What the moment of a kill is chosen by. */
    enum Aim {
        /** While it starts. */
        START(Duration.ofSeconds(2)),
        /** At any time of the second. */
        ANY_TIME(Duration.ofSeconds(1)),
        /** After a whole second, when findings become rows. */
        SECOND(Duration.ofMillis(50)),
        /** At once when the write-ahead log is written to. */
        COMMIT(Duration.ZERO),
        /** After a new message was seen in the store. */
        ROW(Duration.ofMillis(50)),
        /** After a message was heard from the broker. */
        WIRE(Duration.ofMillis(50)),
        /** After the receiver of webhooks was told. */
        DESK(Duration.ofMillis(50));

        private final Duration longest;

        Aim(Duration longest) {
            this.longest = longest;
        }

        /** The longest time from that to the kill. */
        Duration longest() {
            return longest;
        }

        /** Whether something happens then. */
        boolean isEvent() {
            return this != START && this != ANY_TIME;
        }
    }

    Stretch stretch() {
        if (!watching) {
            return Stretch.STARTING;
        } else if (openPages > 0) {
            return Stretch.COMMITTING;
        } else if (secondOpen) {
            return Stretch.DECIDING;
        } else if (untold > 0) {
            return unmarked > 0 ? Stretch.TELLING : Stretch.UNTOLD;
        }
        return unmarked > 0 ? Stretch.UNMARKED : Stretch.NOTHING;
    }

    /**
     * Whether messages were on their way for certain; what still waits at a start does not count.
     */
    boolean isInFlight() {
        return watching && untold + unmarked > 0;
    }

    static final String COLUMNS =
            "round,aim,after_us,at_us,desk_away,stretch,open_pages,untold,unmarked,split,half";

    String line() {
        return String.format(
                Locale.ROOT,
                "%d,%s,%d,%d,%d,%s,%d,%d,%d,%d,%d",
                round,
                aim,
                after.toNanos() / 1_000,
                atMicros,
                deskAway ? 1 : 0,
                stretch(),
                openPages,
                untold,
                unmarked,
                split,
                half);
    }
}
