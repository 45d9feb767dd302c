package leat.deliver;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import leat.diagnose.Check;
import leat.diagnose.Diagnosis;
import leat.rule.Finding;
import leat.rule.Grade;
import leat.words.BriefTimes;
import leat.words.CauseWords;
import leat.words.FindingWords;

/**
 * The first line of a call: all that a telephone may show of it, and it needs no other. What was
 * found, the limit and since when always stand in it; the likeliest cause, what to do at once and
 * the check that decides as far as there is room. Immutable.
 */
final class ShortLine {

    /** Characters of one text message (3GPP TS 23.038: 160 of its alphabet of 7 bits). */
    private static final int LONGEST = 160;

    private static final String CUT = "...";

    private final Voice voice;

    ShortLine(Voice voice) {
        this.voice = voice;
    }

    /**
     * @param told when it is told, microseconds UTC; on the same day no date is said
     */
    String of(String machine, Finding finding, Optional<Diagnosis> why, long told) {
        String found = found(machine, finding, told);
        if (found.length() > LONGEST) {
            int over = found.length() - LONGEST + CUT.length();
            int left = Math.max(1, machine.length() - over);
            found = found(machine.substring(0, left) + CUT, finding, told);
        }
        StringBuilder line = new StringBuilder(found);
        for (String part : parts(finding, why)) {
            if (line.length() + 1 + part.length() <= LONGEST) {
                line.append(' ').append(part);
            }
        }
        return line.toString();
    }

    private String found(String machine, Finding finding, long told) {
        FindingWords words = voice.findings();
        return voice.say(
                "short.found",
                words.grade(finding.grade()),
                machine,
                words.what(finding),
                words.measured(finding),
                words.limit(finding),
                BriefTimes.of(voice.numbers().zone(), told).time(finding.sinceMicros()));
    }

    /** The most needed first. */
    private List<String> parts(Finding finding, Optional<Diagnosis> why) {
        List<String> parts = new ArrayList<>();
        if (finding.grade() == Grade.CRITICAL && !finding.rule().isAboutSignal()) {
            parts.add(voice.say("short.stop"));
        }
        why.map(this::cause).ifPresent(parts::add);
        why.flatMap(CauseWords::decides).ifPresent(check -> parts.add(asks(check)));
        return parts;
    }

    private String cause(Diagnosis why) {
        return CauseWords.isClear(why)
                ? sentence(voice.causes().likely(why))
                : voice.say("short.unclear");
    }

    private static String sentence(String words) {
        return Character.toUpperCase(words.charAt(0)) + words.substring(1) + ".";
    }

    private String asks(Check check) {
        String asks = voice.causes().asks(check);
        return check.toll() == Check.Toll.LOOK ? asks : voice.say("short.isolate", asks);
    }
}
