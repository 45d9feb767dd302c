package leat.day;

import ch.qos.logback.classic.Level;
import ch.qos.logback.classic.Logger;
import ch.qos.logback.classic.spi.ILoggingEvent;
import ch.qos.logback.core.AppenderBase;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.slf4j.LoggerFactory;

/** The program's log: the messages that go there, and what it says of the routes. Always well. */
final class LogPart implements Part {

    private static final Pattern ID = Pattern.compile("[Mm]essage (\\S+)\\.$");

    private final Logger messages = (Logger) LoggerFactory.getLogger("leat.message");
    private final Level before = messages.getLevel();
    private final Logger program = (Logger) LoggerFactory.getLogger("leat");
    private final List<String> said = new CopyOnWriteArrayList<>();
    private final Ear ofMessages;
    private final Ear ofProgram = new Ear(said::add);

    LogPart(Arrivals arrivals) {
        ofMessages =
                new Ear(
                        text -> {
                            Matcher id = ID.matcher(text);
                            arrivals.came(
                                    route(),
                                    id.find() ? id.group(1) : "none in: " + text,
                                    row -> row.text().equals(text));
                        });
        messages.setLevel(Level.INFO); // whatever a test before this one has set
        messages.addAppender(ofMessages);
        program.addAppender(ofProgram);
    }

    /** Warnings and errors of the program so far. */
    List<String> said() {
        return List.copyOf(said);
    }

    @Override
    public String route() {
        return "log";
    }

    @Override
    public String yaml() {
        return "log: { }";
    }

    @Override
    public List<Spell> spells() {
        return List.of();
    }

    @Override
    public void begin(Ailment trouble) {
        throw new IllegalArgumentException("it is always well");
    }

    @Override
    public void turn(Ailment trouble) {
        throw new IllegalArgumentException("it is always well");
    }

    @Override
    public void end(Ailment trouble) {
        throw new IllegalArgumentException("it is always well");
    }

    @Override
    public void close() {
        messages.setLevel(before);
        messages.detachAppender(ofMessages);
        program.detachAppender(ofProgram);
    }

    /** Hears on the thread that speaks. */
    private static final class Ear extends AppenderBase<ILoggingEvent> {

        private interface Hearer {
            void hear(String words);
        }

        private final Hearer hearer;

        Ear(Hearer hearer) {
            this.hearer = hearer;
            setContext((ch.qos.logback.core.Context) LoggerFactory.getILoggerFactory());
            start();
        }

        @Override
        protected void append(ILoggingEvent event) {
            if (event.getLoggerName().equals("leat.message")
                    || event.getLevel().isGreaterOrEqual(Level.WARN)) {
                hearer.hear(event.getFormattedMessage());
            }
        }
    }
}
