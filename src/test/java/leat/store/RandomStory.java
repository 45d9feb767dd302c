package leat.store;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import java.util.Random;
import java.util.stream.LongStream;
import java.util.stream.Stream;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmEvent;
import leat.alarm.AlarmNotes;
import leat.alarm.AlarmState;
import leat.alarm.Reason;
import leat.alarm.Refusal;
import leat.alarm.ServiceChange;
import leat.diagnose.Answer;
import leat.diagnose.Cause;
import leat.diagnose.Check;
import leat.diagnose.Diagnosis;
import leat.diagnose.Feature;
import leat.diagnose.Suspect;
import leat.measure.ClimbRemark;
import leat.measure.Figure;
import leat.measure.Measurand;
import leat.measure.RestSpell;
import leat.measure.Run;
import leat.measure.Startup;
import leat.measure.SteadySpell;
import leat.measure.absence.Absence;
import leat.phase.Phase;
import leat.phase.PhaseChange;
import leat.phase.PhaseReason;
import leat.rule.Baseline;
import leat.rule.Finding;
import leat.rule.Grade;
import leat.rule.Learning;
import leat.rule.Remark;
import leat.rule.Rule;
import leat.rule.RunVerdict;
import leat.rule.StartupVerdict;
import leat.rule.Usual;
import leat.signal.Channel;
import leat.signal.ClockStep;
import leat.signal.Input;
import leat.signal.Instruction;
import leat.signal.Order;
import leat.signal.Quality;
import leat.signal.Reading;
import leat.signal.SourceBack;
import leat.signal.SourceLost;
import leat.signal.Tick;
import leat.watch.Outcome;

/** Inputs and outcomes of every kind, with the numbers and words that are hardest to keep. */
public final class RandomStory {

    static final List<String> HARD_WORDS =
            List.of(
                    "",
                    " ",
                    "inlet cable cut at 127.0.0.1:502, check the plug",
                    "it's \"quoted\"; DROP TABLE input; --",
                    "two\r\nlines\tand a tab",
                    "Zoë's Stoß \u2013 \u6c34\u5727 \ud83d\udca7",
                    "nul\u0000inside",
                    "half a pair \ud83d",
                    "\udca7 the other half",
                    "\udca7\ud83d turned around",
                    "\uffff\ufffe\ufeff",
                    "NULL",
                    "0x00",
                    "12");

    private static final double[] HARD_NUMBERS = {
        0.0,
        -0.0,
        1,
        -1,
        Double.MIN_VALUE,
        Double.MAX_VALUE,
        -Double.MAX_VALUE,
        0.1,
        100.0,
        1e15 + 0.5,
        9_007_199_254_740_993.0
    };

    private final Random random;
    private long micros = 1_767_592_800_000_000L;

    public RandomStory(long seed) {
        this.random = new Random(seed);
    }

    public Input input() {
        micros += random.nextInt(100_000);
        return switch (random.nextInt(9)) {
            case 0 -> new Tick(Math.floorDiv(micros, Tick.PERIOD_MICROS) * Tick.PERIOD_MICROS);
            case 1 -> new SourceLost(channel(), micros, words());
            case 2 -> new SourceBack(channel(), micros);
            case 3 -> new ClockStep(micros, random.nextLong());
            case 4 -> aboutAlarm();
            case 5 -> journal();
            default -> reading();
        };
    }

    Instruction journal() {
        Order.Entry entry = any(Order.Entry.values());
        String found = entry == Order.Entry.ANSWER || random.nextBoolean() ? "worn-booster" : "";
        return new Instruction(micros, by(), new Order.Journal(entry, words(), found));
    }

    private Instruction aboutAlarm() {
        return switch (random.nextInt(6)) {
            case 0 -> new Instruction(micros, by(), new Order.Acknowledge(words()));
            case 1 -> new Instruction(micros, by(), new Order.Reset(words()));
            case 2 ->
                    new Instruction(
                            micros,
                            by(),
                            new Order.Shelve(words(), random.nextLong(), "why" + words()));
            case 3 -> new Instruction(micros, by(), new Order.Unshelve(words()));
            case 4 -> new Instruction(micros, by(), new Order.Remove(words(), "why" + words()));
            default -> new Instruction(micros, by(), new Order.Restore(words()));
        };
    }

    private Reading reading() {
        Quality quality = any(Quality.values());
        double value = quality.isUsable() ? number() : random.nextBoolean() ? 0.0 : -0.0;
        return new Reading(channel(), micros, value, quality);
    }

    /** Outcomes of every kind; each alarm is named by the number of the input. */
    List<Outcome> outcomes(String machine, long seq) {
        List<Outcome> all = new ArrayList<>();
        for (int i = random.nextInt(4); i > 0; i--) {
            switch (random.nextInt(10)) {
                case 0 -> all.add(phaseChange());
                case 1 -> all.add(startup());
                case 2 -> all.add(steady());
                case 3 -> all.add(rest());
                case 4 -> all.addAll(alarm(machine + "." + seq + "." + i));
                case 5 -> all.add(learning());
                case 6 -> all.add(baseline());
                case 7 -> all.add(service());
                case 8 -> all.add(run());
                default ->
                        all.add(
                                new Outcome.InstructionRefused(
                                        random.nextBoolean() ? journal() : aboutAlarm(),
                                        refusal()));
            }
        }
        return all;
    }

    private Outcome phaseChange() {
        return new Outcome.PhaseChanged(
                new PhaseChange(
                        any(Phase.values()),
                        any(Phase.values()),
                        micros,
                        any(PhaseReason.values())));
    }

    Outcome startup() {
        return new Outcome.StartupMeasured(
                new Startup(
                        micros,
                        micros + 5_000_000,
                        figures(),
                        random.nextBoolean()
                                ? List.of()
                                : List.of(new ClimbRemark(any(ClimbRemark.Kind.values()))),
                        random.nextBoolean()),
                new StartupVerdict(any(StartupVerdict.Outcome.values()), remarks()));
    }

    private Outcome run() {
        List<RunVerdict.Part> parts = new ArrayList<>();
        for (RunVerdict.Aspect aspect : RunVerdict.Aspect.values()) {
            parts.add(new RunVerdict.Part(aspect, any(RunVerdict.Mark.values())));
        }
        return new Outcome.RunJudged(
                new Run(micros - 60_000_000, micros, random.nextBoolean(), figures()),
                new RunVerdict(
                        parts,
                        List.of(
                                new RunVerdict.Raised(
                                        any(Rule.values()),
                                        any(Channel.values()),
                                        any(Grade.values())))));
    }

    private Outcome steady() {
        return new Outcome.SteadyMeasured(
                new SteadySpell(
                        micros,
                        micros + 60_000_000,
                        random.nextLong(),
                        figure(),
                        figure(),
                        figure(),
                        figure(),
                        figure(),
                        figure(),
                        figure()));
    }

    private Outcome rest() {
        return new Outcome.RestMeasured(
                new RestSpell(
                        micros,
                        micros + 12_000_000,
                        figure(),
                        figure(),
                        figure(),
                        random.nextBoolean()));
    }

    private Outcome learning() {
        return new Outcome.LearningProgressed(
                new Learning(
                        micros,
                        random.nextInt(10),
                        1 + random.nextInt(50),
                        any(Learning.Cause.values())));
    }

    private Outcome baseline() {
        Map<Measurand, Usual> figures = new EnumMap<>(Measurand.class);
        for (Measurand measurand : Measurand.values()) {
            if (random.nextInt(5) > 0) {
                double spread = Math.max(Double.MIN_VALUE, Math.abs(number()));
                figures.put(measurand, new Usual(number(), spread, 1 + random.nextInt(50)));
            }
        }
        List<Long> starts =
                LongStream.range(0, 1 + random.nextInt(12))
                        .mapToObj(i -> micros - (random.nextBoolean() ? i : 0))
                        .toList();
        return new Outcome.BaselineLearned(new Baseline(micros, starts, figures));
    }

    private List<Outcome> alarm(String id) {
        List<Outcome> changes = new ArrayList<>();
        for (int revision = 1; revision <= 1 + random.nextInt(3); revision++) {
            changes.add(
                    new Outcome.AlarmChanged(
                            new AlarmChange(
                                    id,
                                    revision,
                                    any(AlarmEvent.values()),
                                    any(AlarmState.values()),
                                    any(AlarmState.values()),
                                    micros,
                                    micros - 1_000_000,
                                    finding(),
                                    words(),
                                    notes()),
                            random.nextBoolean() ? Optional.empty() : Optional.of(diagnosis())));
        }
        return changes;
    }

    private Diagnosis diagnosis() {
        List<Suspect> suspects = new ArrayList<>();
        for (int i = 0; i <= random.nextInt(3); i++) {
            suspects.add(
                    new Suspect(
                            any(Cause.values()),
                            random.nextDouble(),
                            reasons(),
                            reasons(),
                            random.nextBoolean()
                                    ? Optional.of(any(Check.values()))
                                    : Optional.empty()));
        }
        return new Diagnosis(
                suspects,
                random.nextInt(10),
                random.nextInt(50),
                random.nextBoolean() ? List.of() : List.of(any(Answer.values())));
    }

    private List<leat.diagnose.Reason> reasons() {
        return Stream.generate(
                        () ->
                                new leat.diagnose.Reason(
                                        any(Feature.values()),
                                        number(),
                                        random.nextBoolean()
                                                ? OptionalDouble.of(number())
                                                : OptionalDouble.empty(),
                                        number()))
                .limit(random.nextInt(3))
                .toList();
    }

    private Refusal refusal() {
        return switch (random.nextInt(5)) {
            case 0 -> new Refusal.NoSuchMachine(words());
            case 1 -> new Refusal.NoSuchAlarm(words());
            case 2 -> new Refusal.ShelfTooLong(random.nextLong(), random.nextLong());
            case 3 -> new Refusal.AsTold(words());
            default ->
                    new Refusal.NotNow(
                            any(Refusal.Obstacle.values()),
                            random.nextBoolean()
                                    ? Optional.of(any(AlarmState.values()))
                                    : Optional.empty());
        };
    }

    private AlarmNotes notes() {
        return new AlarmNotes(
                any(AlarmState.values()),
                1 + random.nextInt(1000),
                random.nextBoolean(),
                random.nextBoolean() ? OptionalLong.of(micros) : OptionalLong.empty(),
                words(),
                reason());
    }

    private Optional<Reason> reason() {
        return random.nextBoolean() ? Optional.of(any(Reason.values())) : Optional.empty();
    }

    private Outcome service() {
        return new Outcome.ServiceChanged(
                new ServiceChange(
                        micros,
                        random.nextBoolean(),
                        micros + 1_000_000,
                        words(),
                        words(),
                        reason()));
    }

    Finding finding() {
        return new Finding(
                any(Rule.values()),
                channel(),
                any(Grade.values()),
                micros - 2_000_000,
                micros,
                any(Finding.Quantity.values()),
                number(),
                number(),
                any(Finding.Sense.values()),
                figure(),
                figure(),
                remarks());
    }

    private List<Remark> remarks() {
        Remark.Kind kind = any(Remark.Kind.values());
        for (int count = 0; count <= 3; count++) {
            List<Double> numbers = Stream.generate(this::number).limit(count).toList();
            try {
                return List.of(new Remark(kind, numbers, words()), new Remark(kind, numbers, ""));
            } catch (IllegalArgumentException e) {
                // of this kind there are more numbers
            }
        }
        throw new IllegalStateException(kind + " takes more numbers than any");
    }

    private Map<Measurand, Figure> figures() {
        Map<Measurand, Figure> figures = new EnumMap<>(Measurand.class);
        for (Measurand measurand : Measurand.values()) {
            if (random.nextInt(5) > 0) {
                figures.put(measurand, figure());
            }
        }
        return figures;
    }

    private Figure figure() {
        return switch (random.nextInt(3)) {
            case 0 -> Figure.absent(any(Absence.values()));
            case 1 -> Figure.of(number());
            default -> Figure.of(number(), Math.abs(number()));
        };
    }

    private double number() {
        if (random.nextInt(4) == 0) {
            return HARD_NUMBERS[random.nextInt(HARD_NUMBERS.length)];
        }
        return random.nextGaussian() * Math.pow(10, random.nextInt(8) - 3);
    }

    private String words() {
        return HARD_WORDS.get(random.nextInt(HARD_WORDS.size()));
    }

    private String by() {
        return "Kim" + words();
    }

    private Channel channel() {
        return any(Channel.values());
    }

    private <T> T any(T[] all) {
        return all[random.nextInt(all.length)];
    }
}
