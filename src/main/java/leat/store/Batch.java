package leat.store;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.LongSupplier;
import java.util.stream.Collectors;
import leat.alarm.Refusal;
import leat.rule.Grade;
import leat.signal.Channel;
import leat.signal.ClockStep;
import leat.signal.Input;
import leat.signal.Instruction;
import leat.signal.Reading;
import leat.signal.SourceLost;
import leat.watch.Outcome;
import leat.words.FaultWords;

/**
 * What one commit writes, all of it or nothing. It is filled as things happen, committed, and only
 * then {@linkplain #clear cleared} for the next second; after a failed commit it is still whole and
 * can be committed again, with more added. Thread-confined.
 */
public final class Batch {

    /** Stands in the stored inputs where readings were let go: nothing is judged across it. */
    static final String NOT_STORED = FaultWords.english("not-stored");

    /** The number of a message that no commit has tried to write yet. */
    private static final long NOT_NUMBERED = 0;

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
    final List<Owed> owed = new ArrayList<>();
    final Map<String, Snapshot> snapshots = new HashMap<>();
    final List<Taken> taken = new ArrayList<>();
    final List<Refused> refused = new ArrayList<>();
    final List<Tried> tried = new ArrayList<>();
    final List<GivenUp> givenUp = new ArrayList<>();
    final Map<String, Long> alarmNumbers = new HashMap<>();
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

    /** The number that an alarm has, or is to have when it is stored for the first time. */
    public void numbered(String alarmId, long number) {
        alarmNumbers.put(alarmId, number);
    }

    /** True when it waits in this batch already. */
    public boolean says(Outcome outcome) {
        return said.stream().anyMatch(each -> each.outcome().equals(outcome));
    }

    /**
     * A message owed; a folded one is kept but not delivered. One that the store already has, by id
     * and route, is ignored.
     */
    public void owes(Message message) {
        owed.add(new Owed(NOT_NUMBERED, 0, message));
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

    /** Another file has been begun, without them: there the numbers stand for other ones. */
    public void forgetInstructions() {
        taken.clear();
        refused.clear();
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

    /** Each message gets the number that it will have in the outbox, and keeps it. */
    void number(LongSupplier next) {
        owed.replaceAll(
                each ->
                        each.number() == NOT_NUMBERED
                                ? new Owed(next.getAsLong(), 0, each.message())
                                : each);
    }

    /**
     * After a failed commit: the messages that wait to be stored and have not reached their
     * receiver, without the folded ones, in the order of their numbers. They have the numbers that
     * they will have in the outbox.
     */
    public List<Owed> unstored() {
        Set<Long> settled = settled();
        return owed.stream()
                .filter(each -> each.message().foldedInto().isEmpty())
                .filter(each -> !settled.contains(each.number()))
                .toList();
    }

    private Set<Long> settled() {
        Set<Long> settled = new HashSet<>();
        tried.stream().filter(Tried::delivered).forEach(each -> settled.add(each.number()));
        givenUp.forEach(each -> settled.add(each.number()));
        return settled;
    }

    /**
     * Lets go of the inputs that wait, but for what people asked for and steps of the clock. In the
     * place of each channel's first reading stands that there is none. To be called with the
     * snapshot of every machine in the batch: a restart must not go across.
     *
     * @return how many readings went
     */
    public int letInputsGo() {
        Set<List<Object>> said = new HashSet<>();
        List<Fed> kept = new ArrayList<>();
        int readings = 0;
        for (Fed each : fed) {
            if (each.input() instanceof Instruction || each.input() instanceof ClockStep) {
                kept.add(each);
            } else if (each.input() instanceof Reading reading) {
                readings++;
                if (said.add(List.of(each.machine(), reading.channel()))) {
                    kept.add(unread(each, reading.channel()));
                }
            } else if (each.input() instanceof SourceLost lost
                    && lost.reason().equals(NOT_STORED)) {
                said.add(List.of(each.machine(), lost.channel()));
                kept.add(each);
            }
        }
        fed.clear();
        fed.addAll(kept);
        return readings;
    }

    private static Fed unread(Fed fed, Channel channel) {
        return new Fed(
                fed.machine(),
                fed.seq(),
                new SourceLost(channel, fed.input().atMicros(), NOT_STORED));
    }

    /**
     * Lets the oldest outcomes go, those first that neither are about an alarm nor refuse what
     * somebody asked for: its input stays, and would count as followed.
     *
     * @return how many went
     */
    public int letOutcomesGo(int atMost) {
        return letGo(
                        said,
                        atMost,
                        Comparator.comparing(
                                each ->
                                        each.outcome() instanceof Outcome.AlarmChanged
                                                || each.outcome()
                                                        instanceof Outcome.InstructionRefused))
                .size();
    }

    /**
     * Lets messages go: first what has reached its receiver or was given up, then what is folded,
     * then the oldest, what is CRITICAL last.
     *
     * @return how many went
     */
    public int letMessagesGo(int atMost) {
        if (owed.size() <= atMost) {
            return 0;
        }
        Set<Long> settled = settled();
        Set<Long> gone =
                letGo(
                                owed,
                                atMost,
                                Comparator.<Owed, Boolean>comparing(
                                                each -> !settled.contains(each.number()))
                                        .thenComparing(
                                                each -> each.message().foldedInto().isEmpty())
                                        .thenComparing(
                                                each -> each.message().grade() == Grade.CRITICAL))
                        .stream()
                        .map(Owed::number)
                        .collect(Collectors.toSet());
        tried.removeIf(mark -> gone.contains(mark.number()));
        givenUp.removeIf(mark -> gone.contains(mark.number()));
        return gone.size();
    }

    /** The first by {@code order} go, of equals the oldest; the others keep their order. */
    private static <T> Set<T> letGo(List<T> waiting, int atMost, Comparator<T> order) {
        Set<T> gone = Collections.newSetFromMap(new IdentityHashMap<>());
        waiting.stream()
                .sorted(order)
                .limit(Math.max(0, waiting.size() - atMost))
                .forEach(gone::add);
        waiting.removeIf(gone::contains);
        return gone;
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
        alarmNumbers.clear();
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
