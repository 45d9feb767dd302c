package leat.words;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import leat.signal.Channel;

/** What is said of channels that fell silent together, wherever it is shown. Immutable. */
public final class OutageWords {

    private final Phrases phrases;

    public OutageWords(Phrases phrases) {
        this.phrases = requireNonNull(phrases, "phrases");
    }

    /**
     * Such as {@code nothing comes from cabinet-1}.
     *
     * @param connections names of those that it is of
     * @param isWhole whether nothing at all comes from them
     * @param channels how many channels are silent
     */
    public String what(List<String> connections, boolean isWhole, int channels) {
        String names = String.join(", ", connections);
        return isWhole
                ? phrases.say("outage.whole", names)
                : phrases.say("outage.part", channels, names);
    }

    /** Such as {@code jet-1 inlet, boosted; jet-2 boosted}. */
    public String blind(Map<String, List<Channel>> channels) {
        return channels.entrySet().stream()
                .map(each -> each.getKey() + " " + names(each.getValue()))
                .collect(Collectors.joining("; "));
    }

    /** Such as {@code inlet, boosted}. */
    public String names(List<Channel> channels) {
        return channels.stream()
                .map(channel -> phrases.say("channel." + channel.key()))
                .collect(Collectors.joining(", "));
    }
}
