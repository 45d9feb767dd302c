package leat.alarm;

import java.util.Optional;
import leat.signal.Instruction;
import leat.signal.Order;

/** What people may do to an alarm, and why they are refused. Immutable. */
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
     * @return why it cannot be done; empty when it was
     */
    Optional<Refusal> follow(Alarm alarm, Instruction instruction, Order.AboutAlarm order) {
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

    private Optional<Refusal> acknowledge(Alarm alarm, Instruction instruction) {
        if (alarm.life().isHeld()) {
            return not(Refusal.Obstacle.NOBODY_CALLED, alarm);
        }
        if (!alarm.life().own().needsAcknowledging()) {
            return not(Refusal.Obstacle.NOTHING_TO_ACKNOWLEDGE, alarm);
        }
        return done(alarm, alarm.shelf(), AlarmEvent.ACKNOWLEDGED, instruction, "");
    }

    private Optional<Refusal> reset(Alarm alarm, Instruction instruction) {
        if (alarm.life().isHeld()) {
            return not(Refusal.Obstacle.END_HOLD_FIRST, alarm);
        }
        return switch (alarm.life().own()) {
            case LATCHED_ACKNOWLEDGED ->
                    done(alarm, alarm.shelf(), AlarmEvent.RESET, instruction, "");
            case LATCHED_UNACKNOWLEDGED -> not(Refusal.Obstacle.ACKNOWLEDGE_FIRST, alarm);
            case UNACKNOWLEDGED, ACKNOWLEDGED -> not(Refusal.Obstacle.CONDITION_HOLDS, alarm);
            case NORMAL, RETURNED_UNACKNOWLEDGED, SHELVED, SUPPRESSED, OUT_OF_SERVICE ->
                    not(Refusal.Obstacle.NOT_LATCHED, alarm);
        };
    }

    private Optional<Refusal> shelve(Alarm alarm, Instruction by, Order.Shelve shelve) {
        long micros = shelve.untilMicros() - by.atMicros();
        if (micros <= 0) {
            return not(Refusal.Obstacle.SHELF_OVER, alarm);
        }
        if (micros > longestMicros) {
            return Optional.of(new Refusal.ShelfTooLong(micros, longestMicros));
        }
        if (alarm.life().has(Hold.OUT_OF_SERVICE)) {
            return not(Refusal.Obstacle.NOTHING_TO_SHELVE, alarm);
        }
        Shelf shelf = new Shelf(shelve.untilMicros(), alarm.gravest());
        return done(alarm, Optional.of(shelf), AlarmEvent.SHELVED, by, shelve.why());
    }

    private Optional<Refusal> remove(Alarm alarm, Instruction by, Order.Remove remove) {
        if (alarm.life().has(Hold.OUT_OF_SERVICE)) {
            return not(Refusal.Obstacle.ALREADY_OUT_OF_SERVICE, alarm);
        }
        return done(alarm, alarm.shelf(), AlarmEvent.REMOVED, by, remove.why());
    }

    private Optional<Refusal> end(Alarm alarm, Hold hold, AlarmEvent event, Instruction by) {
        if (!alarm.life().has(hold)) {
            return not(
                    hold == Hold.SHELVED
                            ? Refusal.Obstacle.NOT_SHELVED
                            : Refusal.Obstacle.NOT_OUT_OF_SERVICE,
                    alarm);
        }
        Optional<Shelf> shelf = hold == Hold.SHELVED ? Optional.empty() : alarm.shelf();
        return done(alarm, shelf, event, by, "");
    }

    private Optional<Refusal> done(
            Alarm alarm, Optional<Shelf> shelf, AlarmEvent event, Instruction by, String why) {
        doing.act(alarm, shelf, Act.by(by, event, why));
        return Optional.empty();
    }

    private static Optional<Refusal> not(Refusal.Obstacle obstacle, Alarm alarm) {
        return Optional.of(new Refusal.NotNow(obstacle, Optional.of(alarm.life().shown())));
    }
}
