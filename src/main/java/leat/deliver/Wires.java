package leat.deliver;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import leat.config.ChannelSettings;
import leat.config.MachineSettings;
import leat.config.Site;
import leat.signal.Channel;

/** Which connection brings which channel. Immutable. */
final class Wires {

    private record Place(String machine, Channel channel) {}

    private final Map<Place, String> connections = new HashMap<>();
    private final Map<String, List<Place>> places = new LinkedHashMap<>();

    Wires(Site site) {
        for (MachineSettings machine : site.machines()) {
            for (ChannelSettings channel : machine.channels()) {
                Place place = new Place(machine.name(), channel.channel());
                connections.put(place, channel.connection());
                places.computeIfAbsent(channel.connection(), c -> new ArrayList<>()).add(place);
            }
        }
    }

    /** Empty when the site has no such channel any more. */
    Optional<String> connection(String machine, Channel channel) {
        return Optional.ofNullable(connections.get(new Place(machine, channel)));
    }

    /** The connections of which every channel is among these. */
    List<String> whole(List<SilentChannel> channels) {
        List<Place> silent =
                channels.stream().map(each -> new Place(each.machine(), each.channel())).toList();
        return channels.stream()
                .map(SilentChannel::connection)
                .distinct()
                .filter(
                        connection ->
                                silent.containsAll(places.getOrDefault(connection, List.of())))
                .toList();
    }
}
