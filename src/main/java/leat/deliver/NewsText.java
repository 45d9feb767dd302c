package leat.deliver;

import leat.alarm.AlarmChange;
import leat.alarm.AlarmState;
import leat.rule.Finding;
import leat.words.FindingWords;
import leat.words.Lines;

/**
 * The text of news: an alarm has changed, and nobody has to go anywhere. Who does go finds the
 * first check and a brief caution in it all the same. Immutable.
 */
final class NewsText {

    private final Voice voice;
    private final People people;
    private final CauseText causes;
    private final Ending ending;

    NewsText(Voice voice) {
        this.voice = voice;
        this.people = new People(voice);
        this.causes = new CauseText(voice);
        this.ending = new Ending(voice);
    }

    String of(Changed changed, String id) {
        AlarmChange change = changed.change();
        Finding finding = change.finding();
        FindingWords words = voice.findings();
        Lines lines = new Lines();
        lines.add(head(change));
        lines.add(
                voice.say(
                        "where-and-when",
                        voice.site(),
                        changed.machine(),
                        words.what(finding),
                        voice.numbers().time(change.atMicros())));
        boolean stands = change.notes().own().isActive();
        lines.add(
                voice.say(
                        stands ? "news.is" : "news.was",
                        words.grade(finding.grade()),
                        words.judged(finding),
                        words.measured(finding),
                        words.limit(finding)));
        afterwards(change, lines);
        lines.add(voice.say("call.since", voice.numbers().time(finding.sinceMicros())));
        lines.add(voice.say("news.raised", voice.numbers().time(change.raisedAtMicros())));
        if (change.notes().count() > 1) {
            lines.add(voice.say("count", change.notes().count()));
        }
        if (change.to() == AlarmState.RETURNED_UNACKNOWLEDGED) {
            lines.add(voice.say("news.unacknowledged"));
        }
        lines.add(
                voice.say(
                        "check-first.one",
                        stands
                                ? causes.checks(finding, changed.why()).get(0)
                                : voice.say("check-first.holds")));
        return ending.news(lines, changed.number(), id);
    }

    private String head(AlarmChange change) {
        FindingWords words = voice.findings();
        String by = People.by(change);
        String because = people.because(change);
        return switch (change.event()) {
            case EASED ->
                    voice.say(
                            "news.eased",
                            words.grade(change.finding().grade()),
                            words.meaning(change.finding().grade()));
            case ACKNOWLEDGED, RESET ->
                    voice.say("news." + change.event().key() + (by.isEmpty() ? "" : ".by"), by);
            case SHELVED ->
                    change.notes().shelvedUntilMicros().isPresent()
                            ? voice.say(
                                    "news.shelved.until",
                                    because,
                                    voice.numbers()
                                            .time(change.notes().shelvedUntilMicros().getAsLong()))
                            : voice.say("news.shelved", because);
            case SUPPRESSED, REMOVED -> voice.say("news." + change.event().key(), because);
            case UNSHELVED, RELEASED, RESTORED ->
                    voice.say("news." + change.event().key(), people.ended(change));
            case RAISED, WORSENED, CHATTERING, REPEATED -> voice.say("news.untold");
            case RETURNED, LATCHED, SETTLED -> voice.say("news." + change.event().key());
        };
    }

    /** What follows for who reads it. */
    private void afterwards(AlarmChange change, Lines lines) {
        FindingWords words = voice.findings();
        switch (change.event()) {
            case RETURNED, LATCHED -> {
                words.gauges(change.finding()).ifPresent(lines::add);
                if (!change.finding().remarks().isEmpty()) {
                    lines.add(voice.say("news.now", words.remarks(change.finding())));
                }
            }
            case ACKNOWLEDGED ->
                    lines.add(voice.say("news.acknowledged." + acknowledged(change.to())));
            case SHELVED, SUPPRESSED, REMOVED ->
                    lines.add(voice.say("news." + change.event().key() + ".meanwhile"));
            case UNSHELVED, RELEASED, RESTORED -> lines.add(voice.say("news.gone-meanwhile"));
            case EASED, RESET, RAISED, WORSENED, CHATTERING, REPEATED, SETTLED -> {
                // the head has said it
            }
        }
    }

    private static String acknowledged(AlarmState now) {
        if (now.isActive()) {
            return "stands";
        }
        return now == AlarmState.LATCHED_ACKNOWLEDGED ? "latched" : "gone";
    }
}
