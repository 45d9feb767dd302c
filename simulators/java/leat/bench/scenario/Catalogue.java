package leat.bench.scenario;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;

/** The scenarios that come with the bench. Stateless. */
public final class Catalogue {

    private static final List<String> NAMES =
            List.of(
                    "demo",
                    "healthy",
                    "worn-booster",
                    "not-turning",
                    "weak-supply",
                    "water-shut",
                    "leaking-valve",
                    "leaking-valve-near-inlet",
                    "coupling-slips",
                    "slow-valve",
                    "part-open-valve",
                    "clogged-strainer",
                    "clogged-filter",
                    "set-too-low",
                    "set-too-high",
                    "sticking-regulator",
                    "external-leak",
                    "air-after-service",
                    "broken-loop",
                    "shorted-loop",
                    "stuck-transducer",
                    "offset-boosted",
                    "offset-inlet",
                    "span-boosted",
                    "swapped-cables",
                    "slow-publisher",
                    "healthy-weeks",
                    "wear-over-weeks",
                    "drifting-transducer");

    private Catalogue() {}

    /** Their names; {@code demo} first. */
    public static List<String> names() {
        return NAMES;
    }

    /** All of them. */
    public static List<Scenario> all() {
        return NAMES.stream().map(Catalogue::read).toList();
    }

    /** The one with that name. */
    public static Optional<Scenario> find(String name) {
        return NAMES.contains(name) ? Optional.of(read(name)) : Optional.empty();
    }

    private static Scenario read(String name) {
        String resource = "/leat/bench/scenarios/" + name + ".yaml";
        try (InputStream bytes = Catalogue.class.getResourceAsStream(resource)) {
            if (bytes == null) {
                throw new IllegalStateException(resource + " is not packaged");
            }
            String text = new String(bytes.readAllBytes(), StandardCharsets.UTF_8);
            return ScenarioLoader.parse(name + ".yaml", text);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } catch (ScenarioException e) {
            throw new IllegalStateException("packaged scenario: " + e.getMessage(), e);
        }
    }
}
