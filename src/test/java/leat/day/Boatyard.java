package leat.day;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import leat.config.LoadedSite;
import leat.config.Site;
import leat.config.SiteFile;
import leat.deliver.WebhookReceiver;

/** The site of the day, by way of a {@code site.yaml}. */
final class Boatyard {

    static final List<String> MACHINES = List.of("jet-1", "jet-2");

    private static final Map<String, String> SECRETS =
            Map.of("BROKER", "invented", "MAIL", "invented", "HOOK", WebhookReceiver.SECRET);

    private Boatyard() {}

    static Path database(Path folder) {
        return folder.resolve("data/leat.db");
    }

    /**
     * @param folder of the file; the database is under it
     * @param broker whose connection the site uses
     * @param parts one route to each
     */
    static Site site(Path folder, BrokerPart broker, List<Part> parts) throws IOException {
        StringBuilder yaml = new StringBuilder();
        yaml.append("site: { name: Boatyard, time_zone: UTC }\n");
        yaml.append("store: { folder: ./data }\n");
        yaml.append("connections:\n  ").append(BrokerPart.CONNECTION).append(":\n    ");
        yaml.append(broker.connectionYaml()).append("\n");
        yaml.append("limits:\n  signal: { blind: 4 s, missing: 20 s, stuck: 1 h }\n");
        yaml.append("machines:\n");
        MACHINES.forEach(machine -> yaml.append(machine(machine)));
        yaml.append("tell:\n");
        for (Part part : parts) {
            yaml.append("  ").append(part.route()).append(": { by: { ");
            yaml.append(part.yaml()).append(" } }\n");
        }
        Path file = Files.writeString(folder.resolve("site.yaml"), yaml);
        LoadedSite loaded = SiteFile.load(file, name -> Optional.ofNullable(SECRETS.get(name)));
        assertThat(loaded.problems()).isEmpty();
        return loaded.site().orElseThrow();
    }

    private static String machine(String name) {
        return """
          %1$s:
            channels:
              inlet: { from: hall, topic: { name: %1$s/inlet }, unit: psi }
              boosted: { from: hall, topic: { name: %1$s/boosted }, unit: psi }
              running: { from: hall, topic: { name: %1$s/running } }
        """
                .formatted(name);
    }
}
