package leat.watch;

import java.util.List;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import leat.signal.ClockStep;
import leat.signal.Input;
import leat.signal.Instruction;
import leat.signal.Order;
import leat.signal.Reading;
import leat.signal.SourceBack;
import leat.signal.SourceLost;
import leat.signal.Tick;

/** Moves inputs in time, and takes the time out of what was said of them. */
final class Shifted implements Input.Receiver {

    /** Microseconds of this century, wherever they stand in an outcome's text. */
    private static final Pattern MICROS = Pattern.compile("(?<![\\d.])\\d{16}(?!\\d)");

    private static final Pattern STAMP = Pattern.compile("\\d{8}T\\d{6}Z");

    private final long byMicros;
    private Input shifted;

    private Shifted(long byMicros) {
        this.byMicros = byMicros;
    }

    static List<Input> by(long micros, List<Input> inputs) {
        Shifted all = new Shifted(micros);
        return inputs.stream().map(all::shift).toList();
    }

    /** The whole of each outcome as text, its times shifted and alarm ids without their stamp. */
    static List<String> words(long byMicros, List<Outcome> outcomes) {
        return outcomes.stream().map(outcome -> words(byMicros, outcome)).toList();
    }

    private static String words(long byMicros, Outcome outcome) {
        String text = STAMP.matcher(outcome.toString()).replaceAll("");
        return MICROS.matcher(text).replaceAll(number -> moved(number, byMicros));
    }

    private static String moved(MatchResult number, long byMicros) {
        return Long.toString(Long.parseLong(number.group()) + byMicros);
    }

    private Input shift(Input input) {
        input.to(this);
        return shifted;
    }

    @Override
    public void reading(Reading r) {
        Reading later = r.at(r.atMicros() + byMicros);
        shifted =
                r.claimedMicros().isPresent()
                        ? later.claiming(r.claimedMicros().getAsLong() + byMicros)
                        : later;
    }

    @Override
    public void tick(Tick tick) {
        shifted = new Tick(tick.atMicros() + byMicros);
    }

    @Override
    public void sourceLost(SourceLost lost) {
        shifted = new SourceLost(lost.channel(), lost.atMicros() + byMicros, lost.reason());
    }

    @Override
    public void sourceBack(SourceBack back) {
        shifted = new SourceBack(back.channel(), back.atMicros() + byMicros);
    }

    @Override
    public void clockStep(ClockStep step) {
        shifted = new ClockStep(step.atMicros() + byMicros, step.fromMicros() + byMicros);
    }

    @Override
    public void instruction(Instruction instruction) {
        long at = instruction.atMicros() + byMicros;
        shifted = new Instruction(at, instruction.by(), shifted(instruction.order()));
    }

    private Order shifted(Order order) {
        if (order instanceof Order.Shelve s) {
            return new Order.Shelve(s.alarmId(), s.untilMicros() + byMicros, s.why());
        }
        if (order instanceof Order.Acknowledge || order instanceof Order.Journal) {
            return order;
        }
        throw new IllegalArgumentException("names an alarm by its time: " + order);
    }
}
