package leat.instruct;

import static java.util.Objects.requireNonNull;

import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.OptionalLong;
import java.util.Set;
import java.util.TreeMap;
import leat.signal.Instruction;
import leat.signal.Instruction.Entry;
import leat.store.InstructionBox;

/**
 * What can be asked for by MQTT, by the word that asks for it, and how it is left in the box of the
 * store. A new instruction is one more entry of the table. Immutable.
 */
final class Acts {

    /** Leaves an instruction in the box and returns its number. */
    @FunctionalInterface
    private interface Leaving {
        long leave(InstructionBox box, Map<String, String> details, String by, long nowMicros)
                throws Refused;
    }

    /**
     * One word.
     *
     * @param needed keys that must be there
     * @param allowed keys that may be there
     */
    private record Act(Set<String> needed, Set<String> allowed, Leaving leaving) {}

    /** Not all that there may be: another kind is open to MQTT only once it stands here. */
    private static final List<Entry> ENTRIES = List.of(Entry.NOTE, Entry.SERVICED, Entry.LEARN);

    private final Set<String> machines;
    private final Map<String, Act> byWord;

    /**
     * @param machines names of the machines of the site
     */
    Acts(List<String> machines) {
        this.machines = Set.copyOf(requireNonNull(machines, "machines"));
        this.byWord =
                new TreeMap<>(
                        Map.of(
                                "ack",
                                new Act(Set.of("alarm"), Set.of(), Acts::acknowledge),
                                "journal",
                                new Act(
                                        Set.of("machine"),
                                        Set.of("text", "entry"),
                                        this::journal)));
    }

    /**
     * Leaves what was asked for in the box.
     *
     * @param by who asked, for the history
     * @return the number of the instruction in the box
     * @throws Refused when it is not understood or meant for something that is not there
     */
    long leave(InstructionBox box, Order order, String by, long nowMicros) throws Refused {
        Act act = byWord.get(order.word());
        if (act == null) {
            throw new Refused(
                    "there is nothing to do called "
                            + order.word()
                            + "; known: "
                            + String.join(", ", byWord.keySet()));
        }
        check(act, order.details().keySet());
        return act.leaving().leave(box, order.details(), by, nowMicros);
    }

    private static void check(Act act, Set<String> given) throws Refused {
        Set<String> missing = new HashSet<>(act.needed());
        missing.removeAll(given);
        if (!missing.isEmpty()) {
            throw new Refused("missing: " + sorted(missing));
        }
        Set<String> unknown = new HashSet<>(given);
        unknown.removeAll(act.needed());
        unknown.removeAll(act.allowed());
        if (!unknown.isEmpty()) {
            throw new Refused("not known here: " + sorted(unknown));
        }
    }

    private static String sorted(Set<String> keys) {
        return String.join(", ", keys.stream().sorted().toList());
    }

    private static long acknowledge(
            InstructionBox box, Map<String, String> details, String by, long nowMicros)
            throws Refused {
        OptionalLong number = box.acknowledge(details.get("alarm"), by, nowMicros);
        return number.orElseThrow(() -> new Refused("there is no such alarm"));
    }

    private long journal(InstructionBox box, Map<String, String> details, String by, long nowMicros)
            throws Refused {
        String machine = details.get("machine");
        if (!machines.contains(machine)) {
            throw new Refused("there is no machine " + machine);
        }
        Entry entry = entry(details.getOrDefault("entry", key(Entry.NOTE)));
        String text = details.getOrDefault("text", "");
        if (entry == Entry.NOTE && text.isBlank()) {
            throw new Refused("text is missing");
        }
        return box.journal(machine, new Instruction.Journal(nowMicros, by, entry, text));
    }

    private static Entry entry(String word) throws Refused {
        return ENTRIES.stream()
                .filter(e -> key(e).equals(word))
                .findFirst()
                .orElseThrow(
                        () ->
                                new Refused(
                                        "entry is none of "
                                                + String.join(
                                                        ", ",
                                                        ENTRIES.stream().map(Acts::key).toList())));
    }

    private static String key(Entry entry) {
        return entry.name().toLowerCase(Locale.ROOT);
    }
}
