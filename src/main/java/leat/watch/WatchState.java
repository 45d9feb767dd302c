package leat.watch;

import java.util.Set;
import leat.signal.Channel;
import leat.signal.StateReader;

/** The head of a written-down state: what it is of, and in which format. */
final class WatchState {

    /** Grows with every change of what a watch writes down; an older state is then not taken up. */
    static final int FORMAT = 7;

    private WatchState() {}

    static int wiring(Set<Channel> wired) {
        return wired.stream().mapToInt(channel -> 1 << channel.code()).sum();
    }

    static void check(WatchSettings settings, StateReader in) {
        int format = in.getInt();
        if (format != FORMAT) {
            throw new IllegalArgumentException(
                    "state has format " + format + ", this leat reads " + FORMAT);
        }
        String machine = in.getText();
        if (!machine.equals(settings.machine())) {
            throw new IllegalArgumentException(
                    "state is of " + machine + ", not of " + settings.machine());
        }
        if (in.getInt() != wiring(settings.wired())) {
            throw new IllegalArgumentException("state is of a machine with other channels wired");
        }
    }
}
