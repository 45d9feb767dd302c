package leat.deliver;

import leat.alarm.AlarmChange;
import leat.signal.PlainText;

/** Who changed an alarm, and why, as it is said. Immutable. */
final class People {

    private static final int LONGEST_WHY = 1000;

    private final Voice voice;

    People(Voice voice) {
        this.voice = voice;
    }

    /** The name of who changed it; empty when nobody did. */
    static String by(AlarmChange change) {
        return PlainText.harmless(change.by(), Voice.LONGEST_NAME);
    }

    /** Why it was changed; what leat itself gives as a reason in the language of the site. */
    private String why(AlarmChange change) {
        return change.notes()
                .reason()
                .map(reason -> voice.say("reason." + reason.key()))
                .orElseGet(() -> PlainText.harmless(change.notes().why(), LONGEST_WHY));
    }

    /** By whom and why, as far as that is known; begins with a colon or is empty. */
    String because(AlarmChange change) {
        String why = why(change);
        String by = by(change);
        if (by.isEmpty()) {
            return why.isBlank() ? "" : voice.say("because.why", why);
        }
        return voice.say(why.isBlank() ? "because.who" : "because.both", why, by);
    }

    /** Why a hold ended; where nobody said why, who ended it. */
    String ended(AlarmChange change) {
        return why(change).isBlank() && !by(change).isEmpty()
                ? voice.say("ended.by", by(change))
                : because(change);
    }
}
