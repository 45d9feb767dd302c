package leat.deliver;

import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.Random;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmEvent;
import leat.alarm.AlarmNotes;
import leat.alarm.AlarmState;
import leat.config.QuietHours;
import leat.config.RoutePolicy;
import leat.config.RouteScope;
import leat.config.RouteSettings;
import leat.config.Site;
import leat.config.StoreSettings;
import leat.diagnose.Cause;
import leat.diagnose.Check;
import leat.diagnose.Diagnosis;
import leat.measure.Figure;
import leat.rule.Finding;
import leat.rule.Grade;
import leat.rule.Rule;
import leat.signal.Channel;
import leat.signal.PressureUnit;
import leat.words.Language;

/**
 * Some days of a boatyard by chance: alarms of two machines come, get worse, ease, are
 * acknowledged, shelved and go, in floods and with hours between, often of one cause; channels fall
 * silent together; machines begin to run and stop; sometimes a message is given up, and, where it
 * is asked for, somebody sets the clock back. The routes are by chance too. Immutable.
 *
 * @param site with its routes
 * @param steps in their order
 */
record RandomAlarms(Site site, List<Step> steps) {

    static final long SECOND = 1_000_000;
    static final long MINUTE = 60 * SECOND;
    static final long HOUR = 60 * MINUTE;
    static final long DAY = 24 * HOUR;

    private static final long START = Instant.parse("2026-01-05T11:00:00Z").getEpochSecond();
    private static final List<String> MACHINES = List.of("jet-1", "jet-2");
    private static final List<Rule> RULES =
            List.of(
                    Rule.RATIO,
                    Rule.RISE,
                    Rule.REST,
                    Rule.INLET,
                    Rule.LEVEL_LOW,
                    Rule.SIGNAL_BAD,
                    Rule.SIGNAL_MISSING,
                    Rule.SIGNAL_MISSING);

    private static final List<Channel> CHANNELS =
            List.of(Channel.INLET, Channel.BOOSTED, Channel.RUNNING);

    /**
     * A moment.
     *
     * @param atMicros event time, microseconds UTC
     * @param changed an alarm that changes then
     * @param run a machine that begins to run or stops then
     * @param givesUp whether what was owed last is given up
     */
    record Step(
            long atMicros,
            Optional<Changed> changed,
            Optional<Occasion.RunChanged> run,
            boolean givesUp) {
        Step later(long micros) {
            return new Step(
                    atMicros + micros,
                    changed.map(c -> later(c, micros)),
                    run.map(r -> later(r, micros)),
                    givesUp);
        }

        private static Occasion.RunChanged later(Occasion.RunChanged run, long micros) {
            return new Occasion.RunChanged(
                    run.machine(),
                    run.sinceMicros().isPresent()
                            ? OptionalLong.of(run.sinceMicros().getAsLong() + micros)
                            : OptionalLong.empty());
        }

        private static Changed later(Changed changed, long micros) {
            AlarmChange change = changed.change();
            return new Changed(
                    changed.machine(),
                    new AlarmChange(
                            change.alarmId(),
                            change.revision(),
                            change.event(),
                            change.from(),
                            change.to(),
                            change.atMicros() + micros,
                            change.raisedAtMicros() + micros,
                            change.finding().moved(micros),
                            change.by(),
                            change.notes()),
                    changed.why());
        }
    }

    /** All of it by whole microseconds later. */
    RandomAlarms later(long micros) {
        return new RandomAlarms(site, steps.stream().map(step -> step.later(micros)).toList());
    }

    static RandomAlarms of(long seed, boolean setsTheClock) {
        Random random = new Random(seed);
        Random causes = new Random(-seed);
        Site site = site(random);
        Map<String, AlarmChange> latest = new HashMap<>();
        List<Step> steps = new ArrayList<>();
        long now = START * SECOND;
        int outage = 0;
        for (int i = 0; i < 400; i++) {
            outage = outage > 0 ? outage - 1 : random.nextInt(15) == 0 ? 8 : 0;
            now += outage > 1 ? SECOND : pause(random, setsTheClock);
            Optional<Changed> changed = Optional.empty();
            if (outage > 0 || random.nextInt(3) > 0) {
                String machine = MACHINES.get(random.nextInt(4) == 0 ? 1 : 0);
                Rule rule =
                        outage > 0 ? Rule.SIGNAL_MISSING : RULES.get(random.nextInt(RULES.size()));
                Channel channel = channel(rule, random);
                String key = machine + "." + rule.key() + "." + channel.key();
                AlarmChange change =
                        next(rule, channel, key, Optional.ofNullable(latest.get(key)), now, random);
                latest.put(key, change);
                changed = Optional.of(new Changed(machine, change, why(change, causes)));
            }
            steps.add(new Step(now, changed, run(now, causes), random.nextInt(25) == 0));
        }
        return new RandomAlarms(site, steps);
    }

    private static long pause(Random random, boolean setsTheClock) {
        int kind = random.nextInt(40);
        if (kind == 0 && setsTheClock) {
            return -random.nextLong(2 * DAY);
        }
        if (kind < 4) {
            return random.nextLong(10 * HOUR);
        }
        return kind < 22 ? SECOND / 2 * (1 + random.nextInt(6)) : SECOND * (1 + random.nextInt(60));
    }

    /** Any of a silent machine, else that of the pressures. */
    private static Channel channel(Rule rule, Random random) {
        return rule == Rule.SIGNAL_MISSING
                ? CHANNELS.get(random.nextInt(CHANNELS.size()))
                : Channel.BOOSTED;
    }

    /** Of three calls in four, and mostly one of two causes; a silent channel is called without. */
    private static Optional<Diagnosis> why(AlarmChange change, Random random) {
        double weight = 0.4 + 0.6 * random.nextDouble();
        Cause cause =
                List.of(Cause.WORN_BOOSTER, Cause.WORN_BOOSTER, Cause.OPEN_LOOP, Cause.UNKNOWN)
                        .get(random.nextInt(4));
        return change.isCall() && random.nextInt(4) > 0 && !change.finding().isOfSilence()
                ? Optional.of(Changes.why(Changes.suspect(cause, weight, Check.JET_OFF)))
                : Optional.empty();
    }

    private static Optional<Occasion.RunChanged> run(long now, Random random) {
        if (random.nextInt(20) > 0) {
            return Optional.empty();
        }
        String machine = MACHINES.get(random.nextInt(2));
        OptionalLong since = random.nextBoolean() ? OptionalLong.of(now) : OptionalLong.empty();
        return Optional.of(new Occasion.RunChanged(machine, since));
    }

    private static AlarmChange next(
            Rule rule,
            Channel channel,
            String key,
            Optional<AlarmChange> before,
            long now,
            Random random) {
        if (before.isEmpty() || before.get().to() == AlarmState.NORMAL) {
            int revision = before.map(AlarmChange::revision).orElse(0) + 1;
            boolean sameAlarm = before.isPresent() && random.nextBoolean();
            String id = sameAlarm ? before.get().alarmId() : key + "." + revision;
            Grade any = Grade.values()[random.nextInt(Grade.values().length)];
            Grade grade = rule == Rule.SIGNAL_MISSING ? Grade.WARNING : any;
            AlarmState to = AlarmState.UNACKNOWLEDGED;
            return change(
                    finding(rule, channel, grade, now),
                    id,
                    revision,
                    AlarmEvent.RAISED,
                    AlarmState.NORMAL,
                    to,
                    now);
        }
        AlarmChange last = before.get();
        Grade grade = last.finding().grade();
        AlarmState from = last.to();
        return switch (from) {
            case UNACKNOWLEDGED, ACKNOWLEDGED -> active(last, now, random);
            case SHELVED -> to(last, AlarmEvent.UNSHELVED, AlarmState.UNACKNOWLEDGED, grade, now);
            case RETURNED_UNACKNOWLEDGED ->
                    random.nextBoolean()
                            ? to(last, AlarmEvent.ACKNOWLEDGED, AlarmState.NORMAL, grade, now)
                            : to(last, AlarmEvent.RAISED, AlarmState.UNACKNOWLEDGED, grade, now);
            case NORMAL, LATCHED_UNACKNOWLEDGED, LATCHED_ACKNOWLEDGED, SUPPRESSED, OUT_OF_SERVICE ->
                    throw new IllegalStateException(from.key());
        };
    }

    private static AlarmChange active(AlarmChange last, long now, Random random) {
        AlarmState unacknowledged = AlarmState.UNACKNOWLEDGED;
        Grade grade = last.finding().grade();
        return switch (random.nextInt(7)) {
            case 0 -> to(last, AlarmEvent.WORSENED, unacknowledged, Grade.CRITICAL, now);
            case 1 -> to(last, AlarmEvent.WORSENED, unacknowledged, Grade.WARNING, now);
            case 2 -> to(last, AlarmEvent.EASED, last.to(), Grade.ADVISORY, now);
            case 3 -> to(last, AlarmEvent.ACKNOWLEDGED, AlarmState.ACKNOWLEDGED, grade, now);
            case 4 -> to(last, AlarmEvent.SHELVED, AlarmState.SHELVED, grade, now);
            default ->
                    last.to() == AlarmState.ACKNOWLEDGED
                            ? to(last, AlarmEvent.RETURNED, AlarmState.NORMAL, grade, now)
                            : to(
                                    last,
                                    AlarmEvent.RETURNED,
                                    AlarmState.RETURNED_UNACKNOWLEDGED,
                                    grade,
                                    now);
        };
    }

    private static AlarmChange to(
            AlarmChange last, AlarmEvent event, AlarmState to, Grade grade, long now) {
        return change(
                finding(last.finding().rule(), last.finding().channel(), grade, now),
                last.alarmId(),
                last.revision() + 1,
                event,
                last.to(),
                to,
                now);
    }

    private static AlarmChange change(
            Finding finding,
            String id,
            int revision,
            AlarmEvent event,
            AlarmState from,
            AlarmState to,
            long now) {
        AlarmState own = to.isHeld() ? AlarmState.UNACKNOWLEDGED : to;
        AlarmNotes notes =
                new AlarmNotes(own, 1, false, OptionalLong.empty(), "", Optional.empty());
        return new AlarmChange(id, revision, event, from, to, now, now, finding, "", notes);
    }

    private static Finding finding(Rule rule, Channel channel, Grade grade, long now) {
        return new Finding(
                rule,
                channel,
                grade,
                now,
                now,
                rule == Rule.SIGNAL_MISSING
                        ? Finding.Quantity.TIME_SECONDS
                        : Finding.Quantity.RATIO,
                1.62,
                2.0,
                Finding.Sense.AT_LEAST,
                Figure.of(44.5),
                Figure.of(72.1),
                List.of());
    }

    private static Site site(Random random) {
        List<RouteSettings> routes = new ArrayList<>();
        for (String name : List.of("hall", "shift", "manager", "yard")) {
            List<String> machines = random.nextInt(3) == 0 ? List.of("jet-1") : List.of();
            boolean onlyThen = name.equals("manager");
            Grade atLeast = onlyThen || random.nextBoolean() ? Grade.WARNING : Grade.ADVISORY;
            RoutePolicy policy = policy(random, onlyThen, atLeast == Grade.ADVISORY);
            routes.add(
                    new RouteSettings.Log(
                            name, new RouteScope(atLeast, machines, Duration.ofHours(72), policy)));
        }
        return new Site(
                "Boatyard",
                ZoneId.of("Europe/Berlin"),
                Language.ENGLISH,
                PressureUnit.PSI,
                new StoreSettings(Path.of("."), Duration.ofDays(90)),
                List.of(),
                MACHINES.stream().map(machine -> WiredMachine.of(machine, "plc")).toList(),
                routes,
                Optional.empty(),
                Optional.empty(),
                "0".repeat(64),
                "");
    }

    private static RoutePolicy policy(Random random, boolean onlyThen, boolean advisories) {
        return new RoutePolicy(
                random.nextBoolean()
                        ? Optional.of(new QuietHours(LocalTime.of(22, 0), LocalTime.of(6, 0)))
                        : Optional.empty(),
                onlyThen ? Optional.of(Duration.ofMinutes(15)) : Optional.empty(),
                random.nextBoolean() ? Optional.of(Duration.ofMinutes(10)) : Optional.empty(),
                random.nextBoolean() ? OptionalInt.of(3) : OptionalInt.empty(),
                random.nextBoolean() ? Optional.of(LocalTime.of(7, 0)) : Optional.empty(),
                advisories && random.nextInt(3) > 0
                        ? Optional.of(LocalTime.of(7, 30))
                        : Optional.empty());
    }
}
