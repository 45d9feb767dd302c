package leat.store;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import leat.alarm.Refusal;
import leat.signal.Input;
import leat.watch.Outcome;

/**
 * What one commit writes, all of it or nothing. It is filled as things happen, committed, and only
 * then {@linkplain #clear cleared} for the next second; after a failed commit it is still whole and
 * can be committed again, with more added. Thread-confined.
 */
public final class Batch {

    record Fed(String machine, long seq, Input input) {}

    record Taken(long number, String machine, long seq, long atMicros) {}

    record Refused(long number, long atMicros, Refusal reason) {}

    /** A try to deliver; {@code deliveredMicros} counts only when it was delivered. */
    record Tried(long number, boolean delivered, long deliveredMicros) {}

    /** A message that will not be tried again. */
    record GivenUp(long number, long atMicros, String reason) {}

    private record Last(long seq, int nth) {}

    final List<Fed> fed = new ArrayList<>();
    final List<Said> said = new ArrayList<>();
    final List<Message> owed = new ArrayList<>();
    final Map<String, Snapshot> snapshots = new HashMap<>();
    final List<Taken> taken = new ArrayList<>();
    final List<Refused> refused = new ArrayList<>();
    final List<Tried> tried = new ArrayList<>();
    final List<GivenUp> givenUp = new ArrayList<>();
    boolean unfolds;
    Optional<byte[]> annunciator = Optional.empty();
    private final Map<String, Last> lastSaid = new HashMap<>();

    /**
     * An input that a watch has taken.
     *
     * @param seq 1 for the first input of the machine, then counting without a hole, over restarts
     */
    public void fed(String machine, long seq, Input input) {
        requireNonNull(machine, "machine");
        requireNonNull(input, "input");
        fed.add(new Fed(machine, seq, input));
    }

    /**
     * What the watch said to the input {@code seq}, in the order in which it said it.
     *
     * @param configHash of a configuration that a run of this store was started with
     */
    public void said(String machine, long seq, Outcome outcome, String configHash) {
        Last last = lastSaid.getOrDefault(machine, new Last(-1, 0));
        int nth = last.seq == seq ? last.nth + 1 : 0;
        said.add(new Said(machine, seq, nth, outcome, configHash));
        lastSaid.put(machine, new Last(seq, nth));
    }

    /**
     * A message owed; a folded one is kept but not delivered. One that the store already has, by id
     * and route, is ignored.
     */
    public void owes(Message message) {
        owed.add(requireNonNull(message, "message"));
    }

    /** Folded messages that no message stands for, and never will, are owed by themselves. */
    public void unfolds() {
        unfolds = true;
    }

    /** The state of the annunciator; a later one replaces it. */
    public void annunciator(byte[] state) {
        annunciator = Optional.of(state.clone());
    }

    /** The state of a watch; a later one of the same machine replaces it. */
    public void snapshot(Snapshot snapshot) {
        snapshots.put(snapshot.machine(), snapshot);
    }

    /** The waiting instruction {@code number} was fed to the machine as input {@code seq}. */
    public void taken(long number, String machine, long seq, long atMicros) {
        taken.add(new Taken(number, requireNonNull(machine, "machine"), seq, atMicros));
    }

    /** The waiting instruction {@code number} cannot be fed at all: no such machine, for one. */
    public void refused(long number, long atMicros, Refusal reason) {
        refused.add(new Refused(number, atMicros, requireNonNull(reason, "reason")));
    }

    /** The message {@code number} of the outbox has reached its receiver. */
    public void delivered(long number, long atMicros) {
        tried.add(new Tried(number, true, atMicros));
    }

    /** The message {@code number} of the outbox was tried in vain and stays due. */
    public void attempted(long number) {
        tried.add(new Tried(number, false, 0));
    }

    /** The message {@code number} of the outbox is not tried any more. */
    public void givenUp(long number, long atMicros, String reason) {
        givenUp.add(new GivenUp(number, atMicros, requireNonNull(reason, "reason")));
    }

    public boolean isEmpty() {
        return fed.isEmpty()
                && said.isEmpty()
                && owed.isEmpty()
                && !unfolds
                && annunciator.isEmpty()
                && snapshots.isEmpty()
                && taken.isEmpty()
                && refused.isEmpty()
                && tried.isEmpty()
                && givenUp.isEmpty();
    }

    /** Inputs that wait for the commit: how much memory a full disk costs. */
    public int inputs() {
        return fed.size();
    }

    public void clear() {
        fed.clear();
        said.clear();
        owed.clear();
        unfolds = false;
        annunciator = Optional.empty();
        snapshots.clear();
        taken.clear();
        refused.clear();
        tried.clear();
        givenUp.clear();
        lastSaid.clear();
    }
}
