package leat.deliver;

import static java.nio.charset.StandardCharsets.UTF_8;
import static java.util.Objects.requireNonNull;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.time.Duration;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import leat.config.RouteSettings;
import leat.signal.PlainText;
import leat.store.Message;
import leat.words.FaultWords;
import leat.words.Phrases;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * A program on this computer, run once per message: never by a shell, always with the same
 * arguments. The message comes in environment variables {@code LEAT_...} and as JSON on standard
 * input; of leat's own environment it gets only the search path and the language, so that no secret
 * leaks. Exit code 0 takes the message over; anything else is tried again.
 *
 * <p>Confined to one thread; a second one feeds the program and a third listens, both for as long
 * as it runs.
 */
public final class CommandRoute implements Route {

    private static final Logger LOG = LoggerFactory.getLogger(CommandRoute.class);
    private static final int MOST_HEARD = 2_000;
    private static final int LONGEST_SHOWN = 200;

    /** A process may not get more than 128 KiB in one variable; a character takes up to 4 bytes. */
    private static final int LONGEST_VALUE = 30_000;

    private static final Duration LAST_WORDS = Duration.ofMillis(200);
    private static final Duration END = Duration.ofSeconds(1);

    private final RouteSettings.Command settings;
    private final Phrases phrases;

    /**
     * @param settings the program
     * @param phrases in the site's language
     */
    public CommandRoute(RouteSettings.Command settings, Phrases phrases) {
        this.settings = requireNonNull(settings, "settings");
        this.phrases = requireNonNull(phrases, "phrases");
    }

    @Override
    public String name() {
        return settings.name();
    }

    @Override
    public void start(Runnable reachable) {
        // it is found out at the next try
    }

    @Override
    public DeliveryResult deliver(Message message) {
        Process process;
        try {
            process = start(message);
        } catch (IOException e) {
            return notNow(
                    FaultWords.english(
                            "command.no-start",
                            PlainText.harmless(String.valueOf(e.getMessage()), LONGEST_SHOWN)));
        }
        Output heard = new Output(process.getInputStream());
        thread("in", () -> feed(process.getOutputStream(), message.json()));
        Thread listening = thread("out", heard::listen);
        try {
            if (!process.waitFor(settings.timeout().toMillis(), TimeUnit.MILLISECONDS)) {
                return notNow(
                        heard.after(
                                FaultWords.english(
                                        "command.not-done",
                                        Double.toString(settings.timeout().toMillis() / 1000.0))));
            }
            listening.join(LAST_WORDS.toMillis());
            return process.exitValue() == 0
                    ? DeliveryResult.DELIVERED
                    : notNow(
                            heard.after(
                                    FaultWords.english(
                                            "command.exit",
                                            Integer.toString(process.exitValue()))));
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return notNow(FaultWords.english("interrupted"));
        } finally {
            end(process);
        }
    }

    private Process start(Message message) throws IOException {
        ProcessBuilder builder = new ProcessBuilder(settings.run()).redirectErrorStream(true);
        Map<String, String> own = builder.environment();
        Map<String, String> kept =
                Map.of(
                        "PATH", own.getOrDefault("PATH", "/usr/bin:/bin"),
                        "LANG", own.getOrDefault("LANG", "C.UTF-8"));
        own.clear();
        own.putAll(kept);
        own.put("LEAT_ID", value(message.id()));
        own.put("LEAT_ALARM", value(message.alarmId()));
        own.put("LEAT_NUMBER", AlarmJson.number(message.json()));
        own.put("LEAT_MACHINE", value(message.machine()));
        own.put("LEAT_KIND", message.kind().name().toLowerCase(Locale.ROOT));
        own.put("LEAT_EVENT", value(message.event()));
        own.put("LEAT_GRADE", message.grade().name().toLowerCase(Locale.ROOT));
        Optional<AlarmJson.FirstCause> cause = AlarmJson.firstCause(message.json());
        own.put("LEAT_CAUSE", value(cause.map(AlarmJson.FirstCause::cause).orElse("")));
        own.put("LEAT_CAUSE_WEIGHT", cause.map(AlarmJson.FirstCause::weight).orElse(""));
        own.put("LEAT_AT", Voice.utc(message.atMicros()));
        own.put("LEAT_SUBJECT", value(message.subject()));
        own.put("LEAT_SHORT", value(AlarmJson.first(message.text())));
        own.put("LEAT_TEXT", text(message.text()));
        return builder.start();
    }

    private static String value(String text) {
        return PlainText.harmless(text, LONGEST_VALUE);
    }

    /** Lines stay lines. */
    private String text(String text) {
        String start = text.length() > LONGEST_VALUE ? text.substring(0, LONGEST_VALUE) : text;
        String lines = String.join("\n", start.lines().map(PlainText::harmless).toList());
        boolean cut = start.length() < text.length() || lines.length() > LONGEST_VALUE;
        return cut
                ? lines.substring(0, Math.min(lines.length(), LONGEST_VALUE))
                        + "\n"
                        + phrases.say("command.cut")
                : lines;
    }

    private Thread thread(String what, Runnable work) {
        Thread thread = new Thread(work, "leat-command-" + settings.name() + "-" + what);
        thread.setDaemon(true);
        thread.start();
        return thread;
    }

    /** A program that does not read its input is none the worse for it. */
    private static void feed(OutputStream to, String json) {
        try (to) {
            to.write(json.getBytes(UTF_8));
        } catch (IOException e) {
            LOG.debug("the program did not read its input", e);
        }
    }

    /** What the program started goes with it, as far as the system still knows of it. */
    private void end(Process process) {
        if (process.isAlive()) {
            process.descendants().forEach(ProcessHandle::destroyForcibly);
            process.destroyForcibly();
            try {
                process.waitFor(END.toMillis(), TimeUnit.MILLISECONDS);
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
            }
        }
        try {
            process.getInputStream().close();
        } catch (IOException e) {
            LOG.debug("route {}: closing the program's output", name(), e);
        }
    }

    private DeliveryResult notNow(String why) {
        return DeliveryResult.notNow(FaultWords.english("where", settings.run().get(0), why));
    }

    @Override
    public void close() {
        // each program has ended with its delivery
    }

    /** The first words of a program; the rest is read and dropped, so that it does not stall. */
    private static final class Output {

        private final InputStream from;
        private final StringBuilder heard = new StringBuilder();

        Output(InputStream from) {
            this.from = from;
        }

        void listen() {
            byte[] buffer = new byte[MOST_HEARD];
            try {
                for (int n = from.read(buffer); n >= 0; n = from.read(buffer)) {
                    keep(new String(buffer, 0, n, UTF_8));
                }
            } catch (IOException e) {
                LOG.debug("the program's output ended", e);
            }
        }

        private synchronized void keep(String words) {
            if (heard.length() < MOST_HEARD) {
                heard.append(words);
            }
        }

        /** How it ended, and what it said until then. */
        synchronized String after(String end) {
            String words = heard.toString().strip();
            return words.isEmpty()
                    ? end
                    : FaultWords.english(
                            "command.said", end, PlainText.harmless(words, LONGEST_SHOWN));
        }
    }
}
