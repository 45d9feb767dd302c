package leat.live;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import leat.config.ChannelSettings;
import leat.config.MachineSettings;
import leat.config.Site;
import leat.rule.Grade;
import leat.rule.Silence;
import leat.signal.Channel;
import leat.store.StoredAlarm;

/**
 * Alarms of channels that fell silent together, as they are called together: what they hang on is
 * away. Immutable.
 *
 * @param channels at least two, in the order of the site
 * @param whole names of the connections of which nothing comes at all
 */
public record OutageNow(List<Silent> channels, List<String> whole) {

    /**
     * One of them.
     *
     * @param alarm its own alarm
     * @param connection name of the connection that brings the channel
     */
    public record Silent(StoredAlarm alarm, String connection) {

        Channel channel() {
            return alarm.change().finding().channel();
        }
    }

    public OutageNow {
        channels = List.copyOf(channels);
        whole = List.copyOf(whole);
    }

    /**
     * Finds them: within five seconds of the first, or of a connection that is away already. An
     * alarm that comes and goes, and one that is alone, is of no outage.
     *
     * @param alarms some that are not back to normal; what is held back is passed over
     */
    public static List<OutageNow> among(List<StoredAlarm> alarms, Site site) {
        List<List<Silent>> groups = new ArrayList<>();
        alarms.stream()
                .filter(alarm -> !alarm.change().to().isHeld())
                .filter(alarm -> !alarm.change().notes().chattering())
                .filter(alarm -> Silence.isOfConnection(alarm.change().finding()))
                .sorted(
                        Comparator.comparing((StoredAlarm a) -> a.change().raisedAtMicros())
                                .thenComparing(StoredAlarm::number))
                .flatMap(alarm -> silent(alarm, site).stream())
                .forEach(silent -> into(groups, silent));
        return groups.stream()
                .filter(group -> group.size() > 1)
                .map(group -> of(group, site))
                .toList();
    }

    private static Optional<Silent> silent(StoredAlarm alarm, Site site) {
        return site.machine(alarm.machine())
                .map(machine -> machine.byChannel().get(alarm.change().finding().channel()))
                .map(channel -> new Silent(alarm, channel.connection()));
    }

    private static void into(List<List<Silent>> groups, Silent silent) {
        Optional<List<Silent>> known =
                groups.stream().filter(group -> isOf(group, silent)).findFirst();
        if (known.isPresent()) {
            known.get().add(silent);
        } else {
            groups.add(new ArrayList<>(List.of(silent)));
        }
    }

    private static boolean isOf(List<Silent> group, Silent silent) {
        long first = group.get(0).alarm().change().raisedAtMicros();
        return silent.alarm().change().raisedAtMicros() - first <= Silence.TOGETHER_MICROS
                || group.stream().anyMatch(each -> each.connection().equals(silent.connection()));
    }

    private static OutageNow of(List<Silent> group, Site site) {
        List<Silent> ordered = new ArrayList<>();
        Map<String, Boolean> whole = new LinkedHashMap<>();
        for (MachineSettings machine : site.machines()) {
            for (ChannelSettings channel : machine.channels()) {
                Optional<Silent> silent =
                        group.stream()
                                .filter(each -> each.alarm().machine().equals(machine.name()))
                                .filter(each -> each.channel() == channel.channel())
                                .findFirst();
                silent.ifPresent(ordered::add);
                whole.merge(channel.connection(), silent.isPresent(), Boolean::logicalAnd);
            }
        }
        return new OutageNow(
                ordered,
                whole.entrySet().stream()
                        .filter(Map.Entry::getValue)
                        .map(Map.Entry::getKey)
                        .toList());
    }

    /** Its alarms. */
    public List<StoredAlarm> alarms() {
        return channels.stream().map(Silent::alarm).toList();
    }

    public boolean has(StoredAlarm alarm) {
        return channels.stream().anyMatch(each -> each.alarm().number() == alarm.number());
    }

    /** Names of the connections that it is of, each once. */
    public List<String> connections() {
        return channels.stream().map(Silent::connection).distinct().toList();
    }

    /** Whether nothing at all comes from those connections. */
    public boolean isWhole() {
        return whole.containsAll(connections());
    }

    /** The channels that leat does not see, by the name of their machine. */
    public Map<String, List<Channel>> blind() {
        Map<String, List<Channel>> blind = new LinkedHashMap<>();
        channels.forEach(
                each ->
                        blind.computeIfAbsent(each.alarm().machine(), m -> new ArrayList<>())
                                .add(each.channel()));
        return blind;
    }

    /** The number by which people call all of it. */
    public long number() {
        return channels.stream().mapToLong(each -> each.alarm().number()).min().orElseThrow();
    }

    public Grade grade() {
        return channels.get(0).alarm().change().finding().grade();
    }

    /** Since when the first has been silent, microseconds UTC. */
    public long sinceMicros() {
        return channels.stream()
                .mapToLong(each -> each.alarm().change().finding().sinceMicros())
                .min()
                .orElseThrow();
    }

    /** Whether somebody has still to acknowledge one of them. */
    public boolean needsAcknowledging() {
        return channels.stream().anyMatch(each -> each.alarm().own().needsAcknowledging());
    }
}
