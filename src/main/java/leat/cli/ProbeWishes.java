package leat.cli;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import leat.config.ConnectionSettings;
import leat.config.ConnectionSettings.ModbusTcp;
import leat.config.ConnectionSettings.Mqtt;
import leat.config.SiteFile;
import leat.signal.Channel;
import leat.wiring.ChannelLines;
import leat.wiring.Doubts;
import leat.wiring.Guess;
import leat.wiring.Span;
import leat.wiring.TypedPressure;
import picocli.CommandLine.Option;

/** What a person knows of a transducer, and what lines are wanted for it. */
final class ProbeWishes {

    @Option(
            names = "--range",
            paramLabel = "LOW..HIGH",
            description = "the transducer's span, as on its name plate: '0..200 psi'")
    private String range;

    @Option(
            names = "--against",
            paramLabel = "PRESSURE",
            description = "what a hand gauge on the same line shows now: '62 psi'")
    private String against;

    @Option(
            names = "--channel",
            paramLabel = "NAME",
            description = "print the lines of this channel for site.yaml: inlet, boosted, filtered")
    private String channel;

    @Option(
            names = "--machine",
            paramLabel = "NAME",
            defaultValue = "jet-1",
            description = "its machine, in a whole file (default: jet-1)")
    private String machine;

    @Option(
            names = "--as",
            paramLabel = "WORDS",
            description = "of the likely readings that with these words, such as 'int16 uA'")
    private String as;

    @Option(names = "--all", description = "list every register and every reading in range")
    private boolean all;

    /** Where the lines of a channel go. */
    interface Lines {
        List<String> of(ProbeWishes wishes, Guess guess, String remark);
    }

    boolean all() {
        return all;
    }

    boolean wantsLines() {
        return channel != null;
    }

    void refuseWhatDoesNotFit() {
        doubts();
        if (wantsLines()) {
            channel();
        }
        if (!machine.matches("[A-Za-z0-9][A-Za-z0-9_-]{0,39}")) {
            throw wrong("cli.probe.machine");
        }
    }

    Doubts doubts() {
        return new Doubts(span(), Optional.ofNullable(against).map(ProbeWishes::pressure));
    }

    static TypedPressure pressure(String typed) {
        return TypedPressure.read(typed).orElseThrow(() -> wrong("cli.probe.no-pressure", typed));
    }

    private Optional<Span> span() {
        return Optional.ofNullable(range)
                .map(
                        typed ->
                                Span.read(typed)
                                        .orElseThrow(() -> wrong("cli.probe.no-range", typed)));
    }

    private Channel channel() {
        return Channel.byKey(channel)
                .filter(Channel::isPressure)
                .orElseThrow(() -> wrong("cli.probe.channel"));
    }

    boolean isWanted(Guess guess) {
        return as == null || guess.isAs(as);
    }

    /** The lines of a channel for a connection that the site has. */
    Lines within(String connection) {
        return (wishes, guess, remark) -> wishes.channelLines(connection, guess, remark);
    }

    /** A whole file that reads this one channel. */
    Lines whole(ConnectionSettings connection) {
        return (wishes, guess, remark) -> {
            List<String> lines = new ArrayList<>(List.of("site: { name: Site }", "connections:"));
            lines.add("  " + connection.name() + ":");
            lines.add(
                    connection instanceof ModbusTcp modbus
                            ? "    modbus_tcp: { host: '"
                                    + modbus.host()
                                    + "', port: "
                                    + modbus.port()
                                    + " }"
                            : "    mqtt: { url: '"
                                    + ((Mqtt) connection).url()
                                    + "', client_id: leat }");
            lines.addAll(List.of("tell:", "  log:", "    by: { log: { } }", "machines:"));
            lines.add("  " + wishes.machine + ":");
            lines.add("    channels:");
            lines.addAll(wishes.channelLines(connection.name(), guess, remark));
            return checked(lines);
        };
    }

    private List<String> channelLines(String connection, Guess guess, String remark) {
        Optional<Span> span = span();
        if (guess.needsSpan() && span.isEmpty()) {
            throw wrong("cli.probe.needs-range", guess.as());
        }
        return new ChannelLines(channel(), connection, span).of(guess, remark);
    }

    /** What leat itself would not take is not offered. The machine needs a boosted channel. */
    private List<String> checked(List<String> lines) {
        if (channel() == Channel.BOOSTED) {
            String text = String.join("\n", lines) + "\n";
            if (SiteFile.archived(text).site().isEmpty()) {
                throw new IllegalStateException(SiteFile.archived(text).problems().toString());
            }
        }
        return lines;
    }

    private static CommandFailure.Expected wrong(String key, Object... values) {
        return new CommandFailure.Expected(ExitCode.WRONG, key, values);
    }
}
