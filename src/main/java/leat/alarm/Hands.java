package leat.alarm;

import java.time.Duration;
import java.time.temporal.ChronoUnit;
import java.util.Optional;
import leat.signal.Instruction;
import leat.signal.Instruction.AboutAlarm;

/** What people may do to an alarm, and in which words they are refused. Immutable. */
final class Hands {

    private final long longestMicros;
    private final Doing doing;

    /** Carries out what is allowed. */
    @FunctionalInterface
    interface Doing {
        void act(Alarm alarm, Optional<Shelf> shelf, AlarmBook.Act act);
    }

    /**
     * @param longestMicros the longest time that an alarm may be shelved
     */
    Hands(long longestMicros, Doing doing) {
        this.longestMicros = longestMicros;
        this.doing = doing;
    }

    /**
     * @return why it cannot be done, in plain words; empty when it was
     */
    Optional<String> follow(Alarm alarm, AboutAlarm instruction) {
        if (instruction instanceof Instruction.Acknowledge) {
            return acknowledge(alarm, instruction);
        }
        if (instruction instanceof Instruction.Reset) {
            return reset(alarm, instruction);
        }
        if (instruction instanceof Instruction.Shelve shelve) {
            return shelve(alarm, shelve);
        }
        if (instruction instanceof Instruction.Unshelve) {
            return end(alarm, Hold.SHELVED, AlarmEvent.UNSHELVED, instruction);
        }
        if (instruction instanceof Instruction.Remove remove) {
            return remove(alarm, remove);
        }
        return end(alarm, Hold.OUT_OF_SERVICE, AlarmEvent.RESTORED, instruction);
    }

    private Optional<String> acknowledge(Alarm alarm, AboutAlarm instruction) {
        if (alarm.life().isHeld()) {
            return Optional.of(held(alarm) + ", nobody is called for it");
        }
        if (!alarm.life().own().needsAcknowledging()) {
            return Optional.of(
                    "it is " + alarm.life().shown().key() + ", nothing waits to be acknowledged");
        }
        return done(alarm, alarm.shelf(), AlarmEvent.ACKNOWLEDGED, instruction, "");
    }

    private Optional<String> reset(Alarm alarm, AboutAlarm instruction) {
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

    private Optional<String> shelve(Alarm alarm, Instruction.Shelve shelve) {
        long micros = shelve.untilMicros() - shelve.atMicros();
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
        return done(alarm, Optional.of(shelf), AlarmEvent.SHELVED, shelve, shelve.why());
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

    private Optional<String> remove(Alarm alarm, Instruction.Remove remove) {
        if (alarm.life().has(Hold.OUT_OF_SERVICE)) {
            return Optional.of("it is out of service already");
        }
        return done(alarm, alarm.shelf(), AlarmEvent.REMOVED, remove, remove.why());
    }

    private Optional<String> end(Alarm alarm, Hold hold, AlarmEvent event, AboutAlarm by) {
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
            Alarm alarm, Optional<Shelf> shelf, AlarmEvent event, AboutAlarm by, String why) {
        doing.act(alarm, shelf, new AlarmBook.Act(event, by.atMicros(), by.by(), why));
        return Optional.empty();
    }

    private static String held(Alarm alarm) {
        return "it is " + alarm.life().shown().key().replace('-', ' ');
    }
}
