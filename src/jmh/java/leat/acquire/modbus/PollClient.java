package leat.acquire.modbus;

import com.sun.management.OperatingSystemMXBean;
import java.lang.management.ManagementFactory;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.function.LongSupplier;
import leat.acquire.Intake;
import leat.acquire.Source;
import leat.config.ChannelSettings;
import leat.config.ConnectionSettings;
import leat.config.Point.NumberType;
import leat.config.Point.Register;
import leat.config.Point.Table;
import leat.config.Point.WordOrder;
import leat.config.Site;
import leat.config.SiteFile;
import leat.service.Daemon;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.Transducer;
import leat.signal.TwoPoint;

/**
 * What {@link PollSpeed} measures of leat, in a process of its own: the polling with nobody behind
 * it, or the whole daemon. Prints polls, missed polls and CPU microseconds of the process within
 * the time measured, as {@code poll.c} does.
 */
final class PollClient {

    private static final Duration PERIOD = Duration.ofMillis(50);

    private static final Intake NOBODY =
            new Intake() {
                @Override
                public boolean offer(String machine, Input input) {
                    return true;
                }

                @Override
                public long nowMicros() {
                    return System.nanoTime() / 1_000;
                }
            };

    private PollClient() {}

    /**
     * @param arguments a port and the number of connections, or "daemon" and a site file; then
     *     seconds of warm-up, seconds
     */
    public static void main(String... arguments) throws InterruptedException {
        if (arguments[0].equals("daemon")) {
            Site site =
                    SiteFile.load(Path.of(arguments[1]), name -> Optional.empty())
                            .site()
                            .orElseThrow();
            Daemon daemon = new Daemon(site, "measured", text -> Optional.empty());
            daemon.start();
            measure(
                    arguments,
                    () -> daemon.figures().polls(),
                    () -> daemon.figures().missedPolls());
            daemon.close();
        } else {
            List<ModbusSource> sources = sources(arguments);
            sources.forEach(ModbusSource::start);
            measure(
                    arguments,
                    () -> sources.stream().mapToLong(source -> source.jitter().polls()).sum(),
                    () -> sources.stream().mapToLong(source -> source.health().missed()).sum());
            sources.forEach(Source::close);
        }
    }

    private static void measure(String[] arguments, LongSupplier polls, LongSupplier missed)
            throws InterruptedException {
        TimeUnit.SECONDS.sleep(Integer.parseInt(arguments[2]));
        long pollsBefore = polls.getAsLong();
        long missedBefore = missed.getAsLong();
        long cpuBefore = cpuMicros();
        TimeUnit.SECONDS.sleep(Integer.parseInt(arguments[3]));
        long cpu = cpuMicros() - cpuBefore;
        long pollsMade = polls.getAsLong() - pollsBefore;
        long pollsMissed = missed.getAsLong() - missedBefore;
        System.out.printf("%d %d %d%n", pollsMade, pollsMissed, cpu);
    }

    private static List<ModbusSource> sources(String[] arguments) {
        int port = Integer.parseInt(arguments[0]);
        PollingThread thread = new PollingThread();
        List<ModbusSource> sources = new ArrayList<>();
        for (int i = 0; i < Integer.parseInt(arguments[1]); i++) {
            sources.add(source("cabinet-" + i, port, thread));
        }
        return sources;
    }

    private static ModbusSource source(String name, int port, PollingThread thread) {
        Duration second = Duration.ofSeconds(1);
        var settings =
                new ConnectionSettings.ModbusTcp(name, "127.0.0.1", port, PERIOD, second, second);
        List<Tap> taps = List.of(tap(name, Channel.INLET, 0), tap(name, Channel.BOOSTED, 1));
        return new ModbusSource(settings, taps, NOBODY, thread);
    }

    private static Tap tap(String connection, Channel channel, int address) {
        Register register =
                new Register(1, Table.INPUT_REGISTER, address, NumberType.UINT16, WordOrder.ABCD);
        TwoPoint current = new TwoPoint(0, 0, 4095, 20.5);
        Transducer loop =
                new Transducer(Optional.of(current), new TwoPoint(4, 0, 20, 200), -14.7, 220);
        return new Tap(connection, new ChannelSettings(channel, connection, register, loop));
    }

    private static long cpuMicros() {
        var system = (OperatingSystemMXBean) ManagementFactory.getOperatingSystemMXBean();
        return system.getProcessCpuTime() / 1_000;
    }
}
