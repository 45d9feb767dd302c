package leat.system;

import static org.assertj.core.api.Assertions.assertThat;

import ch.qos.logback.classic.LoggerContext;
import ch.qos.logback.classic.joran.JoranConfigurator;
import ch.qos.logback.classic.util.LogbackMDCAdapter;
import ch.qos.logback.core.joran.spi.JoranException;
import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import leat.HostileText;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;

/** The program's own log settings, with hostile words in what is logged. */
class LogLayoutTest {

    private static final String EVENT =
            "[0-9]{4}-[0-9]{2}-[0-9]{2} [0-9:]{8}(Z|[+-][0-9:]{5}) (INFO |WARN |ERROR) ";

    private final ByteArrayOutputStream written = new ByteArrayOutputStream();
    private final LoggerContext context = new LoggerContext();
    private PrintStream before;

    @BeforeEach
    void read_the_settings() throws JoranException {
        before = System.err;
        System.setErr(new PrintStream(written, true, StandardCharsets.UTF_8));
        context.setMDCAdapter(new LogbackMDCAdapter());
        JoranConfigurator settings = new JoranConfigurator();
        settings.setContext(context);
        settings.doConfigure(Path.of("src/main/resources/logback.xml").toFile());
    }

    @AfterEach
    void stop() {
        context.stop();
        System.setErr(before);
    }

    @Test
    void event_is_one_line_whatever_it_quotes() {
        HostileText.EACH.forEach(text -> context.getLogger("leat.any").warn("heard {}.", text));

        assertThat(lines()).hasSize(HostileText.EACH.size());
        assertThat(lines()).allMatch(line -> line.matches(EVENT + "heard .*\\."));
        HostileText.assertHarmless(text());
    }

    @Test
    void message_of_the_log_route_keeps_its_lines_and_nothing_else() {
        context.getLogger("leat.message").error("{}", "CRITICAL: stop.\n" + HostileText.ALL);

        assertThat(lines().get(0)).matches(EVENT + "CRITICAL: stop\\.");
        assertThat(lines()).hasSize(6);
        HostileText.assertHarmless(text());
    }

    @Test
    void what_stands_below_an_error_is_indented_and_looks_like_no_event() {
        RuntimeException bug =
                new IllegalStateException(HostileText.ALL, new Error(HostileText.ALL));

        context.getLogger("leat.any").error("a step failed", bug);

        assertThat(lines().get(0)).matches(EVENT + "a step failed");
        assertThat(lines().subList(1, lines().size()))
                .hasSizeGreaterThan(10)
                .allMatch(line -> line.startsWith("    "));
        assertThat(text()).contains("forged", "at leat.system.LogLayoutTest.");
        HostileText.assertHarmless(text().replace("\t", "    "));
    }

    private String text() {
        return written.toString(StandardCharsets.UTF_8);
    }

    private List<String> lines() {
        return text().lines().toList();
    }
}
