package leat.words;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Collectors;
import leat.rule.JudgedRun;
import leat.rule.Rule;
import leat.rule.RunVerdict;
import leat.rule.RunVerdict.Aspect;
import leat.rule.RunVerdict.Mark;
import leat.rule.StartupVerdict;
import leat.signal.Keyword;

/** How a run was judged, in words. Immutable. */
public final class RunWords {

    /** A table has room for so many. */
    private static final int MOST = 2;

    private final Phrases phrases;
    private final FindingWords findings;

    RunWords(Phrases phrases, FindingWords findings) {
        this.phrases = requireNonNull(phrases, "phrases");
        this.findings = requireNonNull(findings, "findings");
    }

    /** What was wrong in a few words, and how grave it was. */
    private record Wrong(Mark mark, String what) {}

    /**
     * The verdict in a few words, the gravest first, such as {@code low level, low ratio}; of a run
     * that lasts, so far.
     *
     * @param start how the start of the run was judged
     */
    public String brief(JudgedRun judged, StartupVerdict start) {
        String words = whole(judged.verdict(), start.outcome());
        return judged.run().over() ? words : phrases.say("brief.so-far", words);
    }

    private String whole(RunVerdict verdict, StartupVerdict.Outcome start) {
        List<String> wrong = wrong(verdict, start);
        if (!wrong.isEmpty()) {
            String first = String.join(", ", wrong.subList(0, Math.min(MOST, wrong.size())));
            return wrong.size() > MOST ? first + " +" + (wrong.size() - MOST) : first;
        }
        if (verdict.mark() == Mark.GOOD) {
            boolean relaxed = start == StartupVerdict.Outcome.RELAXED;
            return phrases.say(relaxed ? "brief.relaxed" : "brief.good");
        }
        boolean level = isJudged(verdict, Aspect.LOADED);
        boolean rise = isJudged(verdict, Aspect.RISE);
        return phrases.say(
                level == rise
                        ? "brief.not-judged"
                        : level ? "brief.rise.not-judged" : "brief.level.not-judged");
    }

    private static boolean isJudged(RunVerdict verdict, Aspect aspect) {
        return verdict.parts().stream()
                .anyMatch(part -> part.aspect() == aspect && part.mark() != Mark.NOT_JUDGED);
    }

    private List<String> wrong(RunVerdict verdict, StartupVerdict.Outcome start) {
        List<Wrong> all = new ArrayList<>();
        List<RunVerdict.Part> parts = new ArrayList<>(verdict.parts());
        parts.sort(Comparator.comparing(RunVerdict.Part::aspect));
        for (RunVerdict.Part part : parts) {
            if (part.mark().compareTo(Mark.NOT_JUDGED) > 0) {
                all.add(new Wrong(part.mark(), brief(rule(part.aspect()), "", start)));
            }
        }
        for (RunVerdict.Raised alarm : verdict.raised()) {
            String channel = "." + alarm.channel().key();
            all.add(new Wrong(Mark.of(alarm.grade()), brief(alarm.rule(), channel, start)));
        }
        all.sort(Comparator.comparing(Wrong::mark).reversed());
        return all.stream().map(Wrong::what).distinct().toList();
    }

    private String brief(Rule rule, String channel, StartupVerdict.Outcome start) {
        String key = "brief." + rule.key();
        if (rule == Rule.RISE) {
            String ofStart = key + "." + Keyword.of(start);
            return phrases.say(phrases.has(ofStart) ? ofStart : key + ".slow");
        }
        return phrases.say(phrases.has(key + channel) ? key + channel : key);
    }

    /** The rule that watches this thing while a run lasts. */
    private static Rule rule(Aspect aspect) {
        return switch (aspect) {
            case RISE -> Rule.RISE;
            case LOADED -> Rule.LEVEL_LOW;
            case UNLOADED -> Rule.LEVEL_HIGH;
            case RATIO -> Rule.RATIO;
            case INLET -> Rule.INLET;
            case FILTERS -> Rule.FILTER_LOSS;
        };
    }

    /** The name of a thing that is judged, such as {@code level, jet on}. */
    public String aspect(Aspect aspect) {
        return phrases.say("aspect." + aspect.key());
    }

    /** The level of a run in which jet on and off were not told apart. */
    public String level() {
        return phrases.say("aspect.level");
    }

    /** A mark in words; the grade where it is one. */
    public String mark(Mark mark) {
        return switch (mark) {
            case GOOD -> phrases.say("brief.good");
            case NOT_JUDGED -> phrases.say("brief.not-judged");
            case ADVISORY, WARNING, CRITICAL -> phrases.say("grade." + mark.key());
        };
    }

    /** The alarms that were raised in a run, in order; empty when none was. */
    public String raised(RunVerdict verdict) {
        return verdict.raised().stream()
                .map(
                        alarm ->
                                findings.what(alarm.rule(), alarm.channel(), alarm.grade())
                                        + " "
                                        + findings.grade(alarm.grade()))
                .collect(Collectors.joining(", "));
    }
}
