package leat.deliver;

import static org.assertj.core.api.Assertions.assertThat;

import ch.qos.logback.classic.Level;
import ch.qos.logback.classic.Logger;
import ch.qos.logback.classic.spi.ILoggingEvent;
import ch.qos.logback.core.read.ListAppender;
import java.util.List;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmEvent;
import leat.alarm.AlarmState;
import leat.rule.Grade;
import leat.signal.PressureUnit;
import leat.store.Message;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.slf4j.LoggerFactory;

class LogRouteTest extends RouteContract {

    private final Logger logger = (Logger) LoggerFactory.getLogger("leat.message");
    private final ListAppender<ILoggingEvent> log = new ListAppender<>();

    @Override
    Route open() {
        log.start();
        logger.addAppender(log);
        return new LogRoute("hall");
    }

    @AfterEach
    void stop_recording() {
        logger.detachAppender(log);
    }

    @Override
    List<Integer> arrived() {
        return log.list.stream()
                .map(event -> Integer.parseInt(event.getFormattedMessage().substring(5)))
                .toList();
    }

    @Test
    void grade_sets_the_level_and_what_calls_nobody_is_information() {
        for (Grade grade : Grade.values()) {
            route().deliver(message(AlarmEvent.RAISED, grade));
        }
        route().deliver(message(AlarmEvent.RETURNED, Grade.CRITICAL));

        assertThat(log.list)
                .extracting(ILoggingEvent::getLevel)
                .containsExactly(Level.INFO, Level.WARN, Level.ERROR, Level.INFO);
        assertThat(log.list.get(2).getFormattedMessage()).startsWith("CRITICAL jet-1: no boost");
    }

    @Test
    void an_alarm_that_is_active_as_its_shelf_ends_is_logged_at_the_level_of_its_grade() {
        AlarmChange back =
                new AlarmChange(
                        "jet-1.ratio.20260105T060101Z-1",
                        3,
                        AlarmEvent.UNSHELVED,
                        AlarmState.SHELVED,
                        AlarmState.UNACKNOWLEDGED,
                        Changes.RAISED,
                        Changes.RAISED,
                        Changes.weakBoost(Grade.CRITICAL, ""),
                        "");

        route().deliver(Changes.said(new Wording(Changes.site(PressureUnit.PSI)), back));

        assertThat(log.list).extracting(ILoggingEvent::getLevel).containsExactly(Level.ERROR);
    }

    private static Message message(AlarmEvent event, Grade grade) {
        return Changes.said(
                new Wording(Changes.site(PressureUnit.PSI)),
                Changes.change(
                        1, event, AlarmState.UNACKNOWLEDGED, Changes.weakBoost(grade, ""), ""));
    }
}
