package leat.acquire.modbus;

import com.sun.management.OperatingSystemMXBean;
import java.lang.management.ManagementFactory;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import leat.acquire.Intake;
import leat.acquire.Source;
import leat.config.ChannelSettings;
import leat.config.ConnectionSettings;
import leat.config.Point.NumberType;
import leat.config.Point.Register;
import leat.config.Point.Table;
import leat.config.Point.WordOrder;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.Transducer;
import leat.signal.TwoPoint;

/** The polling side of leat alone, with nobody behind it: what {@link PollSpeed} measures. */
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
     * Prints polls, missed polls, CPU microseconds of the process, and lateness, as {@code poll.c}
     * does.
     *
     * @param arguments port, connections, seconds of warm-up, seconds
     */
    public static void main(String... arguments) throws InterruptedException {
        int port = Integer.parseInt(arguments[0]);
        int connections = Integer.parseInt(arguments[1]);
        PollingThread thread = new PollingThread();
        List<ModbusSource> sources = new ArrayList<>();
        for (int i = 0; i < connections; i++) {
            sources.add(source("cabinet-" + i, port, thread));
        }
        sources.forEach(ModbusSource::start);

        TimeUnit.SECONDS.sleep(Integer.parseInt(arguments[2]));
        long cpu = cpuMicros();
        long polls = jitter(sources).polls();
        long missed = missed(sources);
        TimeUnit.SECONDS.sleep(Integer.parseInt(arguments[3]));
        cpu = cpuMicros() - cpu;
        PollJitter jitter = jitter(sources);
        System.out.printf(
                "%d %d %d %d %d %d%n",
                jitter.polls() - polls,
                missed(sources) - missed,
                cpu,
                jitter.p50().toNanos() / 1_000,
                jitter.p99().toNanos() / 1_000,
                jitter.max().toNanos() / 1_000);
        sources.forEach(Source::close);
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

    private static long missed(List<ModbusSource> sources) {
        return sources.stream().mapToLong(source -> source.health().missed()).sum();
    }

    private static PollJitter jitter(List<ModbusSource> sources) {
        PollJitter all = new PollJitter();
        sources.forEach(source -> all.addAll(source.jitter()));
        return all;
    }

    private static long cpuMicros() {
        var system = (OperatingSystemMXBean) ManagementFactory.getOperatingSystemMXBean();
        return system.getProcessCpuTime() / 1_000;
    }
}
