package leat.deliver;

import java.util.List;
import java.util.OptionalLong;
import java.util.stream.Stream;
import leat.rule.Finding;
import leat.words.BriefTimes;
import leat.words.FindingWords;
import leat.words.Lines;

/**
 * What is said of channels that fell silent together: which machines nobody watches, since when,
 * and what to look at. Immutable.
 */
final class OutageText {

    /** More names than these are counted in one line. */
    private static final int MOST_NAMES = 4;

    /** Machines that are listed. */
    private static final int MOST_MACHINES = 12;

    private final Voice voice;
    private final CauseText causes;
    private final Ending ending;

    OutageText(Voice voice) {
        this.voice = voice;
        this.causes = new CauseText(voice);
        this.ending = new Ending(voice);
    }

    String subject(OutageCall call) {
        String what = what(call, MOST_NAMES);
        String grade = voice.findings().grade(call.grade());
        return voice.say(
                call.again().isPresent() ? "subject." + call.event() : "subject.raised",
                grade,
                machines(call.channels(), MOST_NAMES),
                what,
                what);
    }

    /** Of silence: from which connections nothing comes, or how many channels say nothing. */
    private String what(OutageCall call, int most) {
        String connections = connections(call.channels(), most);
        long all = call.channels().stream().map(SilentChannel::connection).distinct().count();
        return call.whole().size() == all
                ? voice.say("outage.whole", connections)
                : voice.say("outage.part", call.channels().size(), connections);
    }

    String of(OutageCall call) {
        FindingWords words = voice.findings();
        Finding finding = call.latest().finding();
        Lines lines = new Lines();
        lines.asIs(first(call));
        lines.add(voice.say("outage.blind", voice.site()));
        list(call.channels(), lines);
        lines.add(voice.say("call.since", voice.numbers().time(since(call.channels()))));
        if (!finding.remarks().isEmpty()) {
            lines.add(voice.say("call.also", words.remarks(finding)));
        }
        call.again()
                .ifPresent(
                        again ->
                                lines.add(
                                        voice.say(
                                                "call.unanswered",
                                                voice.numbers().time(again.since().atMicros()))));
        causes.listChecks(finding, call.why(), lines);
        if (call.number().isPresent()) {
            lines.add(voice.say("outage.ack", Ending.number(call.number())));
        }
        return ending.call(lines, finding.rule(), call.number(), call.id());
    }

    private String first(OutageCall call) {
        String ack = call.number().isPresent() ? " " + Ending.ack(call.number()) : "";
        for (int most = MOST_NAMES; most > 0; most--) {
            String line = first(call, most) + ack;
            if (line.length() <= ShortLine.LONGEST) {
                return line;
            }
        }
        return first(call, 0) + ack;
    }

    private String first(OutageCall call, int most) {
        String since =
                BriefTimes.of(voice.numbers().zone(), call.latest().atMicros())
                        .time(since(call.channels()));
        return voice.say(
                "short.outage",
                voice.findings().grade(call.grade()),
                machines(call.channels(), most),
                what(call, most),
                since);
    }

    /** The news that they are read again, or some of them. */
    String over(OutageOver over, String id) {
        Lines lines = new Lines();
        lines.add(voice.say("outage.over", machines(over.back(), MOST_MACHINES)));
        lines.add(voice.say("outage.over.where", voice.site()));
        list(over.back(), lines);
        if (!over.away().isEmpty()) {
            lines.add(voice.say("outage.over.away"));
            list(over.away(), lines);
        }
        return ending.news(lines, OptionalLong.empty(), id);
    }

    String subject(OutageOver over) {
        String key = over.away().isEmpty() ? "subject.outage.over" : "subject.outage.partly";
        return voice.say(key, machines(over.back(), MOST_NAMES));
    }

    private static long since(List<SilentChannel> channels) {
        return channels.stream().mapToLong(SilentChannel::sinceMicros).min().orElseThrow();
    }

    private String machines(List<SilentChannel> channels, int most) {
        return names(channels.stream().map(SilentChannel::machine), most, "outage.machines");
    }

    private String connections(List<SilentChannel> channels, int most) {
        return names(channels.stream().map(SilentChannel::connection), most, "outage.connections");
    }

    /** Each once, or how many there are. */
    private String names(Stream<String> all, int most, String count) {
        List<String> names = all.distinct().toList();
        return names.size() <= most ? String.join(", ", names) : voice.say(count, names.size());
    }

    /** A line for each machine. */
    private void list(List<SilentChannel> channels, Lines lines) {
        List<String> machines = channels.stream().map(SilentChannel::machine).distinct().toList();
        for (String machine : machines.stream().limit(MOST_MACHINES).toList()) {
            lines.add(
                    machine(
                            machine,
                            channels.stream()
                                    .filter(each -> each.machine().equals(machine))
                                    .toList()));
        }
        if (machines.size() > MOST_MACHINES) {
            lines.add(voice.say("outage.more", machines.size() - MOST_MACHINES));
        }
    }

    private String machine(String machine, List<SilentChannel> its) {
        String channels =
                String.join(
                        ", ",
                        its.stream()
                                .map(each -> voice.findings().channel(each.channel()))
                                .toList());
        OptionalLong back = its.stream().flatMapToLong(each -> each.backMicros().stream()).max();
        return its.stream().anyMatch(SilentChannel::isAway) || back.isEmpty()
                ? voice.say("outage.channels", machine, channels)
                : voice.say(
                        "outage.was",
                        machine,
                        channels,
                        voice.numbers().time(since(its)),
                        voice.numbers().time(back.getAsLong()));
    }
}
