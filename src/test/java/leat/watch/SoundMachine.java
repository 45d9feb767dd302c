package leat.watch;

import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.stream.IntStream;
import leat.bench.line.BoosterKind;
import leat.bench.line.Build;
import leat.bench.line.House;
import leat.bench.line.LineSettings;
import leat.bench.sensor.Loop;
import leat.signal.Channel;

/**
 * A machine of a site with nothing wrong with it, and what of it is wired. All figures invented.
 *
 * @param name its name
 * @param line how it is set up, and its house
 * @param wired channels; both pressures among them
 */
record SoundMachine(String name, LineSettings line, Set<Channel> wired) {

    /** Drifts by a psi, wanders by four, six dips an hour of 3 to 6 psi and 4 to 12 s. */
    private static final House BUSY = new House(1, 4, 6, 6, 8);

    private static final Set<Channel> PRESSURES = Set.of(Channel.INLET, Channel.BOOSTED);
    private static final Set<Channel> WITH_RUNNING =
            Set.of(Channel.INLET, Channel.BOOSTED, Channel.RUNNING);
    private static final Set<Channel> ALL =
            Set.of(
                    Channel.INLET,
                    Channel.BOOSTED,
                    Channel.FILTERED,
                    Channel.RUNNING,
                    Channel.VALVE);

    private static final List<SoundMachine> FIRST =
            List.of(
                    new SoundMachine("jet-1", usual(42, 100), PRESSURES),
                    new SoundMachine("jet-2", usual(33, 96), WITH_RUNNING),
                    new SoundMachine("jet-3", usual(58, 104), ALL));

    SoundMachine {
        wired = Set.copyOf(wired);
    }

    private static LineSettings usual(double supplyPsi, double setPsi) {
        return new LineSettings(supplyPsi, setPsi, Build.USUAL.in(BUSY));
    }

    /** The first three are of the boatyard's kind; further ones are drawn by chance. */
    static List<SoundMachine> site(int machines, long seed) {
        return IntStream.range(0, machines)
                .mapToObj(i -> i < FIRST.size() ? FIRST.get(i) : drawn(i, seed))
                .toList();
    }

    private static SoundMachine drawn(int number, long seed) {
        BoosterKind kind = number % 3 == 2 ? BoosterKind.CENTRIFUGAL : BoosterKind.VANE;
        double supplyPsi = 36 + (7 * number + 3 * seed) % 20;
        double setPsi = 98 + (5 * number + 2 * seed) % 14;
        Build build = Build.drawn(kind, 101 * seed + number).in(BUSY);
        Set<Channel> wired = List.of(PRESSURES, WITH_RUNNING, ALL).get(number % 3);
        return new SoundMachine(
                "jet-" + (number + 1), new LineSettings(supplyPsi, setPsi, build), wired);
    }

    /**
     * Its block under {@code machines} of a {@code site.yaml}: its limits are the defaults, its
     * registers those of the bench's panels.
     *
     * @param unit Modbus unit id
     */
    String yaml(int unit) {
        StringBuilder text = new StringBuilder("  " + name + ":\n    channels:\n");
        for (Channel channel : Channel.values()) {
            if (wired.contains(channel)) {
                text.append("      ").append(channel.key()).append(":\n");
                text.append("        from: cabinet-1\n");
                text.append(
                        channel.isPressure() ? pressure(unit, channel) : contact(unit, channel));
            }
        }
        return text.toString();
    }

    private static String pressure(int unit, Channel channel) {
        return String.format(
                Locale.ROOT,
                """
                        register: { unit_id: %d, table: input_register, address: %d, type: uint16 }
                        loop: [ { raw: 0, current: 0 mA }, { raw: %d, current: %s mA } ]
                        scale: [ { at: 4 mA, reads: 0 psi }, { at: 20 mA, reads: %.0f psi } ]
                """,
                unit,
                channel.ordinal(),
                Loop.USUAL.fullCounts(),
                Loop.USUAL.topMilliamps(),
                Loop.USUAL.rangePsi());
    }

    private static String contact(int unit, Channel channel) {
        return String.format(
                Locale.ROOT,
                "        register: { unit_id: %d, table: discrete_input, address: %d }%n",
                unit,
                channel.ordinal() - Channel.RUNNING.ordinal());
    }
}
