package leat.instruct;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import java.util.List;
import java.util.function.Function;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import leat.config.MachineSettings;
import leat.diagnose.Answer;
import leat.signal.Instruction;
import leat.signal.LengthOfTime;
import leat.signal.Order;
import leat.signal.Order.Entry;
import leat.store.InstructionBox;
import leat.words.Saying;

/**
 * Makes requests of what one person asks, on the command line or by MQTT. Each method checks what
 * can be checked beforehand, such as the name of the alarm or the length of a shelf, and refuses
 * what leat could never follow. The watch decides later whether the alarm is in a state for it.
 *
 * <p>A request is only made here, not stored. As thread-confined as its box.
 */
public final class Requests {

    /** Of a reason or a journal entry, in characters: a page. leat's own choice. */
    public static final int LONGEST_TEXT = 1_000;

    /** Of the name of a person, in characters. leat's own choice. */
    public static final int LONGEST_NAME = 80;

    private static final Pattern STARTUP = Pattern.compile("([^/]+)/[1-9][0-9]{0,17}");

    private final InstructionBox box;
    private final List<MachineSettings> machines;
    private final String by;
    private final long nowMicros;

    /**
     * @param box of the store that knows the alarms; borrowed
     * @param machines those of the site. Empty where no configuration is at hand: then the store
     *     says which machines there are, and the watch says how long an alarm may be shelved
     * @param by who asks, for the history
     * @param nowMicros when, microseconds UTC
     * @throws Refused when {@code by} is nobody, or no name
     */
    public Requests(InstructionBox box, List<MachineSettings> machines, String by, long nowMicros)
            throws Refused {
        this.box = requireNonNull(box, "box");
        this.machines = List.copyOf(machines);
        this.by = requireNonNull(by, "by");
        this.nowMicros = nowMicros;
        if (by.isBlank()) {
            throw new Refused("asked.who");
        }
        requireKeepable("asked.name", by, LONGEST_NAME);
    }

    /**
     * An order that names an alarm and nothing else: acknowledge, reset, unshelve.
     *
     * @param alarm its number or its id, here and below
     * @param order made from the alarm's id
     */
    public Request about(String alarm, Function<String, Order.AboutAlarm> order) throws Refused {
        InstructionBox.Alarm known =
                box.alarm(alarm).orElseThrow(() -> Refused.absent("asked.no-alarm", alarm));
        return request(known.machine(), order.apply(known.id()));
    }

    private Request request(String machine, Order order) {
        return new Request(machine, new Instruction(nowMicros, by, order));
    }

    /**
     * Shelves an alarm: nobody is called for it until the time is over.
     *
     * @param time how long from now, as {@link LengthOfTime} reads it
     */
    public Request shelve(String alarm, String time, String why) throws Refused {
        requireReason(why);
        Duration duration =
                LengthOfTime.read(time)
                        .filter(d -> !d.isZero())
                        .orElseThrow(() -> new Refused("asked.no-length", time));
        long until = nowMicros + duration.toMillis() * 1_000;
        Request request = about(alarm, id -> new Order.Shelve(id, until, why));
        requireShortEnough(request.machine(), duration);
        return request;
    }

    /**
     * Takes an alarm out of service, or puts it back.
     *
     * @param out false puts it back
     * @param why the reason; empty for putting it back, of which no reason is kept
     */
    public Request outOfService(String alarm, boolean out, String why) throws Refused {
        if (out) {
            requireReason(why);
            return about(alarm, id -> new Order.Remove(id, why));
        }
        if (!why.isEmpty()) {
            throw new Refused("asked.no-reason-kept");
        }
        return about(alarm, Order.Restore::new);
    }

    /**
     * Begins or ends work on the machine.
     *
     * @param turn {@code on} or {@code off}
     * @param text what is done, for the journal; may be empty
     */
    public Request service(String machine, String turn, String text) throws Refused {
        return entry(machine, isOn(turn) ? Entry.SERVICE_ON : Entry.SERVICE_OFF, text, "");
    }

    /**
     * Notes what was done to the machine.
     *
     * @param text never blank for a note that says nothing of what was found, and for what is to be
     *     learned anew
     * @param found key of the cause that turned out to be the matter; empty where nobody says
     */
    public Request journal(String machine, Entry entry, String text, String found) throws Refused {
        if (entry == Entry.LEARN) {
            requireReason(text);
        }
        if (entry == Entry.NOTE && text.isBlank() && found.isEmpty()) {
            throw new Refused("asked.empty-text");
        }
        if (!found.isEmpty()) {
            KnownWords.requireCause(found);
        }
        return entry(machine, entry, text, found);
    }

    /**
     * Says what a check showed.
     *
     * @param about the machine, one of its starts such as {@code jet-1/17}, or an alarm of it by
     *     number or id
     * @param answer key of the answer
     * @param text free words; may be empty
     * @param first answers that are asked for just now, to be named first where another word is
     *     given; may be empty
     */
    public Request answer(String about, String answer, String text, List<Answer> first)
            throws Refused {
        KnownWords.requireAnswer(answer, first);
        return entry(machineOf(about), Entry.ANSWER, text, answer);
    }

    private Request entry(String machine, Entry entry, String text, String found) throws Refused {
        requireKeepable("asked.text", text, LONGEST_TEXT);
        List<String> known = machines();
        if (!known.contains(machine)) {
            throw Refused.absent("asked.no-machine", machine, String.join(", ", known));
        }
        return request(machine, new Order.Journal(entry, text, found));
    }

    private List<String> machines() {
        return machines.isEmpty()
                ? box.machines()
                : machines.stream().map(MachineSettings::name).toList();
    }

    private String machineOf(String about) throws Refused {
        if (machines().contains(about)) {
            return about;
        }
        Matcher startup = STARTUP.matcher(about);
        if (startup.matches()) {
            return startup.group(1);
        }
        return box.alarm(about)
                .map(InstructionBox.Alarm::machine)
                .orElseThrow(
                        () ->
                                Refused.absent(
                                        "asked.nothing-such",
                                        about,
                                        String.join(", ", machines())));
    }

    /** The watch checks this as well. If leat is down, its answer would come when nobody looks. */
    private void requireShortEnough(String machine, Duration duration) throws Refused {
        for (MachineSettings settings : machines) {
            if (settings.name().equals(machine) && duration.compareTo(settings.longestHold()) > 0) {
                throw new Refused("asked.shelf-too-long", machine, words(settings.longestHold()));
            }
        }
    }

    private static String words(Duration longest) {
        if (longest.toSeconds() % 3_600 == 0) {
            return longest.toHours() + " h";
        }
        return longest.toSeconds() % 60 == 0
                ? longest.toMinutes() + " min"
                : longest.toSeconds() + " s";
    }

    /** Whether {@code on} or {@code off} was said. */
    static boolean isOn(String turn) throws Refused {
        return switch (turn) {
            case "on" -> true;
            case "off" -> false;
            default -> throw new Refused("asked.on-or-off", turn);
        };
    }

    private static void requireReason(String why) throws Refused {
        if (why.isBlank()) {
            throw new Refused("asked.why");
        }
        requireKeepable("asked.reason", why, LONGEST_TEXT);
    }

    /** A text that is too long is refused, never cut: the person shortens it and loses nothing. */
    private static void requireKeepable(String what, String text, int longest) throws Refused {
        if (text.length() > longest) {
            throw new Refused(
                    "asked.too-long",
                    Saying.of(what),
                    Integer.toString(text.length()),
                    Integer.toString(longest));
        }
        if (text.codePoints().anyMatch(c -> Character.getType(c) == Character.SURROGATE)) {
            throw new Refused("asked.half-character", Saying.of(what));
        }
    }
}
