package leat.cli;

import java.time.Duration;
import leat.config.ConnectionSettings.Mqtt;
import leat.mqtt.Heard;
import leat.mqtt.Overhearing;
import leat.report.TextTable;
import leat.signal.PlainText;
import leat.wiring.TopicGuesses;
import leat.words.FaultWords;
import leat.words.Phrases;
import picocli.CommandLine.Model.CommandSpec;

/** Listens at a broker and says what its topics may be. */
final class ProbeOfBroker {

    private static final int SHOWN = 20;
    private static final int LONGEST = 120;

    private final TableWidth width;
    private final Phrases phrases;
    private final ProbeWishes wishes;
    private final ProbeSays says;

    ProbeOfBroker(
            CommandSpec spec,
            TableWidth width,
            ProbeWishes wishes,
            ProbeWishes.Lines lines,
            Phrases phrases) {
        this.phrases = phrases;
        this.width = width;
        this.wishes = wishes;
        this.says = new ProbeSays(spec, width, wishes, lines, phrases);
    }

    /** Returns the exit code. */
    int run(Mqtt broker, String clientId, String filter, Duration time)
            throws InterruptedException {
        says.note(
                phrases.say(
                        "cli.probe.listening",
                        PlainText.harmless(filter, LONGEST),
                        broker.url(),
                        Long.toString(time.toSeconds()),
                        clientId));
        Heard heard = new Overhearing(broker, clientId, filter).listen(time);
        heard.fault().map(new FaultWords(phrases)::of).ifPresent(says::note);
        if (heard.topics().isEmpty()) {
            says.note(
                    phrases.say(
                            heard.fault().isPresent()
                                    ? "cli.probe.heard-nothing"
                                    : "cli.probe.nothing-came"));
            return ExitCode.FAILED;
        }
        if (!wishes.wantsLines()) {
            list(heard);
        }
        return says.guesses(new TopicGuesses(wishes.doubts()).of(heard));
    }

    private void list(Heard heard) {
        says.note("");
        TextTable table =
                new TextTable(phrases.say("cli.probe.messages"))
                        .firm("")
                        .soft(phrases.say("cli.probe.topic"), 20)
                        .soft(phrases.say("cli.probe.payload"), 20);
        int shown = wishes.all() ? heard.topics().size() : Math.min(SHOWN, heard.topics().size());
        for (Heard.Topic topic : heard.topics().subList(0, shown)) {
            table.row(
                    Long.toString(topic.count()),
                    topic.isRetainedAlone() ? phrases.say("cli.probe.retained") : "",
                    topic.name(),
                    topic.messages().isEmpty()
                            ? phrases.say("cli.probe.not-kept")
                            : topic.messages().get(topic.messages().size() - 1).text());
        }
        boolean whole = width.print(table);
        if (shown < heard.topics().size()) {
            says.note(
                    phrases.say(
                            "cli.probe.more-topics",
                            Integer.toString(heard.topics().size() - shown)));
        }
        if (heard.passedOver() > 0) {
            says.note(phrases.say("cli.probe.passed-over", Long.toString(heard.passedOver())));
        }
        if (heard.topics().stream().anyMatch(Heard.Topic::isRetainedAlone)) {
            says.note(phrases.say("cli.probe.retained-is"));
        }
        width.more(whole, phrases);
    }
}
