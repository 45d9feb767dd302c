package leat.deliver;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import leat.diagnose.Diagnosis;
import leat.rule.Finding;
import leat.words.BriefTimes;
import leat.words.CauseWords;
import leat.words.FindingWords;
import leat.words.FirstCheck;

/**
 * The first line of a call: all that a telephone may show of it, and it needs no other. What was
 * found, the limit and since when always stand in it; the likeliest cause, what to do at once and
 * the check that decides as far as there is room. Immutable.
 */
final class ShortLine {

    /** Characters of one text message (3GPP TS 23.038: 160 of its alphabet of 7 bits). */
    static final int LONGEST = 160;

    private static final String CUT = "...";

    private final Voice voice;
    private final FirstCheck checks;

    ShortLine(Voice voice) {
        this.voice = voice;
        this.checks = new FirstCheck(voice.phrases(), voice.numbers());
    }

    /**
     * @param number by which people call the alarm, with which the line ends
     * @param told when it is told, microseconds UTC; on the same day no date is said
     */
    String of(
            String machine,
            Finding finding,
            Optional<Diagnosis> why,
            OptionalLong number,
            long told) {
        String ack = number.isPresent() ? " " + Ending.ack(number) : "";
        int room = LONGEST - ack.length();
        String found = found(machine, finding, told);
        if (found.length() > room) {
            int over = found.length() - room + CUT.length();
            int left = Math.max(1, machine.length() - over);
            found = found(machine.substring(0, left) + CUT, finding, told);
        }
        StringBuilder line = new StringBuilder(found);
        for (List<String> part : parts(finding, why)) {
            part.stream()
                    .filter(words -> line.length() + 1 + words.length() <= room)
                    .findFirst()
                    .ifPresent(words -> line.append(' ').append(words));
        }
        return line.append(ack).toString();
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

    /** The most needed first; each in the fewer words the less room there is. */
    private List<List<String>> parts(Finding finding, Optional<Diagnosis> why) {
        List<List<String>> parts = new ArrayList<>();
        checks.atOnce(finding).map(List::of).ifPresent(parts::add);
        why.map(this::cause).ifPresent(parts::add);
        checks.asks(why).map(List::of).ifPresent(parts::add);
        return parts;
    }

    private List<String> cause(Diagnosis why) {
        return CauseWords.isClear(why)
                ? List.of(
                        FirstCheck.sentence(voice.causes().likely(why)),
                        FirstCheck.sentence(voice.causes().share(why)))
                : List.of(voice.say("short.unclear"));
    }
}
