package leat.watch;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.Deque;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import leat.Gear;
import leat.bench.line.Fault;
import leat.bench.line.LineState;
import leat.bench.line.LumpedLine;
import leat.bench.sensor.Tap;
import leat.bench.sensor.Transducer;
import leat.bench.sensor.Transmitter;
import leat.signal.Channel;
import leat.signal.Conversion;
import leat.signal.Input;

/**
 * The days of a sound machine as its cabinet would deliver them: the bench's line, transducers and
 * converter, through the scaling of the site.
 *
 * <p>Two things save time. The line is solved from five seconds before a start until a minute after
 * the stop; in between it stands, and the inlet gauge shows an hour of the house's water (ten
 * minutes in the everyday gear) over and over, under new noise. And it is read 20 times a second
 * only until 25 s after a start, then twice a second until a minute after the stop and about a cut
 * of the network, and every other second in rests: the slowest that leat does not take for a
 * silence. Thread-confined.
 */
final class MachineDays {

    private static final long SECOND = 1_000_000;
    private static final long FAST = 50_000;
    private static final long SLOW = 500_000;
    private static final long RESTING = 2 * SECOND;
    private static final long SOLVED_BEFORE_START = 5 * SECOND;
    private static final long FAST_AFTER_START = 25 * SECOND;
    private static final long SOLVED_AFTER_STOP = 60 * SECOND;
    private static final int HOUSE_SECONDS = Gear.of(600, 3_600);

    /** Trapped water leaves a line of which no valve is quite tight. */
    private static final double TRAPPED_SECONDS = 7_200;

    private static final double DEEP_DIPS_A_DAY = 0.7;

    /** A filter that takes a month to lose some three psi more than when it was clean. */
    private static final double CLOGGED_A_DAY = 0.003;

    private static final double AIR_OF_A_WEEK_END = 0.04;
    private static final double AIR_OF_A_SERVICE = 1;

    private record Happening(long atMicros, Runnable what) {}

    private final SoundMachine machine;
    private final MonthPlan plan;
    private final Cabinet cabinet;
    private final Random random;
    private final LumpedLine line;
    private final Map<Tap, Transmitter> transmitters = new EnumMap<>(Tap.class);
    private final double[] house = new double[HOUSE_SECONDS];
    private LocalDate day;
    private double morning;
    private double dip;
    private boolean aired;

    MachineDays(SoundMachine machine, Map<Channel, Conversion> conversions, MonthPlan plan) {
        this.machine = machine;
        this.plan = plan;
        day = plan.first();
        cabinet = new Cabinet(conversions, transmitters);
        long seed = 1_000_003 * plan.seed() + machine.name().hashCode();
        random = new Random(seed);
        line = new LumpedLine(machine.line(), seed);
        for (Tap tap : Tap.values()) {
            transmitters.put(tap, new Transmitter(Transducer.USUAL, seed + 1 + tap.ordinal(), 0));
        }
        LumpedLine standing = new LumpedLine(machine.line(), seed + 7);
        for (int i = 0; i < HOUSE_SECONDS; i++) {
            standing.advance(1);
            house[i] = standing.state().inletPsi();
        }
    }

    /** The inputs of the next day, in the order of time; ticks are the host's. */
    List<Input> next() {
        long at = MonthPlan.begin(day);
        long gone = day.toEpochDay() - MonthPlan.MONDAY.toEpochDay();
        line.strike(Fault.CLOGGED_FILTER, CLOGGED_A_DAY * gone);
        if (day.getDayOfWeek() == DayOfWeek.MONDAY) {
            line.strike(Fault.AIR, AIR_OF_A_WEEK_END);
        }
        Deque<MonthPlan.Run> runs = new ArrayDeque<>(plan.runs(machine.name(), day));
        while (!runs.isEmpty()) {
            List<MonthPlan.Run> together = together(runs);
            rest(at, together.get(0).onMicros() - SOLVED_BEFORE_START);
            at = play(together);
        }
        rest(at, MonthPlan.begin(day.plusDays(1)));
        day = day.plusDays(1);
        return cabinet.taken();
    }

    /** A run, and those that follow before the line has come to rest. */
    private static List<MonthPlan.Run> together(Deque<MonthPlan.Run> runs) {
        List<MonthPlan.Run> together = new ArrayList<>();
        together.add(runs.remove());
        long rests = together.get(0).offMicros() + SOLVED_AFTER_STOP;
        while (!runs.isEmpty() && runs.peek().onMicros() - SOLVED_BEFORE_START < rests) {
            rests = runs.peek().offMicros() + SOLVED_AFTER_STOP;
            together.add(runs.remove());
        }
        return together;
    }

    private void rest(long from, long to) {
        MonthPlan.Span powered = plan.powered(day);
        MonthPlan.Span morningHours = MonthPlan.morning(day);
        MonthPlan.Span shut = MonthPlan.shut(day);
        MonthPlan.Span cut = plan.cutIn(day);
        MonthPlan.Span nearCut =
                new MonthPlan.Span(cut.fromMicros() - 60 * SECOND, cut.toMicros() + 60 * SECOND);
        boolean isOpened = machine.name().equals(MonthPlan.SERVICED);
        LineState stands = line.state();
        long begin = Math.max(from, powered.fromMicros());
        long end = Math.min(to, powered.toMicros());
        long period = RESTING;
        for (long at = (begin + SECOND - 1) / SECOND * SECOND; at < end; at += period) {
            period = nearCut.has(at) ? SLOW : RESTING;
            double share = morningHours.has(at) ? 1 - morningShare() : 1;
            if (shut.has(at)) {
                share = Math.exp(-(at - shut.fromMicros()) / 1e6 / TRAPPED_SECONDS);
            } else if (isOpened && MonthPlan.lineOpen().has(at)) {
                share = 0;
            }
            double inlet = share * house[(int) (at / SECOND % HOUSE_SECONDS)];
            cabinet.see(
                    at,
                    period,
                    new LineState(inlet, stands.boostedPsi(), stands.filteredPsi(), false, false),
                    cut);
        }
    }

    private double morningShare() {
        return MonthPlan.MORNING_PSI / machine.line().supplyPsi();
    }

    /** Solves the line over these runs; returns the time to which it came. */
    private long play(List<MonthPlan.Run> runs) {
        MonthPlan.Span morningHours = MonthPlan.morning(day);
        MonthPlan.Span cut = plan.cutIn(day);
        Deque<Happening> happenings = happenings(runs);
        long at = runs.get(0).onMicros() - SOLVED_BEFORE_START;
        long end = runs.get(runs.size() - 1).offMicros() + SOLVED_AFTER_STOP;
        airAfterService(at);
        while (at < end) {
            weaken(morningHours.has(at) ? morningShare() : 0, dip);
            while (!happenings.isEmpty() && happenings.peek().atMicros() <= at) {
                happenings.remove().what().run();
            }
            long next = happenings.isEmpty() ? end : happenings.peek().atMicros();
            long step = Math.min(isFast(runs, at) ? FAST : SLOW, next - at);
            line.advance(step / 1e6);
            at += step;
            cabinet.see(at, step, line.state(), cut);
        }
        return at;
    }

    private static boolean isFast(List<MonthPlan.Run> runs, long at) {
        return runs.stream()
                .anyMatch(
                        run ->
                                at >= run.onMicros() - SOLVED_BEFORE_START
                                        && at < run.onMicros() + FAST_AFTER_START);
    }

    private void airAfterService(long at) {
        if (!aired
                && machine.name().equals(MonthPlan.SERVICED)
                && at >= MonthPlan.lineOpen().toMicros()) {
            aired = true;
            line.strike(Fault.AIR, AIR_OF_A_SERVICE);
        }
    }

    private Deque<Happening> happenings(List<MonthPlan.Run> runs) {
        List<Happening> all = new ArrayList<>();
        for (MonthPlan.Run run : runs) {
            all.add(new Happening(run.onMicros(), line::start));
            all.add(new Happening(run.offMicros(), line::stop));
            if (random.nextDouble() < DEEP_DIPS_A_DAY / plan.startsADay()) {
                deepDip(run, all);
            }
        }
        all.sort(Comparator.comparingLong(Happening::atMicros));
        return new ArrayDeque<>(all);
    }

    /** Somebody flushes a line next door: 8 to 16 psi for 2 to 8 s. */
    private void deepDip(MonthPlan.Run run, List<Happening> into) {
        double share = (8 + 8 * random.nextDouble()) / machine.line().supplyPsi();
        long lasts = Math.round((2 + 6 * random.nextDouble()) * 20) * FAST;
        long spare = run.offMicros() - run.onMicros() - lasts;
        if (spare > 0) {
            long from = run.onMicros() + Math.round(random.nextDouble() * spare / FAST) * FAST;
            into.add(new Happening(from, () -> weaken(morning, share)));
            into.add(new Happening(from + lasts, () -> weaken(morning, 0)));
        }
    }

    private void weaken(double byMorning, double byDip) {
        if (byMorning != morning || byDip != dip) {
            morning = byMorning;
            dip = byDip;
            line.strike(Fault.WEAK_SUPPLY, 1 - (1 - dip) * (1 - morning));
        }
    }
}
