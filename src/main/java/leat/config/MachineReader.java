package leat.config;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import leat.rule.Limit;
import leat.signal.Channel;

/** Reads one entry of {@code machines}. */
final class MachineReader {

    private static final Block CHANNELS =
            Block.of(
                    List.of(Channel.values()).stream()
                            .map(MachineReader::part)
                            .toArray(Entry[]::new));

    static final Block BLOCK =
            Block.of(
                    Part.required("channels", CHANNELS, "its transducers and contacts"),
                    Part.optional("limits", LimitsReader.BLOCK, "limits of this machine alone"));

    private final ChannelReader channels;
    private final GivenLimits siteLimits;

    MachineReader(ChannelReader channels, GivenLimits siteLimits) {
        this.channels = channels;
        this.siteLimits = siteLimits;
    }

    private static Part part(Channel channel) {
        boolean required = channel == Channel.BOOSTED;
        return new Part(channel.key(), required, ChannelReader.block(channel), meaning(channel));
    }

    private static String meaning(Channel channel) {
        return switch (channel) {
            case INLET ->
                    "gauge pressure before the booster; without it the ratio, inlet and 'leaks through' rules are left out";
            case BOOSTED -> "gauge pressure after the booster";
            case FILTERED -> "gauge pressure after the filters, where fitted";
            case RUNNING -> "booster contactor: 1 while the booster is told to run";
            case VALVE -> "shut-off valve: 1 while it is open";
            case CUTTING -> "jet: 1 while it is on";
        };
    }

    Machine read(String name, Cursor at) {
        Fields fields = Fields.of(at, BLOCK);
        List<Machine.Wired> wired = new ArrayList<>();
        Optional<Cursor> channelsAt = fields.at("channels");
        if (channelsAt.isPresent()) {
            Fields byRole = Fields.of(channelsAt.get(), CHANNELS);
            for (Channel channel : Channel.values()) {
                byRole.at(channel.key())
                        .ifPresent(
                                c ->
                                        channels.read(channel, c)
                                                .ifPresent(
                                                        s -> wired.add(new Machine.Wired(s, c))));
            }
        }
        GivenLimits limits = LimitsReader.read(fields.at("limits"), siteLimits);
        doubtWithoutRunSignal(limits, wired);
        return new Machine(name, wired, limits);
    }

    /** Two pressures that both stand still look alike whether the booster runs or not. */
    private static void doubtWithoutRunSignal(GivenLimits limits, List<Machine.Wired> wired) {
        boolean hasRunSignal =
                wired.stream()
                        .map(w -> w.settings().channel())
                        .anyMatch(c -> c == Channel.RUNNING || c == Channel.VALVE);
        limits.given(Limit.REST_BLEEDS)
                .filter(bleeds -> bleeds.value() == 0 && !hasRunSignal)
                .ifPresent(
                        bleeds ->
                                bleeds.at()
                                        .doubtful(
                                                "a line that keeps its pressure at rest looks as if it ran",
                                                "wire running or valve, so that leat sees the stop"));
    }
}
