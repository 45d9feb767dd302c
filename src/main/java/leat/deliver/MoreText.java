package leat.deliver;

import java.util.List;
import java.util.OptionalLong;
import leat.words.BriefTimes;
import leat.words.FindingWords;
import leat.words.Lines;

/** What is said of messages that were too many to be told one by one. Immutable. */
final class MoreText {

    /** Those that are named. */
    private static final int MOST_NAMED = 12;

    private final Voice voice;
    private final Ending ending;

    MoreText(Voice voice) {
        this.voice = voice;
        this.ending = new Ending(voice);
    }

    String subject(More more) {
        int count = more.parts().size();
        return more.gravestFirst()
                .get(0)
                .finding()
                .map(
                        found ->
                                voice.say(
                                        "flood.subject.first",
                                        voice.findings().grade(found.grade()),
                                        more.machine(),
                                        voice.findings().what(found),
                                        count - 1))
                .orElseGet(() -> voice.say("flood.subject", count, more.machine()));
    }

    String of(More more, Notification notification) {
        FindingWords words = voice.findings();
        String grade = words.grade(more.grade());
        long calls = more.parts().stream().filter(More.Part::isCall).count();
        Lines lines = new Lines();
        lines.add(subject(more) + ".");
        lines.add(voice.say("flood.where", voice.site(), more.machine()));
        lines.add(voice.say("flood.count", more.parts().size(), calls, grade));
        List<More.Part> parts = more.gravestFirst();
        parts.stream().limit(MOST_NAMED).forEach(part -> name(part, notification, lines));
        if (parts.size() > MOST_NAMED) {
            lines.add(voice.say("flood.rest", parts.size() - MOST_NAMED));
        }
        lines.add(voice.say("flood.check"));
        return ending.news(lines, OptionalLong.empty(), notification.id());
    }

    private void name(More.Part part, Notification told, Lines lines) {
        FindingWords words = voice.findings();
        part.finding()
                .ifPresent(
                        found ->
                                lines.add(
                                        voice.say(
                                                        part.isCall() ? "flood.call" : "flood.news",
                                                        words.grade(found.grade()),
                                                        words.what(found),
                                                        words.measured(found),
                                                        BriefTimes.of(
                                                                        voice.numbers().zone(),
                                                                        told.atMicros())
                                                                .time(found.sinceMicros()))
                                                + number(part)));
    }

    private String number(More.Part part) {
        return part.number().isPresent()
                ? " " + voice.say("flood.number", Ending.number(part.number()))
                : "";
    }
}
