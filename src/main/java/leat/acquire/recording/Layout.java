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
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import leat.signal.Channel;
import leat.signal.PressureUnit;

/** What each column of a recording holds, from its header. Immutable. */
final class Layout {

    static final String EVENT = "event";

    /** {@code P in (bar)}, {@code P in [kPa]}, {@code p_in_psi}, {@code p in bar}. */
    private static final Pattern ENDS_IN_UNIT =
            Pattern.compile(".*[_\\s(\\[](psi|bar|kpa)[)\\]]?", Pattern.CASE_INSENSITIVE);

    private final List<String> header;
    private final Map<Channel, Integer> columns = new EnumMap<>(Channel.class);
    private final Map<Channel, PressureUnit> units = new EnumMap<>(Channel.class);
    private final List<String> ignored = new ArrayList<>();
    private OptionalInt time = OptionalInt.empty();
    private OptionalInt event = OptionalInt.empty();

    /**
     * Takes whatever it knows; {@link #requireUsable} says whether that is enough.
     *
     * @param header as it stands in the file
     * @param names what a person said of the columns
     * @param isOwn whether leat wrote the file, and its last column holds events
     * @throws BadCell when two columns hold the same
     */
    Layout(List<String> header, ColumnNames names, boolean isOwn) {
        this.header = header.stream().map(String::strip).toList();
        for (int i = 0; i < header.size(); i++) {
            take(i, names, isOwn);
        }
    }

    private void take(int index, ColumnNames names, boolean isOwn) {
        String name = header.get(index);
        String lower = name.toLowerCase(Locale.ROOT);
        if (isOwn && lower.equals(EVENT)) {
            event = OptionalInt.of(index);
        } else if (isTime(name, lower, names)) {
            if (time.isPresent()) {
                throw twice("time", time.getAsInt(), index);
            }
            time = OptionalInt.of(index);
        } else {
            Optional<Channel> channel = channel(name, lower, names);
            channel.ifPresent(c -> put(c, index, unit(c, name, names)));
            if (channel.isEmpty() && !name.isEmpty()) {
                ignored.add(name);
            }
        }
    }

    private static boolean isTime(String name, String lower, ColumnNames names) {
        ColumnNames.Named named = names.names().get(ColumnNames.TIME);
        return named == null
                ? lower.equals("time") || lower.equals("time_s")
                : named.name().strip().equalsIgnoreCase(name);
    }

    private static Optional<Channel> channel(String name, String lower, ColumnNames names) {
        for (Channel channel : Channel.values()) {
            ColumnNames.Named named = names.names().get(channel.key());
            boolean fits =
                    named == null
                            ? isOwnName(channel, lower)
                            : named.name().strip().equalsIgnoreCase(name);
            if (fits) {
                return Optional.of(channel);
            }
        }
        return Optional.empty();
    }

    private static boolean isOwnName(Channel channel, String lower) {
        if (!channel.isPressure()) {
            return lower.equals(channel.key());
        }
        return lower.startsWith(channel.key() + "_")
                && ColumnNames.unit(lower.substring(channel.key().length() + 1)).isPresent();
    }

    private static PressureUnit unit(Channel channel, String name, ColumnNames names) {
        ColumnNames.Named named = names.names().get(channel.key());
        if (named != null && named.unit().isPresent()) {
            return named.unit().get();
        }
        Matcher unit = ENDS_IN_UNIT.matcher(name);
        return unit.matches()
                ? ColumnNames.unit(unit.group(1)).orElse(PressureUnit.PSI)
                : PressureUnit.PSI;
    }

    private void put(Channel channel, int index, PressureUnit unit) {
        Integer before = columns.putIfAbsent(channel, index);
        if (before != null) {
            throw twice(channel.key(), before, index);
        }
        units.put(channel, unit);
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

    /** How many columns it knows. */
    int known() {
        return columns.size() + (time.isPresent() ? 1 : 0) + (event.isPresent() ? 1 : 0);
    }

    /**
     * @throws BadCell when the time or one of the two pressures that every judgement needs has no
     *     column
     */
    Layout requireUsable() {
        if (time.isEmpty()) {
            throw missing("time", "time or time_s", "time");
        }
        for (Channel channel : List.of(Channel.INLET, Channel.BOOSTED)) {
            if (!columns.containsKey(channel)) {
                String key = channel.key();
                throw missing(key, key + "_psi, " + key + "_bar or " + key + "_kpa", key);
            }
        }
        return this;
    }

    private BadCell missing(String what, String allowed, String key) {
        StringBuilder found = new StringBuilder();
        header.stream().limit(8).forEach(name -> found.append(' ').append(BadCell.quoted(name)));
        return new BadCell(
                "no column holds the " + what + "; there are" + found,
                "allowed is " + allowed + ", or say which: --column " + key + "=NAME");
    }

    int width() {
        return header.size();
    }

    int time() {
        return time.getAsInt();
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

    PressureUnit unit(Channel channel) {
        return units.get(channel);
    }

    /** Columns that hold nothing leat knows. */
    List<String> ignored() {
        return List.copyOf(ignored);
    }
}
