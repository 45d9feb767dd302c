package leat.words;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.time.temporal.ChronoUnit;
import leat.alarm.AlarmNotes;
import leat.alarm.AlarmState;
import leat.alarm.Refusal;

/** What people and leat do to alarms, in words. Immutable. */
public final class AlarmWords {

    /** As programs and the command line read them, whatever the language of the site. */
    public static final AlarmWords ENGLISH = new AlarmWords(Phrases.in(Language.ENGLISH));

    private final Phrases phrases;

    public AlarmWords(Phrases phrases) {
        this.phrases = requireNonNull(phrases, "phrases");
    }

    /**
     * Why something was done to an alarm.
     *
     * @return what a person has written, or why leat itself did it; empty where neither is known
     */
    public String why(AlarmNotes notes) {
        return notes.reason().map(own -> phrases.say("reason." + own.key())).orElse(notes.why());
    }

    /** Why something cannot be done; without a full stop. */
    public String refusal(Refusal refusal) {
        if (refusal instanceof Refusal.NoSuchMachine none) {
            return phrases.say("refusal.no-such-machine", none.machine());
        }
        if (refusal instanceof Refusal.NoSuchAlarm none) {
            return phrases.say("refusal.no-such-alarm", none.alarmId());
        }
        if (refusal instanceof Refusal.ShelfTooLong asked) {
            return phrases.say(
                    "refusal.shelf-too-long",
                    length(asked.askedMicros()),
                    length(asked.longestMicros()));
        }
        if (refusal instanceof Refusal.NotNow not) {
            return phrases.say(
                    "refusal." + not.obstacle().key(), not.shown().map(this::state).orElse(""));
        }
        return ((Refusal.AsTold) refusal).words();
    }

    private String state(AlarmState state) {
        return phrases.say("alarm-state." + state.key());
    }

    private static String length(long micros) {
        Duration time = Duration.of(micros, ChronoUnit.MICROS);
        if (time.toHours() >= 1 && time.toMinutesPart() == 0) {
            return time.toHours() + " h";
        }
        return time.toMinutes() >= 1 ? time.toMinutes() + " min" : time.toSeconds() + " s";
    }
}
