package leat.config;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

/** Where leat says whether it is there. */
class StatusTopicTest {

    private static final String WRITTEN = "      status_topic: leat/boatyard/status\n";

    @Test
    void connection_of_a_route_has_one_below_the_prefix_of_its_first_route() {
        String text =
                GoodSite.TEXT
                        .replace(WRITTEN, "")
                        .replace(
                                "tell:\n",
                                """
                                tell:
                                  first: { by: { mqtt: { connection: broker, topic_prefix: hall/leat } } }
                                """);

        assertThat(statusTopic(text)).contains("hall/leat/status");
    }

    @Test
    void topic_that_is_written_counts() {
        assertThat(statusTopic(GoodSite.TEXT.replace("boatyard/status", "there")))
                .contains("leat/there");
    }

    @Test
    void connection_that_only_brings_readings_says_nothing() {
        String text = GoodSite.TEXT.replace(WRITTEN, "").replaceAll("(?m)^ *yard: .*$", "");

        assertThat(statusTopic(text)).isEmpty();
    }

    @Test
    void topic_that_nobody_wrote_must_be_free_too() {
        String text =
                GoodSite.TEXT
                        .replace(WRITTEN, "")
                        .replace("yard/jet-1/boosted", "leat/boatyard/status");

        List<Problem> problems = SiteFile.archived(text).problems();

        assertThat(problems).hasSize(1);
        assertThat(problems.get(0).toString())
                .contains(
                        "machines.jet-1.channels.boosted",
                        "reads leat's own status topic \"leat/boatyard/status\"",
                        "another status_topic");
    }

    @Test
    void two_connections_to_one_broker_do_not_share_one() {
        String text =
                GoodSite.TEXT
                        .replace(WRITTEN, "")
                        .replace(
                                "  broker:\n",
                                """
                                  second:
                                    mqtt: { url: tcp://127.0.0.1:1883, client_id: leat-second }
                                  broker:
                                """)
                        .replace(
                                "tell:\n",
                                """
                                tell:
                                  hall: { by: { mqtt: { connection: second, topic_prefix: leat/boatyard } } }
                                """);

        List<Problem> problems = SiteFile.archived(text).problems();

        assertThat(problems).hasSize(1);
        assertThat(problems.get(0).toString())
                .contains(
                        "connections.broker.mqtt",
                        "\"leat/boatyard/status\" is the status topic of second too",
                        "each connection its own status_topic");
    }

    private static Optional<String> statusTopic(String text) {
        LoadedSite loaded = SiteFile.archived(text);
        assertThat(loaded.problems()).isEmpty();
        return loaded.site().orElseThrow().connections().stream()
                .filter(ConnectionSettings.Mqtt.class::isInstance)
                .map(ConnectionSettings.Mqtt.class::cast)
                .findFirst()
                .orElseThrow()
                .statusTopic();
    }
}
