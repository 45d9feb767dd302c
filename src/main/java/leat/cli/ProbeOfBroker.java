package leat.cli;

import java.time.Duration;
import leat.config.ConnectionSettings.Mqtt;
import leat.mqtt.Heard;
import leat.mqtt.Overhearing;
import leat.report.TextTable;
import leat.signal.PlainText;
import leat.wiring.TopicGuesses;
import leat.words.Language;
import leat.words.Phrases;
import picocli.CommandLine.Model.CommandSpec;

/** Listens at a broker and says what its topics may be. */
final class ProbeOfBroker {

    private static final int SHOWN = 20;
    private static final int LONGEST = 120;

    private final TableWidth width;
    private final ProbeWishes wishes;
    private final ProbeSays says;

    ProbeOfBroker(CommandSpec spec, TableWidth width, ProbeWishes wishes, ProbeWishes.Lines lines) {
        this.width = width;
        this.wishes = wishes;
        this.says = new ProbeSays(spec, width, wishes, lines);
    }

    /** Returns the exit code. */
    int run(Mqtt broker, String clientId, String filter, Duration time)
            throws InterruptedException {
        says.note(
                "Listening to "
                        + PlainText.harmless(filter, LONGEST)
                        + " at "
                        + broker.url()
                        + " for "
                        + time.toSeconds()
                        + " s as "
                        + clientId
                        + ". Nothing is published.");
        Heard heard = new Overhearing(broker, clientId, filter).listen(time);
        heard.fault().ifPresent(says::note);
        if (heard.topics().isEmpty()) {
            says.note(
                    heard.fault().isPresent()
                            ? "Nothing was heard."
                            : "Nothing came. Does the sensor publish, and here? Try a longer --for,"
                                    + " --topic '#', and the rights of this user at the broker.");
            return ExitCode.FAILED;
        }
        if (!wishes.wantsLines()) {
            list(heard);
        }
        return says.guesses(new TopicGuesses(wishes.doubts()).of(heard));
    }

    private void list(Heard heard) {
        says.note("");
        TextTable table = new TextTable("messages").firm("").soft("topic", 20).soft("payload", 20);
        int shown = wishes.all() ? heard.topics().size() : Math.min(SHOWN, heard.topics().size());
        for (Heard.Topic topic : heard.topics().subList(0, shown)) {
            table.row(
                    Long.toString(topic.count()),
                    topic.isRetainedAlone() ? "retained" : "",
                    topic.name(),
                    topic.messages().isEmpty()
                            ? "(not kept)"
                            : topic.messages().get(topic.messages().size() - 1).text());
        }
        boolean whole = width.print(table);
        if (shown < heard.topics().size()) {
            says.note(heard.topics().size() - shown + " more topics with --all.");
        }
        if (heard.passedOver() > 0) {
            says.note(
                    heard.passedOver()
                            + " messages of further topics came; a narrower --topic shows them.");
        }
        if (heard.topics().stream().anyMatch(Heard.Topic::isRetainedAlone)) {
            says.note(
                    "retained: the broker had kept it, of any age; leat takes none for a sample.");
        }
        width.more(whole, Phrases.in(Language.ENGLISH));
    }
}
