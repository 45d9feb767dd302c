package leat.bench;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import leat.bench.panel.Wiring;

/**
 * Writes a {@code site.yaml}. A machine on two panels is read from the first.
 *
 * @param site name of the site
 * @param wirings of the panels
 */
record SiteText(String site, List<Wiring> wirings) {

    private static final String HEAD =
            """
            # Reads a bench: every machine in here is invented.
            site: { name: %s, time_zone: UTC, show_pressure_in: psi }
            store: { folder: ./data, keep_samples: 30 d }
            """;
    private static final String TELL =
            """
            tell:
              log: { by: { log: { } } }
            """;

    SiteText {
        wirings = List.copyOf(wirings);
    }

    String text() {
        StringBuilder text = new StringBuilder(String.format(HEAD, site));
        text.append("connections:\n");
        Map<String, Wiring.Channels> machines = new LinkedHashMap<>();
        for (Wiring wiring : wirings) {
            text.append("  ").append(wiring.connection()).append(": ");
            text.append(wiring.settings()).append('\n');
            wiring.machines().forEach(machines::putIfAbsent);
        }
        text.append("machines:\n");
        machines.forEach((machine, channels) -> append(text, machine, channels));
        return text.append(TELL).toString();
    }

    private static void append(StringBuilder text, String machine, Wiring.Channels channels) {
        text.append("  ").append(machine).append(":\n    channels:\n");
        channels.lines()
                .forEach(
                        (channel, lines) -> {
                            text.append("      ").append(channel).append(":\n");
                            text.append(lines.indent(8));
                        });
    }
}
