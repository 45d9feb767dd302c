package leat.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import leat.acquire.modbus.RegisterSurvey;
import leat.config.ConnectionSettings;
import leat.config.ConnectionSettings.ModbusTcp;
import leat.config.ConnectionSettings.Mqtt;
import leat.config.Point.Table;
import leat.config.ReferenceNumber;
import leat.signal.LengthOfTime;
import leat.tls.Trust;
import leat.words.Language;
import leat.words.Phrases;
import leat.words.Saying;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
        name = "probe",
        mixinStandardHelpOptions = true,
        description = {
            "Shows what an unknown Modbus device or MQTT broker has to say, and which of it makes sense as a"
                    + " pressure. It only reads: function codes 1 to 4, subscriptions.",
            "leat probe cabinet-1 looks at a connection of site.yaml; leat probe modbus 192.0.2.10:502 and"
                    + " leat probe mqtt tcp://192.0.2.11:1883 need none.",
            "--range tells the transducer's span, --against what a hand gauge on the line shows just now:"
                    + " with both, a reading can hardly be mistaken. Have some pressure on the line.",
            "--channel prints the lines for site.yaml and nothing else on standard output: a whole file for"
                    + " an address, the lines below channels for a connection of the site."
        })
final class ProbeCommand implements Callable<Integer>, Speaking {

    private static final Pattern HOST_PORT =
            Pattern.compile("(\\[[0-9A-Fa-f:.]+\\]|[A-Za-z0-9._-]+)(?::([0-9]{1,5}))?");
    private static final String MODBUS_PORT = "502";
    private static final Duration REPLY = Duration.ofSeconds(1);
    private static final Duration UNUSED = Duration.ofSeconds(15);

    @Parameters(
            index = "0",
            paramLabel = "CONNECTION",
            description = "a connection of the site, or modbus or mqtt with an address behind it")
    private String connection;

    @Parameters(
            index = "1",
            arity = "0..1",
            paramLabel = "ADDRESS",
            description = "host:port, or the URL of a broker such as tcp://192.0.2.11:1883")
    private String address;

    @Option(
            names = {"-s", "--site"},
            paramLabel = "FILE",
            description = "the site's configuration (default: $LEAT_SITE, or site.yaml here)")
    private Path site;

    @Option(
            names = "--unit",
            paramLabel = "ID",
            defaultValue = "1",
            description = "Modbus unit identifier (default: 1)")
    private int unit;

    @Option(
            names = "--table",
            paramLabel = "NAME",
            defaultValue = "both",
            description = "input, holding or both (default: both)")
    private String table;

    @Option(
            names = "--from",
            paramLabel = "N",
            defaultValue = "0",
            description = "first register, counted from 0 (default: 0)")
    private int from;

    @Option(
            names = "--count",
            paramLabel = "N",
            defaultValue = "16",
            description = "so many registers; one neighbour on each side is read too (default: 16)")
    private int count;

    @Option(
            names = "--topic",
            paramLabel = "FILTER",
            defaultValue = "#",
            description = "MQTT topics, wildcards allowed (default: all)")
    private String topic;

    @Option(
            names = "--for",
            paramLabel = "TIME",
            description = "how long to look (default: 4s at a device, 10s at a broker)")
    private String time;

    @Option(
            names = "--lang",
            paramLabel = "LANGUAGE",
            converter = LanguageChoice.class,
            description = "en or de (default: the site's, where a connection of it is probed)")
    private Language language;

    @Mixin private ProbeWishes wishes;

    @Mixin private TableWidth width;

    @Spec private CommandSpec spec;

    /** Asked for, or of the site whose connection it is. */
    @Override
    public Optional<Language> language() {
        return Optional.ofNullable(language)
                .or(
                        () ->
                                address == null
                                        ? SiteChoice.languageOf(SiteChoice.orUsual(site))
                                        : Optional.empty());
    }

    private Phrases phrases() {
        return Phrases.in(language().orElse(Language.ENGLISH));
    }

    @Override
    public Integer call() throws IOException, InterruptedException {
        wishes.refuseWhatDoesNotFit();
        if (address == null) {
            return atSite();
        }
        return switch (connection) {
            case "modbus" -> device(modbus(), wishes.whole(modbus()));
            case "mqtt" -> broker(mqtt(), wishes.whole(mqtt()));
            default -> throw wrong("cli.probe.address-kind", address);
        };
    }

    private int atSite() throws IOException, InterruptedException {
        if (connection.equals("modbus") || connection.equals("mqtt")) {
            throw wrong("cli.probe.say-where");
        }
        List<ConnectionSettings> all = SiteChoice.load(SiteChoice.orUsual(site)).connections();
        ConnectionSettings chosen =
                all.stream()
                        .filter(c -> c.name().equals(connection))
                        .findFirst()
                        .orElseThrow(
                                () ->
                                        wrong(
                                                "cli.probe.no-connection",
                                                connection,
                                                all.stream()
                                                        .map(ConnectionSettings::name)
                                                        .toList()
                                                        .toString()));
        ProbeWishes.Lines lines = wishes.within(connection);
        return chosen instanceof ModbusTcp modbus
                ? device(modbus, lines)
                : broker((Mqtt) chosen, lines);
    }

    private int device(ModbusTcp device, ProbeWishes.Lines lines)
            throws IOException, InterruptedException {
        RegisterSurvey.Aim aim =
                new RegisterSurvey.Aim(
                        device.host(),
                        device.port(),
                        requireWithin("--unit", unit, 0, 255),
                        tables(),
                        Math.max(0, first() - 1),
                        Math.min(0xffff, first() + size()),
                        device.timeout());
        ProbeOfDevice probe = new ProbeOfDevice(spec, width, wishes, lines, phrases());
        return probe.run(aim, first(), first() + size() - 1, time(Duration.ofSeconds(4)));
    }

    private int broker(Mqtt broker, ProbeWishes.Lines lines) throws InterruptedException {
        String clientId = "leat-probe-" + UUID.randomUUID().toString().substring(0, 8);
        ProbeOfBroker probe = new ProbeOfBroker(spec, width, wishes, lines, phrases());
        return probe.run(broker, clientId, topic, time(Duration.ofSeconds(10)));
    }

    private ModbusTcp modbus() {
        Matcher typed = HOST_PORT.matcher(address);
        if (!typed.matches()) {
            throw wrong("cli.probe.no-device", address);
        }
        int port = Integer.parseInt(Optional.ofNullable(typed.group(2)).orElse(MODBUS_PORT));
        String host = typed.group(1).replaceAll("[\\[\\]]", "");
        return new ModbusTcp(
                "device",
                host,
                requireWithin(Saying.of("cli.probe.port"), port, 1, 65_535),
                REPLY,
                REPLY,
                UNUSED);
    }

    private Mqtt mqtt() {
        if (!address.matches("(tcp|ssl)://([A-Za-z0-9._-]+|\\[[0-9A-Fa-f:.]+\\])(:[0-9]{1,5})?")) {
            throw wrong("cli.probe.no-broker", address);
        }
        return new Mqtt(
                "broker",
                address,
                "leat",
                Optional.empty(),
                Optional.empty(),
                Trust.OF_THE_RUNTIME,
                Optional.empty(),
                UNUSED,
                UNUSED);
    }

    private List<Table> tables() {
        return switch (table) {
            case "input" -> List.of(Table.INPUT_REGISTER);
            case "holding" -> List.of(Table.HOLDING_REGISTER);
            case "both" -> List.of(Table.INPUT_REGISTER, Table.HOLDING_REGISTER);
            default -> throw wrong("cli.probe.no-table");
        };
    }

    private int first() {
        if (from > 0xffff) {
            String manual = ReferenceNumber.of(from).map(n -> ": " + n.words()).orElse("");
            throw wrong("cli.probe.from", manual);
        }
        return requireWithin("--from", from, 0, 0xffff);
    }

    private int size() {
        requireWithin("--count", count, 1, RegisterSurvey.MOST - 2);
        return Math.min(count, 0x10000 - first());
    }

    private Duration time(Duration usual) {
        if (time == null) {
            return usual;
        }
        return LengthOfTime.read(time)
                .filter(t -> t.toMillis() >= 1000 && t.toMinutes() <= 10)
                .orElseThrow(() -> wrong("cli.probe.for"));
    }

    private static int requireWithin(Object what, int value, int low, int high) {
        if (value < low || value > high) {
            throw wrong("cli.probe.within", what, Integer.toString(low), Integer.toString(high));
        }
        return value;
    }

    private static CommandFailure.Expected wrong(String key, Object... values) {
        return new CommandFailure.Expected(ExitCode.WRONG, key, values);
    }
}
