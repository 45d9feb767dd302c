package leat.config;

import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.time.Duration;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import leat.signal.PressureUnit;
import leat.words.Language;

/** Reads the whole of {@code site.yaml}, once it is known to be YAML. */
final class SiteReader {

    private static final Key<String> NAME =
            Key.required("name", TextForm.LINE, "the site's name, for people");
    private static final Key<ZoneId> TIME_ZONE =
            Key.withDefault(
                    "time_zone",
                    new ZoneForm(),
                    ZoneId.of("UTC"),
                    Key.CHOICE,
                    "time zone in which times are shown; the store is UTC");
    private static final Key<Language> LANGUAGE =
            Key.withDefault(
                    "language",
                    ChoiceForm.of(List.of(Language.values()), Language::key),
                    Language.ENGLISH,
                    Key.CHOICE,
                    "language of the messages");
    private static final Key<PressureUnit> SHOW_PRESSURE_IN =
            Key.withDefault(
                    "show_pressure_in",
                    ChoiceForm.of(List.of(PressureUnit.values()), PressureUnit::symbol),
                    PressureUnit.PSI,
                    Key.CHOICE,
                    "unit in which pressures are shown");
    private static final Block SITE = Block.of(NAME, TIME_ZONE, LANGUAGE, SHOW_PRESSURE_IN);

    private static final Key<String> FOLDER =
            Key.withDefault(
                    "folder",
                    TextForm.LINE,
                    "./data",
                    Key.CHOICE,
                    "folder of the database; a relative one is taken from the folder of this file");
    private static final Key<Duration> KEEP_SAMPLES =
            Key.withDefault(
                    "keep_samples",
                    TimeForm.of(Duration.ofHours(1), Duration.ofDays(3650)),
                    Duration.ofDays(365),
                    Key.CHOICE,
                    "running time for which samples are kept; startups, alarms and the journal stay");
    private static final Key<String> GROUP =
            Key.optional(
                    "group",
                    Texts.GROUP,
                    "group of users of this computer who may read the database too; left out,"
                            + " only the user that leat runs as");
    private static final Block STORE = Block.of(FOLDER, KEEP_SAMPLES, GROUP);

    private static final Named MACHINES = new Named("machine", MachineReader.BLOCK);
    private static final Named ROUTES = new Named("route", RouteReader.BLOCK);

    private static final String TELL = "who is told, each by a name, and by what means";

    /** Everything that the file may hold. */
    static final Block BLOCK =
            Block.of(
                            Part.required("site", SITE, "the site itself"),
                            Part.optional("store", STORE, "where and how long data are kept"),
                            Part.required(
                                    "connections",
                                    Connections.SHAPE,
                                    "ways to the field, each by a name"),
                            Part.optional(
                                    "limits",
                                    LimitsReader.BLOCK,
                                    "what every machine is judged by"),
                            Part.required("machines", MACHINES, "the machines, each by a name"),
                            Part.required("tell", ROUTES, TELL),
                            Part.optional(
                                    "instructions",
                                    InstructionReader.BLOCK,
                                    "who may give leat instructions by MQTT; left out, nobody"),
                            Part.optional(
                                    "page",
                                    PageReader.BLOCK,
                                    "a page that shows how the machines are, read only; left out,"
                                            + " none and nothing listens"))
                    .formerly(FormerKeys.ROUTES);

    /**
     * What a text may hold that was kept: its machines are judged by it, nobody is told by it. Who
     * was told stood there under another name once, which is passed over.
     */
    private static final Block KEPT =
            BLOCK.with(Part.optional("tell", ROUTES, TELL))
                    .with(Part.optional(FormerKeys.ROUTES.name(), Block.of(), "passed over"));

    private final Path folder;
    private final SecretReader secrets;
    private final Block block;

    private SiteReader(Path folder, SecretReader secrets, Block block) {
        this.folder = folder;
        this.secrets = secrets;
        this.block = block;
    }

    /**
     * Reads the file that leat is to run by.
     *
     * @param folder relative paths are taken from here
     */
    static SiteReader ofFile(Path folder, SecretReader secrets) {
        return new SiteReader(folder, secrets, BLOCK);
    }

    /** Reads a text that was kept, perhaps by an earlier leat; fetches no secret. */
    static SiteReader ofKept() {
        return new SiteReader(Path.of(""), SecretReader.fetchingNone(), KEPT);
    }

    /**
     * Reads as far as it can, so that everything wrong is reported; the site is only of use if
     * nothing was.
     *
     * @param root the whole document
     * @param text the file as it was read
     */
    Optional<Site> read(Cursor root, String text) {
        Fields top = Fields.of(root, block);
        Optional<Fields> site = top.at("site").map(c -> Fields.of(c, SITE));
        Optional<StoreSettings> store = store(top.at("store"));
        Connections connections =
                Connections.read(top.at("connections"), new ConnectionReader(secrets));
        List<Machine> machines = machines(top, connections);
        List<Route> routes = routes(top, connections, secrets);
        connections.giveStatusTopics(routes);
        Optional<InstructionSettings> instructions =
                top.at("instructions")
                        .flatMap(new InstructionReader(connections, machines, secrets)::read);
        Optional<PageSettings> page = top.at("page").flatMap(new PageReader(secrets)::read);
        connections.warnOfUnused();
        new SharedUse(connections).check(machines, routes);
        PollCheck.check(connections, machines);
        if (site.filter(Fields::isWhole).isEmpty() || store.isEmpty()) {
            return Optional.empty();
        }
        return Optional.of(
                new Site(
                        site.get().the(NAME),
                        site.get().the(TIME_ZONE),
                        site.get().the(LANGUAGE),
                        site.get().the(SHOW_PRESSURE_IN),
                        store.get(),
                        connections.settings(),
                        machines.stream().map(Machine::settings).toList(),
                        routes.stream().map(Route::settings).toList(),
                        instructions,
                        page,
                        Sha256.of(text),
                        text));
    }

    private static List<Machine> machines(Fields top, Connections connections) {
        GivenLimits limits = LimitsReader.read(top.at("limits"), GivenLimits.NONE);
        MachineReader reader = new MachineReader(new ChannelReader(connections), limits);
        List<Machine> machines = new ArrayList<>();
        named(top.at("machines"), MACHINES)
                .forEach((name, at) -> machines.add(reader.read(name, at)));
        return machines;
    }

    private static List<Route> routes(Fields top, Connections connections, SecretReader secrets) {
        Set<String> machines =
                top.at("machines").map(MACHINES::names).map(Set::copyOf).orElse(Set.of());
        RouteReader reader = new RouteReader(connections, machines, secrets);
        List<Route> routes = new ArrayList<>();
        named(top.at("tell"), ROUTES)
                .forEach((name, at) -> reader.read(name, at).ifPresent(routes::add));
        return routes;
    }

    private static Map<String, Cursor> named(Optional<Cursor> at, Named shape) {
        return at.map(shape::read).orElse(Map.of());
    }

    private Optional<StoreSettings> store(Optional<Cursor> at) {
        if (at.isEmpty()) {
            String standard = FOLDER.fallback().orElseThrow();
            Duration keep = KEEP_SAMPLES.fallback().orElseThrow();
            return Optional.of(new StoreSettings(inFolder(standard), keep));
        }
        Fields fields = Fields.of(at.get(), STORE);
        if (!fields.isWhole()) {
            return Optional.empty();
        }
        try {
            Path path = inFolder(fields.the(FOLDER));
            return Optional.of(
                    new StoreSettings(path, fields.the(KEEP_SAMPLES), fields.maybe(GROUP)));
        } catch (InvalidPathException e) {
            fields.at("folder")
                    .orElse(at.get())
                    .wrong("this system cannot have a folder of that name", "another name");
            return Optional.empty();
        }
    }

    private Path inFolder(String name) {
        return folder.resolve(name).normalize();
    }
}
