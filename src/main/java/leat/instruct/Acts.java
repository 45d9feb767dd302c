package leat.instruct;

import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Function;
import leat.signal.Order;
import leat.signal.Order.Entry;

/**
 * What can be asked for by MQTT, by the word that asks for it, and with which keys. A new
 * instruction is one more entry of the table. Immutable.
 */
final class Acts {

    /** Asks for one thing in the words of a message. */
    @FunctionalInterface
    private interface Asking {
        Request of(Requests requests, Map<String, String> details) throws Refused;
    }

    /**
     * One word.
     *
     * @param needed keys that must be there
     * @param allowed keys that may be there
     */
    private record Act(Set<String> needed, Set<String> allowed, Asking asking) {}

    /** Not all that there may be: another kind is open to a message only once it stands here. */
    private static final List<Entry> ENTRIES =
            List.of(
                    Entry.NOTE,
                    Entry.SERVICED,
                    Entry.LEARN,
                    Entry.PUMP_REPLACED,
                    Entry.COUPLING_GAP,
                    Entry.REGULATOR_TURNED,
                    Entry.FILTER_CHANGED,
                    Entry.STRAINER_CLEANED,
                    Entry.AIR_PURGED,
                    Entry.TRANSDUCER_CHANGED);

    private static final Map<String, Act> BY_WORD =
            new TreeMap<>(
                    Map.of(
                            "ack",
                            alarm(Order.Acknowledge::new),
                            "reset",
                            alarm(Order.Reset::new),
                            "shelve",
                            new Act(
                                    Set.of("alarm", "for", "why"),
                                    Set.of(),
                                    (requests, said) ->
                                            requests.shelve(
                                                    said.get("alarm"),
                                                    said.get("for"),
                                                    said.get("why"))),
                            "unshelve",
                            alarm(Order.Unshelve::new),
                            "out-of-service",
                            new Act(
                                    Set.of("alarm", "turn"),
                                    Set.of("why"),
                                    (requests, said) ->
                                            requests.outOfService(
                                                    said.get("alarm"),
                                                    Requests.isOn(said.get("turn")),
                                                    said.getOrDefault("why", ""))),
                            "service",
                            new Act(
                                    Set.of("machine", "turn"),
                                    Set.of("text"),
                                    (requests, said) ->
                                            requests.service(
                                                    said.get("machine"),
                                                    said.get("turn"),
                                                    said.getOrDefault("text", ""))),
                            "journal",
                            new Act(
                                    Set.of("machine"),
                                    Set.of("text", "entry", "found"),
                                    (requests, said) ->
                                            requests.journal(
                                                    said.get("machine"),
                                                    entry(said),
                                                    said.getOrDefault("text", ""),
                                                    said.getOrDefault("found", ""))),
                            "answer",
                            new Act(
                                    Set.of("about", "answer"),
                                    Set.of("text"),
                                    (requests, said) ->
                                            requests.answer(
                                                    said.get("about"),
                                                    said.get("answer"),
                                                    said.getOrDefault("text", ""),
                                                    List.of()))));

    private Acts() {}

    /** What needs nothing but an alarm. */
    private static Act alarm(Function<String, Order.AboutAlarm> order) {
        return new Act(
                Set.of("alarm"),
                Set.of(),
                (requests, said) -> requests.about(said.get("alarm"), order));
    }

    /**
     * What a message asks for.
     *
     * @throws Refused when it is not understood or meant for something that is not there
     */
    static Request request(SignedWords words, Requests requests) throws Refused {
        Act act = BY_WORD.get(words.word());
        if (act == null) {
            throw Refused.worded(
                    "there is nothing to do called "
                            + words.word()
                            + "; known: "
                            + String.join(", ", BY_WORD.keySet()));
        }
        check(act, words.details().keySet());
        return act.asking().of(requests, words.details());
    }

    private static void check(Act act, Set<String> given) throws Refused {
        Set<String> missing = new HashSet<>(act.needed());
        missing.removeAll(given);
        if (!missing.isEmpty()) {
            throw Refused.worded("missing: " + sorted(missing));
        }
        Set<String> unknown = new HashSet<>(given);
        unknown.removeAll(act.needed());
        unknown.removeAll(act.allowed());
        if (!unknown.isEmpty()) {
            throw Refused.worded("not known here: " + sorted(unknown));
        }
    }

    private static String sorted(Set<String> keys) {
        return String.join(", ", keys.stream().sorted().toList());
    }

    private static Entry entry(Map<String, String> said) throws Refused {
        String word = said.getOrDefault("entry", Entry.NOTE.key());
        return ENTRIES.stream()
                .filter(e -> e.key().equals(word))
                .findFirst()
                .orElseThrow(
                        () ->
                                Refused.worded(
                                        "entry is none of "
                                                + String.join(
                                                        ", ",
                                                        ENTRIES.stream()
                                                                .map(Entry::key)
                                                                .toList())));
    }
}
