package leat.config;

import static java.util.Objects.requireNonNull;

import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import leat.signal.PressureUnit;
import leat.words.Language;

/**
 * One site: everything that {@code site.yaml} says.
 *
 * @param name the site's name, for people
 * @param zone time zone for people; the store is UTC
 * @param language in which messages are written
 * @param shownIn unit in which pressures are shown
 * @param store where and how long data are kept
 * @param connections in the order of the file
 * @param machines in the order of the file; at least one
 * @param routes where messages go; at least one
 * @param instructions who may give instructions by MQTT; empty for nobody
 * @param page the status page; empty for none
 * @param hash SHA-256 of {@code text}, 64 hexadecimal digits
 * @param text the file as it was read; it never holds a secret, only where to find it
 */
public record Site(
        String name,
        ZoneId zone,
        Language language,
        PressureUnit shownIn,
        StoreSettings store,
        List<ConnectionSettings> connections,
        List<MachineSettings> machines,
        List<RouteSettings> routes,
        Optional<InstructionSettings> instructions,
        Optional<PageSettings> page,
        String hash,
        String text) {

    public Site {
        requireNonNull(name, "name");
        requireNonNull(zone, "zone");
        requireNonNull(language, "language");
        requireNonNull(shownIn, "shownIn");
        requireNonNull(store, "store");
        connections = List.copyOf(connections);
        machines = List.copyOf(machines);
        routes = List.copyOf(routes);
        requireNonNull(instructions, "instructions");
        requireNonNull(page, "page");
        requireNonNull(hash, "hash");
        requireNonNull(text, "text");
    }

    public Optional<ConnectionSettings> connection(String connectionName) {
        return connections.stream().filter(c -> c.name().equals(connectionName)).findFirst();
    }

    public Optional<MachineSettings> machine(String machineName) {
        return machines.stream().filter(m -> m.name().equals(machineName)).findFirst();
    }
}
