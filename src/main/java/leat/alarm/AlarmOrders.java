package leat.alarm;

import java.time.Duration;
import java.time.temporal.ChronoUnit;
import java.util.Optional;
import leat.signal.Instruction;
import leat.signal.Order;

/** What people may do to an alarm, and in which words they are refused. Immutable. */
final class AlarmOrders {

    private final long longestMicros;
    private final Doing doing;

    /** Carries out what is allowed. */
    @FunctionalInterface
    interface Doing {
        void act(Alarm alarm, Optional<Shelf> shelf, Act act);
    }

    /**
     * @param longestMicros the longest time that an alarm may be shelved
     */
    AlarmOrders(long longestMicros, Doing doing) {
        this.longestMicros = longestMicros;
        this.doing = doing;
    }

    /**
     * @return why it cannot be done, in plain words; empty when it was
     */
    Optional<String> follow(Alarm alarm, Instruction instruction, Order.AboutAlarm order) {
        if (order instanceof Order.Acknowledge) {
            return acknowledge(alarm, instruction);
        }
        if (order instanceof Order.Reset) {
            return reset(alarm, instruction);
        }
        if (order instanceof Order.Shelve shelve) {
            return shelve(alarm, instruction, shelve);
        }
        if (order instanceof Order.Unshelve) {
            return end(alarm, Hold.SHELVED, AlarmEvent.UNSHELVED, instruction);
        }
        if (order instanceof Order.Remove remove) {
            return remove(alarm, instruction, remove);
        }
        if (order instanceof Order.Restore) {
            return end(alarm, Hold.OUT_OF_SERVICE, AlarmEvent.RESTORED, instruction);
        }
        throw new IllegalArgumentException("nobody knows how to follow " + order);
    }

    private Optional<String> acknowledge(Alarm alarm, Instruction instruction) {
        if (alarm.life().isHeld()) {
            return Optional.of(held(alarm) + ", nobody is called for it");
        }
        if (!alarm.life().own().needsAcknowledging()) {
            return Optional.of(
                    "it is " + alarm.life().shown().key() + ", nothing waits to be acknowledged");
        }
        return done(alarm, alarm.shelf(), AlarmEvent.ACKNOWLEDGED, instruction, "");
    }

    private Optional<String> reset(Alarm alarm, Instruction instruction) {
        if (alarm.life().isHeld()) {
            return Optional.of(held(alarm) + ": end that first");
        }
        return switch (alarm.life().own()) {
            case LATCHED_ACKNOWLEDGED ->
                    done(alarm, alarm.shelf(), AlarmEvent.RESET, instruction, "");
            case LATCHED_UNACKNOWLEDGED ->
                    Optional.of("nobody has acknowledged it: acknowledge it first");
            case UNACKNOWLEDGED, ACKNOWLEDGED ->
                    Optional.of("its condition still holds, there is nothing to reset");
            case NORMAL, RETURNED_UNACKNOWLEDGED, SHELVED, SUPPRESSED, OUT_OF_SERVICE ->
                    Optional.of("it is " + alarm.life().shown().key() + ", it has not latched");
        };
    }

    private Optional<String> shelve(Alarm alarm, Instruction by, Order.Shelve shelve) {
        long micros = shelve.untilMicros() - by.atMicros();
        if (micros <= 0) {
            return Optional.of("the time for which it was to be shelved is over");
        }
        if (micros > longestMicros) {
            return Optional.of(tooLong(micros, longestMicros));
        }
        if (alarm.life().has(Hold.OUT_OF_SERVICE)) {
            return Optional.of("it is out of service: there is nothing to shelve");
        }
        Shelf shelf = new Shelf(shelve.untilMicros(), alarm.gravest());
        return done(alarm, Optional.of(shelf), AlarmEvent.SHELVED, by, shelve.why());
    }

    static String tooLong(long micros, long longestMicros) {
        return "that would be for "
                + words(micros)
                + "; the longest is "
                + words(longestMicros)
                + " (alarm.longest_hold in site.yaml)";
    }

    private static String words(long micros) {
        Duration time = Duration.of(micros, ChronoUnit.MICROS);
        if (time.toHours() >= 1 && time.toMinutesPart() == 0) {
            return time.toHours() + " h";
        }
        return time.toMinutes() >= 1 ? time.toMinutes() + " min" : time.toSeconds() + " s";
    }

    private Optional<String> remove(Alarm alarm, Instruction by, Order.Remove remove) {
        if (alarm.life().has(Hold.OUT_OF_SERVICE)) {
            return Optional.of("it is out of service already");
        }
        return done(alarm, alarm.shelf(), AlarmEvent.REMOVED, by, remove.why());
    }

    private Optional<String> end(Alarm alarm, Hold hold, AlarmEvent event, Instruction by) {
        if (!alarm.life().has(hold)) {
            return Optional.of(
                    "it is "
                            + alarm.life().shown().key()
                            + ", not "
                            + hold.shown().key().replace('-', ' '));
        }
        Optional<Shelf> shelf = hold == Hold.SHELVED ? Optional.empty() : alarm.shelf();
        return done(alarm, shelf, event, by, "");
    }

    private Optional<String> done(
            Alarm alarm, Optional<Shelf> shelf, AlarmEvent event, Instruction by, String why) {
        doing.act(alarm, shelf, new Act(event, by.atMicros(), by.by(), why));
        return Optional.empty();
    }

    private static String held(Alarm alarm) {
        return "it is " + alarm.life().shown().key().replace('-', ' ');
    }
}
