package leat.bench.scenario;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.api.lowlevel.Compose;
import org.snakeyaml.engine.v2.exceptions.Mark;
import org.snakeyaml.engine.v2.exceptions.MarkedYamlEngineException;
import org.snakeyaml.engine.v2.exceptions.YamlEngineException;
import org.snakeyaml.engine.v2.nodes.Node;

/** Reads scenario files; {@code simulators/README.md} describes them. */
public final class ScenarioLoader {

    private static final Set<String> TOP =
            Set.of(
                    "name",
                    "description",
                    "shows",
                    "apart",
                    "expect",
                    "seed",
                    "duration",
                    "loop",
                    "publishing",
                    "machines");
    private static final Set<String> PUBLISHING = Set.of("every", "jitter", "lost");

    private static final int LARGEST = 1 << 20;

    private final String file;
    private final List<String> problems = new ArrayList<>();

    private ScenarioLoader(String file) {
        this.file = file;
    }

    /**
     * Reads a file.
     *
     * @throws ScenarioException with everything that is wrong in it
     * @throws IOException if it cannot be read
     */
    public static Scenario load(Path file) throws ScenarioException, IOException {
        if (Files.exists(file) && !Files.isRegularFile(file)) {
            throw unfit(file, "is no regular file");
        }
        try (InputStream in = Files.newInputStream(file)) {
            byte[] bytes = in.readNBytes(LARGEST + 1);
            if (bytes.length > LARGEST) {
                throw unfit(file, "has more than 1 MB");
            }
            String text =
                    StandardCharsets.UTF_8.newDecoder().decode(ByteBuffer.wrap(bytes)).toString();
            return parse(file.toString(), text);
        }
    }

    /** A pipe or a device may never end. */
    private static ScenarioException unfit(Path file, String why) {
        return new ScenarioException(List.of(file + ": this " + why));
    }

    /**
     * Reads a text.
     *
     * @param file how to call it in messages
     * @throws ScenarioException with everything that is wrong in it
     */
    public static Scenario parse(String file, String text) throws ScenarioException {
        return new ScenarioLoader(file).read(text);
    }

    private Scenario read(String text) throws ScenarioException {
        Optional<Node> root = compose(text);
        Optional<Scenario> scenario = root.flatMap(this::scenario);
        if (scenario.isEmpty() || !problems.isEmpty()) {
            throw new ScenarioException(problems);
        }
        return scenario.get();
    }

    private Optional<Node> compose(String text) {
        LoadSettings settings = LoadSettings.builder().setUseMarks(true).setLabel(file).build();
        try {
            Optional<Node> root = new Compose(settings).composeString(text);
            if (root.isEmpty()) {
                problems.add(file + ":1: the file is empty");
            }
            return root;
        } catch (MarkedYamlEngineException e) {
            int line = e.getProblemMark().map(Mark::getLine).orElse(0) + 1;
            problems.add(file + ":" + line + ": not YAML: " + e.getProblem());
        } catch (YamlEngineException e) {
            problems.add(file + ":1: not YAML: " + e.getMessage());
        }
        return Optional.empty();
    }

    private Optional<Scenario> scenario(Node root) {
        Fields fields = new Fields(file, root, TOP, problems);
        String name = fields.text("name");
        String description = fields.text("description");
        Guide guide =
                new Guide(
                        fields.textOr("shows", ""),
                        fields.textOr("apart", ""),
                        fields.text("expect"));
        double seed = fields.number("seed", 0, 1e9);
        Duration duration = fields.time("duration", 1, TimelineReader.LONGEST_SECONDS);
        boolean loop = fields.flag("loop");
        Publishing publishing = publishing(fields);
        List<MachineScript> machines = machines(fields, duration, loop);
        if (!problems.isEmpty()) {
            return Optional.empty();
        }
        return Optional.of(
                new Scenario(
                        name,
                        description,
                        guide,
                        Math.round(seed),
                        duration,
                        loop,
                        publishing,
                        machines));
    }

    private static Publishing publishing(Fields fields) {
        Publishing usual = Publishing.USUAL;
        return fields.below("publishing", PUBLISHING)
                .map(
                        given ->
                                new Publishing(
                                        given.time("every", usual.every(), 0.05, 3_600),
                                        given.time("jitter", usual.jitter(), 0, 600),
                                        given.in("%", "lost", usual.lostPercent(), 0, 100)))
                .orElse(usual);
    }

    private List<MachineScript> machines(Fields fields, Duration duration, boolean loop) {
        MachineReader reader = new MachineReader(file, problems, duration, loop);
        List<MachineScript> machines = new ArrayList<>();
        fields.node("machines")
                .map(node -> new Fields(file, node, Set.of(), problems))
                .ifPresent(
                        named ->
                                named.all()
                                        .forEach(
                                                (name, node) ->
                                                        machines.add(reader.read(name, node))));
        if (machines.isEmpty()) {
            fields.problem("machines must name at least one machine");
        }
        return machines;
    }
}
