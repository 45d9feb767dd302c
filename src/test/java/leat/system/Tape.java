package leat.system;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.Reading;
import leat.signal.SourceBack;
import leat.signal.SourceLost;
import leat.store.Run;
import leat.store.StoreReader;

/**
 * Everything that one machine was fed, in order, as the store holds it.
 *
 * @param machine its name
 * @param inputs the first one first
 */
record Tape(String machine, List<Input> inputs) {

    static final String NOT_RUNNING = "leat was not running";

    Tape {
        inputs = List.copyOf(inputs);
    }

    /** Reads it and checks that the inputs are numbered from 1 without a hole. */
    static Tape of(StoreReader reader, String machine) {
        List<Input> inputs = new ArrayList<>();
        reader.inputs(
                machine,
                0,
                Long.MAX_VALUE,
                (seq, input) -> {
                    assertThat(seq).as(machine + ": a hole").isEqualTo(inputs.size() + 1L);
                    inputs.add(input);
                });
        return new Tape(machine, inputs);
    }

    List<Reading> readings(Channel channel) {
        return of(Reading.class, channel).stream().map(Reading.class::cast).toList();
    }

    /** Readings of a channel with a time from one to before another, microseconds. */
    List<Reading> readings(Channel channel, long fromMicros, long toMicros) {
        return readings(channel).stream()
                .filter(r -> r.atMicros() >= fromMicros && r.atMicros() < toMicros)
                .toList();
    }

    List<SourceLost> losses(Channel channel) {
        return of(SourceLost.class, channel).stream().map(SourceLost.class::cast).toList();
    }

    List<SourceBack> returns(Channel channel) {
        return of(SourceBack.class, channel).stream().map(SourceBack.class::cast).toList();
    }

    private List<Input> of(Class<? extends Input> kind, Channel channel) {
        return inputs.stream()
                .filter(kind::isInstance)
                .filter(input -> isOf(channel, input))
                .toList();
    }

    private static boolean isOf(Channel channel, Input input) {
        return input instanceof Reading reading && reading.channel() == channel
                || input instanceof SourceLost lost && lost.channel() == channel
                || input instanceof SourceBack back && back.channel() == channel;
    }

    /**
     * Where two readings of a channel that follow one another lie further apart than {@code
     * longest}, the channel was said to be lost between them. So a gap is a gap and never bridged.
     */
    void assertNoUnsaidGap(Channel channel, Duration longest) {
        boolean lost = false;
        long last = Long.MAX_VALUE;
        for (Input input : inputs) {
            if (isOf(channel, input) && input instanceof SourceLost) {
                lost = true;
            } else if (isOf(channel, input) && input instanceof Reading) {
                double seconds = (input.atMicros() - last) / 1e6;
                String what =
                        String.format(
                                Locale.ROOT,
                                "%s %s: %.2f s without a reading before %d and nothing said",
                                machine,
                                channel,
                                seconds,
                                input.atMicros());
                assertThat(lost || seconds <= longest.toMillis() / 1e3).as(what).isTrue();
                lost = false;
                last = input.atMicros();
            }
        }
    }

    /**
     * After every restart the first thing that is known of each channel is that leat was not
     * running.
     *
     * @param runs oldest first
     * @return restarts of which an input was committed
     */
    int assertEachRestartIsAGap(List<Run> runs, Set<Channel> wired) {
        int restarts = 0;
        int at = inputs.isEmpty() ? 0 : nextStart(runs, 0);
        while (at < inputs.size()) {
            restarts++;
            int next = nextStart(runs, at);
            assertBeginsLost(inputs.subList(at, next), wired);
            at = next;
        }
        return restarts;
    }

    /** The first thing that these inputs of one run say of each channel is that it was lost. */
    void assertBeginsLost(List<Input> run, Set<Channel> wired) {
        Set<Channel> open = EnumSet.copyOf(wired);
        for (Input input : run) {
            if (input instanceof SourceLost lost && lost.reason().equals(NOT_RUNNING)) {
                open.remove(lost.channel());
            }
            if (input instanceof Reading reading) {
                assertThat(open)
                        .as(machine + ": a reading at " + reading.atMicros() + " before the gap")
                        .isEmpty();
            }
        }
        assertThat(open).as(machine + ": gap not said").isEmpty();
    }

    /** Index of the first input of the run after the one that {@code at} belongs to. */
    private int nextStart(List<Run> runs, int at) {
        int run = 0;
        while (run + 1 < runs.size()
                && runs.get(run + 1).startedMicros() <= inputs.get(at).atMicros()) {
            run++;
        }
        return firstOf(runs, run + 1, at);
    }

    private int firstOf(List<Run> runs, int run, int from) {
        if (run >= runs.size()) {
            return inputs.size();
        }
        int at = from;
        while (at < inputs.size() && inputs.get(at).atMicros() < runs.get(run).startedMicros()) {
            at++;
        }
        return at;
    }
}
