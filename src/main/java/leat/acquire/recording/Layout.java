package leat.acquire.recording;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import leat.signal.Channel;
import leat.signal.PressureUnit;

/**
 * What each column of a recording holds, from its header, and what is wrong with it. Made anew for
 * each reading of a file: its contacts remember which codes they met. Thread-confined.
 */
final class Layout {

    static final String EVENT = "event";
    private static final int NAMES_SAID = 8;

    private final List<String> header;
    private final ColumnNames names;
    private final boolean isOwn;
    private final Map<Channel, Integer> columns = new EnumMap<>(Channel.class);
    private final Map<Channel, PressureUnit> units = new EnumMap<>(Channel.class);
    private final Map<Channel, ContactCell> contacts = new EnumMap<>(Channel.class);
    private final List<String> ignored = new ArrayList<>();
    private final List<BadCell> mistakes = new ArrayList<>();
    private OptionalInt time = OptionalInt.empty();
    private OptionalInt event = OptionalInt.empty();

    /**
     * Takes whatever it knows; {@link #mistakes} says whether that is enough.
     *
     * @param header as it stands in the file
     * @param names what a person said of the columns
     * @param isOwn whether leat wrote the file, and its last column holds events
     */
    Layout(List<String> header, ColumnNames names, boolean isOwn) {
        this.header = header.stream().map(String::strip).toList();
        this.names = names;
        this.isOwn = isOwn;
        for (int i = 0; i < header.size(); i++) {
            take(i);
        }
        names.names().keySet().stream().sorted().forEach(this::requireNamed);
        requireUsable();
    }

    private void take(int index) {
        String name = header.get(index);
        String lower = name.toLowerCase(Locale.ROOT);
        if (isOwn && lower.equals(EVENT)) {
            event = OptionalInt.of(index);
            return;
        }
        boolean known = false;
        if (isCalled(name, ColumnNames.TIME, lower.equals("time") || lower.equals("time_s"))) {
            known = true;
            takeTime(index);
        }
        for (Channel channel : Channel.values()) {
            if (isCalled(name, channel.key(), isOwnName(channel, lower))) {
                if (known) {
                    mistakes.add(usedTwice(index));
                }
                known = true;
                take(channel, index);
            }
        }
        if (!known && !name.isEmpty()) {
            ignored.add(name);
        }
    }

    /**
     * Whether a column is the one that a person named for this, else whether it has leat's name.
     */
    private boolean isCalled(String name, String key, boolean hasOwnName) {
        return names.of(key)
                .map(given -> hasColumn(given) ? given.isWholly(name) : given.isBeforeColon(name))
                .orElse(hasOwnName);
    }

    private boolean hasColumn(ColumnNames.Named given) {
        return header.stream().anyMatch(given::isWholly);
    }

    private static boolean isOwnName(Channel channel, String lower) {
        if (lower.equals(channel.key())) {
            return true;
        }
        return channel.isPressure()
                && lower.startsWith(channel.key() + "_")
                && Units.of(lower.substring(channel.key().length() + 1)).isPresent();
    }

    private void takeTime(int index) {
        if (time.isPresent()) {
            mistakes.add(twice(ColumnNames.TIME, time.getAsInt(), index));
            return;
        }
        time = OptionalInt.of(index);
    }

    private void take(Channel channel, int index) {
        Integer before = columns.putIfAbsent(channel, index);
        if (before != null) {
            mistakes.add(twice(channel.key(), before, index));
            return;
        }
        Optional<String> added =
                names.of(channel.key())
                        .filter(given -> !hasColumn(given))
                        .flatMap(ColumnNames.Named::afterColon);
        try {
            if (channel.isPressure()) {
                units.put(channel, unit(channel, index, added));
            } else {
                contacts.put(channel, new ContactCell(channel.key(), added));
            }
        } catch (BadCell e) {
            mistakes.add(e.in(index));
        }
    }

    private PressureUnit unit(Channel channel, int index, Optional<String> given) {
        if (given.isPresent()) {
            return Units.of(given.get()).orElseThrow(() -> Units.unknown(given.get()));
        }
        String name = header.get(index);
        return Units.in(name)
                .orElseThrow(
                        () ->
                                new BadCell(
                                        channel.key()
                                                + " "
                                                + BadCell.quoted(name)
                                                + " does not say its unit",
                                        "say it: --column \""
                                                + channel.key()
                                                + "="
                                                + BadCell.plain(name)
                                                + ":bar\", where "
                                                + Units.KNOWN
                                                + " are known"));
    }

    private BadCell usedTwice(int index) {
        return new BadCell(
                        BadCell.quoted(header.get(index)) + " is named for two things",
                        "each column holds one")
                .in(index);
    }

    private BadCell twice(String what, int first, int second) {
        return new BadCell(
                "the columns "
                        + BadCell.quoted(header.get(first))
                        + " and "
                        + BadCell.quoted(header.get(second))
                        + " both hold "
                        + what,
                "name one with --column " + what + "=NAME");
    }

    /** A column that a person named has to be there, whether leat needs it or not. */
    private void requireNamed(String key) {
        boolean there =
                key.equals(ColumnNames.TIME)
                        ? time.isPresent()
                        : Channel.byKey(key).filter(columns::containsKey).isPresent();
        ColumnNames.Named given = names.of(key).orElseThrow();
        if (there) {
            if (key.equals(ColumnNames.TIME) && !hasColumn(given)) {
                mistakes.add(
                        new BadCell(
                                "a time has no unit: " + BadCell.quoted(given.text()),
                                "allowed is --column time=NAME"));
            }
            return;
        }
        mistakes.add(
                new BadCell(
                        "there is no column " + BadCell.quoted(given.text()) + " for " + key,
                        found()));
        given.afterColon()
                .filter(unit -> Channel.byKey(key).filter(Channel::isPressure).isPresent())
                .filter(unit -> Units.of(unit).isEmpty())
                .ifPresent(unit -> mistakes.add(Units.unknown(unit)));
    }

    /** How many columns it knows. */
    int known() {
        return columns.size() + (time.isPresent() ? 1 : 0) + (event.isPresent() ? 1 : 0);
    }

    /** The time and the one pressure that every judgement needs. */
    private void requireUsable() {
        if (time.isEmpty() && names.of(ColumnNames.TIME).isEmpty()) {
            mistakes.add(missing("time", "time or time_s", "time=NAME"));
        }
        String key = Channel.BOOSTED.key();
        if (!columns.containsKey(Channel.BOOSTED) && names.of(key).isEmpty()) {
            mistakes.add(
                    missing(
                            key,
                            key + "_psi, " + key + "_bar or " + key + "_kpa",
                            key + "=NAME:UNIT"));
        }
    }

    private BadCell missing(String what, String allowed, String option) {
        return new BadCell(
                "no column holds the " + what + "; " + found(),
                "allowed is " + allowed + ", or say which: --column " + option);
    }

    private String found() {
        StringBuilder found = new StringBuilder("there are");
        header.stream()
                .limit(NAMES_SAID)
                .forEach(name -> found.append(' ').append(BadCell.quoted(name)));
        return found.append(header.size() > NAMES_SAID ? " and others" : "").toString();
    }

    /** What is wrong with the columns; nothing can be judged until it is mended. */
    List<BadCell> mistakes() {
        return List.copyOf(mistakes);
    }

    int width() {
        return header.size();
    }

    /** Index of the time, or -1. */
    int time() {
        return time.orElse(-1);
    }

    /** Index of the events, or -1. */
    int event() {
        return event.orElse(-1);
    }

    Set<Channel> channels() {
        return columns.isEmpty() ? Set.of() : EnumSet.copyOf(columns.keySet());
    }

    int column(Channel channel) {
        return columns.get(channel);
    }

    /** The unit of a pressure; psi where a mistake has left none. */
    PressureUnit unit(Channel channel) {
        return units.getOrDefault(channel, PressureUnit.PSI);
    }

    /**
     * How the cells of a contact are read; as 0 and 1 where a mistake has left its codes untold.
     */
    ContactCell contact(Channel channel) {
        return contacts.getOrDefault(channel, new ContactCell(channel.key(), Optional.empty()));
    }

    /** Names of columns whose codes mean "on" and never came. */
    List<String> neverOn() {
        return contacts.entrySet().stream()
                .filter(contact -> contact.getValue().isNeverOn())
                .map(contact -> header.get(columns.get(contact.getKey())))
                .toList();
    }

    /** Columns that hold nothing leat knows. */
    List<String> ignored() {
        return List.copyOf(ignored);
    }
}
