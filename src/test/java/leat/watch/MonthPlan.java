package leat.watch;

import java.time.DayOfWeek;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import leat.Gear;
import leat.signal.ClockStep;

/**
 * What happens on a site in thirty days in which nothing breaks: shifts of starts and rests,
 * mornings in which all others draw water too, week-ends with the water shut, each week a moment
 * without network, one service, one clock that is set, and the change to summer time. Hours are
 * those of the site's clock; microseconds are UTC and of a true time that no clock step touches.
 * All figures invented. Immutable.
 *
 * @param first first day, not before {@link #MONDAY}
 * @param days how many
 * @param nights so many days from {@link #MONDAY} on leat runs day and night; later on the main
 *     switch takes it and the cabinet down from eight in the evening until half past five, and over
 *     the week-ends
 * @param seed of all chance in it
 * @param startsADay of each machine, 1 to 12
 * @param runMinutes how long a run lasts on average, at most 20: from half to one and a half times
 *     as long
 * @param cut how long the network is away each week
 */
record MonthPlan(
        LocalDate first,
        int days,
        int nights,
        long seed,
        int startsADay,
        double runMinutes,
        Duration cut) {

    static final ZoneId ZONE = ZoneId.of("Europe/Berlin");

    /** The clocks go forward on 29 March. */
    static final LocalDate MONDAY = LocalDate.of(2026, 3, 2);

    /** Of the month; by day it ends after the clock was set and before the service. */
    static final int DAYS = Gear.of(5, 30);

    /** The machine that is serviced. */
    static final String SERVICED = "jet-2";

    /** What the main loses in the morning; invented. */
    static final double MORNING_PSI = 4;

    private static final long SECOND = 1_000_000;

    private static final LocalDate SERVICE_DAY = MONDAY.plusDays(16);
    private static final long SERVICE_FROM = micros(SERVICE_DAY, LocalTime.of(10, 0));
    private static final long LINE_OPEN_UNTIL = micros(SERVICE_DAY, LocalTime.of(10, 40));
    private static final long SERVICE_TO = micros(SERVICE_DAY, LocalTime.of(11, 0));

    private static final long CLOCK_SET_AT =
            micros(MONDAY.plusDays(Gear.of(3, 8)), LocalTime.of(13, 20));
    private static final long CLOCK_SET_BY = Duration.ofSeconds(-37).toMillis() * 1_000;

    private static final LocalTime SHIFT_FROM = LocalTime.of(6, 30);
    private static final LocalTime SHIFT_TO = LocalTime.of(16, 30);
    private static final LocalTime CUT_AT = LocalTime.of(10, 17);
    private static final int CUT_WITHIN_SECONDS = 1_200;

    private static final double RESTARTED_SHARE = 1 / 6.0;
    private static final long GRID = 50_000;

    /** A plug that is put in again: short enough to be no silence. */
    private static final Duration SHORT_CUT = Duration.ofMillis(3_500);

    private static final int STARTS_A_DAY = Gear.of(2, 6);
    private static final double RUN_MINUTES = 3;

    /** From the switching on to the switching off. */
    record Run(long onMicros, long offMicros) {}

    /** From a moment to another, which is not in it. */
    record Span(long fromMicros, long toMicros) {

        static Span of(LocalDate day, LocalTime from, LocalTime to) {
            return new Span(micros(day, from), micros(day, to));
        }

        boolean has(long micros) {
            return micros >= fromMicros && micros < toMicros;
        }
    }

    /** Thirty days, with a first week in which leat is never switched off. */
    static MonthPlan month(long seed) {
        return new MonthPlan(MONDAY, DAYS, 7, seed, STARTS_A_DAY, RUN_MINUTES, SHORT_CUT);
    }

    /** Likewise with another number of days in which leat is never switched off. */
    MonthPlan byNight(int otherNights) {
        return new MonthPlan(first, days, otherNights, seed, startsADay, runMinutes, cut);
    }

    static long micros(LocalDate day, LocalTime time) {
        return ChronoUnit.MICROS.between(Instant.EPOCH, day.atTime(time).atZone(ZONE).toInstant());
    }

    static long begin(LocalDate day) {
        return micros(day, LocalTime.MIDNIGHT);
    }

    static boolean isWorkday(LocalDate day) {
        return day.getDayOfWeek().compareTo(DayOfWeek.FRIDAY) <= 0;
    }

    /** When leat and the cabinet have current. */
    Span powered(LocalDate day) {
        boolean byNight = day.isBefore(MONDAY.plusDays(nights));
        if (byNight) {
            return new Span(begin(day), begin(day.plusDays(1)));
        }
        LocalTime on = LocalTime.of(5, 30);
        return Span.of(day, on, isWorkday(day) ? LocalTime.of(20, 0) : on);
    }

    /** When all others draw water too. */
    static Span morning(LocalDate day) {
        return Span.of(day, LocalTime.of(6, 45), LocalTime.of(7, 30));
    }

    /** When the house's water is shut over the week-end before, or in which, the day lies. */
    static Span shut(LocalDate day) {
        LocalDate friday = day;
        while (friday.getDayOfWeek() != DayOfWeek.FRIDAY) {
            friday = friday.minusDays(1);
        }
        return new Span(
                micros(friday, LocalTime.of(17, 0)),
                micros(friday.plusDays(3), LocalTime.of(5, 45)));
    }

    /** When the network is cut in the week of the day: a plug that is put in again. */
    Span cutIn(LocalDate day) {
        LocalDate wednesday = day.with(DayOfWeek.WEDNESDAY);
        Random chance = new Random(seed * 31 + wednesday.toEpochDay());
        long from = micros(wednesday, CUT_AT) + chance.nextInt(CUT_WITHIN_SECONDS) * SECOND;
        return new Span(from, from + cut.toMillis() * 1_000);
    }

    /** When the machine of the service is in people's hands. */
    static Span service() {
        return new Span(SERVICE_FROM, SERVICE_TO);
    }

    /** When its line is open; it holds air afterwards. */
    static Span lineOpen() {
        return new Span(SERVICE_FROM, LINE_OPEN_UNTIL);
    }

    /** True time and shown time of the moment at which somebody sets the clock. */
    static ClockStep clockStep() {
        return new ClockStep(CLOCK_SET_AT + CLOCK_SET_BY, CLOCK_SET_AT);
    }

    /** What the computer's clock shows. */
    static long shown(long micros) {
        return micros < CLOCK_SET_AT ? micros : micros + CLOCK_SET_BY;
    }

    /**
     * The runs of a machine on a day, in order; each begins somewhere in its share of the shift.
     */
    List<Run> runs(String machine, LocalDate day) {
        List<Run> runs = new ArrayList<>();
        if (!isWorkday(day)) {
            return runs;
        }
        Random chance = new Random(seed * 7_919 + machine.hashCode() * 104_729L + day.toEpochDay());
        Span shift = Span.of(day, SHIFT_FROM, SHIFT_TO);
        double share = (shift.toMicros() - shift.fromMicros()) / 1e6 / startsADay;
        for (int i = 0; i < startsADay; i++) {
            double lasts = 60 * runMinutes * (0.5 + chance.nextDouble());
            double begin = i * share + (share - lasts - 300) * chance.nextDouble();
            runs.add(run(shift, begin, lasts));
            if (chance.nextDouble() < RESTARTED_SHARE) {
                double pause = 3 + 10 * chance.nextDouble();
                runs.add(run(shift, begin + lasts + pause, 40 + 60 * chance.nextDouble()));
            }
        }
        return machine.equals(SERVICED) && day.equals(SERVICE_DAY) ? withTrials(runs) : runs;
    }

    private static Run run(Span shift, double begin, double lasts) {
        long on = shift.fromMicros() + onGrid(begin);
        return new Run(on, on + onGrid(lasts));
    }

    private static long onGrid(double seconds) {
        return Math.round(seconds * SECOND / GRID) * GRID;
    }

    /** Nobody cuts during the service; before its end the booster is tried twice. */
    private static List<Run> withTrials(List<Run> runs) {
        List<Run> left = new ArrayList<>();
        runs.stream()
                .filter(run -> run.offMicros() < SERVICE_FROM - 120 * SECOND)
                .forEach(left::add);
        left.add(new Run(LINE_OPEN_UNTIL + 300 * SECOND, LINE_OPEN_UNTIL + 306 * SECOND));
        left.add(new Run(LINE_OPEN_UNTIL + 600 * SECOND, LINE_OPEN_UNTIL + 620 * SECOND));
        runs.stream().filter(run -> run.onMicros() > SERVICE_TO + 60 * SECOND).forEach(left::add);
        return left;
    }
}
