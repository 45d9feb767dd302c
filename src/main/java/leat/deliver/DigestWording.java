package leat.deliver;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;
import leat.rule.Grade;
import leat.store.Message;
import leat.words.FindingWords;
import leat.words.Lines;

/**
 * Says what has become of the ADVISORY alarms of a day: a short list first, then of each that
 * stands what its call would have said. Immutable.
 */
final class DigestWording {

    /** Alarms listed in each part; leat's own choice, as the figures below. */
    private static final int MOST_ALARMS = 30;

    /** Messages of one alarm that are listed: the first two and the last two. */
    private static final int MOST_LINES = 4;

    private static final int MOST_CALLS = 10;

    private final Voice voice;
    private final Subject subjects;
    private final CallText calls;

    DigestWording(Voice voice, Subject subjects, CallText calls) {
        this.voice = voice;
        this.subjects = subjects;
        this.calls = calls;
    }

    /** The message that stands for the others. */
    Message message(Notification notification, Digest digest) {
        String subject = voice.say("digest.subject", counts(digest), voice.site(), digest.date());
        List<String> ids =
                digest.entries().stream()
                        .flatMap(entry -> entry.changes().stream())
                        .map(Changed::id)
                        .toList();
        return new Notice(notification.route(), "advisories are told once a day", ids)
                .said(
                        notification,
                        voice,
                        subject,
                        text(digest, notification.id()),
                        json -> alarms(digest, json));
    }

    private String counts(Digest digest) {
        List<String> counts = new ArrayList<>();
        counts.add(voice.say("digest.standing", digest.standing()));
        count("digest.graver", digest.of(DigestFate.GRAVER).size(), counts);
        count("digest.aside", digest.of(DigestFate.ASIDE).size(), counts);
        count("digest.gone", digest.gone().size(), counts);
        return String.join(", ", counts);
    }

    private void count(String key, int number, List<String> counts) {
        if (number > 0) {
            counts.add(voice.say(key, number));
        }
    }

    private String text(Digest digest, String id) {
        FindingWords words = voice.findings();
        Lines lines = new Lines();
        if (digest.standing() > 0) {
            lines.add(
                    voice.say(
                            "call.grade",
                            words.grade(Grade.ADVISORY),
                            words.meaning(Grade.ADVISORY)));
        }
        lines.add(voice.say("digest.site", voice.site(), counts(digest)));
        List<Digest.Entry> standing = digest.of(DigestFate.STANDS);
        part("digest.part.standing", standing, lines);
        before(digest.before(), standing.isEmpty(), lines);
        part("digest.part.graver", digest.of(DigestFate.GRAVER), lines);
        part("digest.part.aside", digest.of(DigestFate.ASIDE), lines);
        part("digest.part.gone", digest.gone(), lines);
        calls(standing, lines);
        lines.add(voice.say("digest.end"));
        lines.add(
                voice.say("caution", standing.isEmpty() ? words.briefCaution() : words.caution()));
        return lines.add(voice.say("message", id)).text();
    }

    private void before(long before, boolean alone, Lines lines) {
        if (before > 0) {
            lines.add(voice.say(alone ? "digest.before.alone" : "digest.before", before));
        }
    }

    private void part(String head, List<Digest.Entry> entries, Lines lines) {
        if (entries.isEmpty()) {
            return;
        }
        lines.add(voice.say(head));
        entries.stream().limit(MOST_ALARMS).forEach(entry -> entry(entry, lines));
        if (entries.size() > MOST_ALARMS) {
            lines.add(voice.say("digest.more", entries.size() - MOST_ALARMS));
        }
    }

    private void entry(Digest.Entry entry, Lines lines) {
        int count = entry.changes().size();
        for (int i = 0; i < count; i++) {
            Changed changed = entry.changes().get(i);
            if (count <= MOST_LINES || i < MOST_LINES / 2 || i >= count - MOST_LINES / 2) {
                String when = voice.numbers().time(changed.change().atMicros());
                lines.add((i == 0 ? "- " : "  ") + when + ": " + subjects.of(changed));
            } else if (i == MOST_LINES / 2) {
                lines.add("  " + voice.say("digest.between", count - MOST_LINES));
            }
        }
        switch (entry.fate()) {
            case GONE_UNACKNOWLEDGED -> lines.add("  " + voice.say("news.unacknowledged"));
            case LATCHED -> lines.add("  " + voice.say("news.acknowledged.latched"));
            case STANDS, GRAVER, ASIDE, GONE -> {
                // the head of its part says it
            }
        }
    }

    private void calls(List<Digest.Entry> standing, Lines lines) {
        List<Changed> called = standing.stream().flatMap(entry -> entry.call().stream()).toList();
        called.stream()
                .limit(MOST_CALLS)
                .forEach(call -> lines.add("").asIs(calls.lines(call).text()));
        if (!called.isEmpty()) {
            lines.add("");
        }
    }

    /** What has become of each alarm, for programs. */
    private static void alarms(Digest digest, ObjectNode json) {
        for (Digest.Entry entry : digest.entries()) {
            json.withArray("alarms")
                    .addObject()
                    .put("alarm", entry.alarmId())
                    .put("machine", entry.machine())
                    .put("now", entry.fate().key());
        }
    }
}
