package leat.config;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.time.temporal.ChronoUnit;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import leat.rule.Limit;
import leat.rule.Limits;
import leat.signal.Channel;

/**
 * One machine.
 *
 * @param name short name, lower-case letters, digits and dashes
 * @param channels at least BOOSTED, each role once
 * @param limits the site's limits with this machine's own put over them
 */
public record MachineSettings(String name, List<ChannelSettings> channels, Limits limits) {

    public MachineSettings {
        requireNonNull(name, "name");
        channels = List.copyOf(channels);
        requireNonNull(limits, "limits");
    }

    public Map<Channel, ChannelSettings> byChannel() {
        Map<Channel, ChannelSettings> byChannel = new EnumMap<>(Channel.class);
        channels.forEach(c -> byChannel.put(c.channel(), c));
        return byChannel;
    }

    /** The longest that an alarm of this machine may be shelved at a time. */
    public Duration longestHold() {
        return Duration.of(limits.micros(Limit.ALARM_LONGEST_HOLD), ChronoUnit.MICROS);
    }
}
