package leat.page;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import leat.report.Html;
import leat.words.Language;
import leat.words.Phrases;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What the page shows of a boatyard at which the demo plays. */
class BoardTest {

    @TempDir static Path folder;

    private static Yard boatyard;

    @BeforeAll
    static void play() throws IOException {
        boatyard = Yard.in(folder);
    }

    @AfterAll
    static void end() {
        boatyard.close();
    }

    @Test
    void it_is_right_as_it_is_loaded_without_any_script() throws IOException {
        try (Yard.Opened yard = boatyard.open()) {
            String page = yard.plain().get("/").body();

            assertThat(card(page, "m1"))
                    .contains("<h2 id=\"m1\">jet-1</h2>", "at rest", "<dt>inlet</dt>", " psi</b>")
                    .contains("ADVISORY", "pressure at rest", "Check first: ")
                    .contains("href=\"/start/jet-1/1\"", "class=\"boosted\" points=\"");
            assertThat(card(page, "m2")).contains("WARNING", "weak boost", "Cause: ");
            assertThat(page)
                    .contains("As it was at 2026-01-05 06:01:20 +00:00", "the worst WARNING")
                    .contains("Source cabinet-1 connected", "Route log in order")
                    .contains("Read only, no safety device.")
                    .contains(Html.escaped(Phrases.in(Language.ENGLISH).say("advice.caution")));
        }
    }

    @Test
    void cabinet_that_is_away_is_one_card_that_names_what_is_blind(@TempDir Path folder)
            throws IOException {
        try (Yard away = Yard.in(folder).withoutCabinet();
                Yard.Opened yard = away.open();
                Yard.Opened german = away.german()) {
            String page = yard.plain().get("/").body();
            Files.writeString(Path.of("target/page-outage.html"), page);
            Files.writeString(
                    Path.of("target/page-outage-de.html"), german.plain().get("/").body());

            assertThat(page)
                    .containsOnlyOnce("jet-1 inlet, boosted; jet-2 inlet, boosted")
                    .contains("nothing comes from cabinet-1", "4 alarms stand, the worst WARNING");
            assertThat(card(page, "m1"))
                    .containsOnlyOnce("leat is blind: inlet, boosted. See above, alarm ");
        }
    }

    @Test
    void what_two_alarms_ask_for_is_asked_for_once() throws IOException {
        try (Yard.Opened yard = boatyard.open()) {
            assertThat(card(yard.plain().get("/").body(), "m2"))
                    .contains("weak boost", "boosted pressure low")
                    .containsOnlyOnce("Check first: ");
        }
    }

    private static String card(String page, String id) {
        int begin = page.indexOf("aria-labelledby=\"" + id + "\"");
        return page.substring(begin, page.indexOf("</section>", begin));
    }

    @Test
    void it_speaks_the_language_and_the_unit_of_the_site() throws IOException {
        try (Yard.Opened yard = boatyard.german()) {
            String page = yard.plain().get("/").body();

            assertThat(page)
                    .contains("<html lang=\"de\">", "Bootswerft", "in Ruhe", " bar</b>", "HINWEIS")
                    .contains("Zuerst prüfen: ", "Nur Anzeige, keine Sicherheitseinrichtung.")
                    .doesNotContain(" psi</b>", "Check first", "at rest");
        }
    }

    @Test
    void what_comes_each_second_has_a_place_on_the_page() throws IOException {
        try (Yard.Opened yard = boatyard.open();
                Socket socket = yard.plain().open()) {
            String page = yard.plain().get("/").body();
            socket.getOutputStream()
                    .write(
                            "GET /events HTTP/1.0\r\nHost: localhost\r\n\r\n"
                                    .getBytes(StandardCharsets.US_ASCII));
            BufferedReader stream =
                    new BufferedReader(
                            new InputStreamReader(socket.getInputStream(), StandardCharsets.UTF_8));
            String line = stream.readLine();
            while (!line.startsWith("data: ")) {
                line = stream.readLine();
            }
            JsonNode parts = new ObjectMapper().readTree(line.substring(6)).path("parts");

            assertThat(parts.size()).isEqualTo(13);
            parts.fieldNames()
                    .forEachRemaining(
                            id ->
                                    assertThat(page)
                                            .contains("id=\"" + id + "\"")
                                            .contains(parts.path(id).textValue()));
        }
    }

    @Test
    void whoever_listens_finds_a_bounded_number_of_places() throws IOException {
        try (Yard.Opened yard = boatyard.open()) {
            Socket[] listening = new Socket[Streams.MOST];
            try {
                for (int i = 0; i < listening.length; i++) {
                    listening[i] = yard.plain().open();
                    listening[i]
                            .getOutputStream()
                            .write(
                                    "GET /events HTTP/1.1\r\nHost: localhost\r\n\r\n"
                                            .getBytes(StandardCharsets.US_ASCII));
                    listening[i].getInputStream().read(); // it is being served
                }

                Call oneMore = yard.plain().get("/events");

                assertThat(oneMore.status()).isEqualTo(503);
                assertThat(oneMore.header("retry-after")).isPresent();
                assertThat(yard.plain().get("/").status()).isEqualTo(200);
            } finally {
                for (Socket socket : listening) {
                    if (socket != null) {
                        socket.close();
                    }
                }
            }
        }
    }

    @Test
    void what_cannot_be_read_is_never_shown_as_if_all_were_well() throws IOException {
        try (Yard.Opened yard = boatyard.unread()) {
            String page = yard.plain().get("/").body();
            JsonNode health = new ObjectMapper().readTree(yard.plain().get("/health").body());

            assertThat(card(page, "m1")).contains("jet-1", "nobody knows how they are");
            assertThat(page)
                    .contains("Database in trouble", "there is no store")
                    .doesNotContain("No alarm stands", " psi</b>");
            assertThat(health.path("status").textValue()).isEqualTo("degraded");
            assertThat(health.path("troubles").toString()).contains("store");
        }
    }

    @Test
    void a_program_reads_how_leat_is() throws IOException {
        try (Yard.Opened yard = boatyard.open()) {
            Call call = yard.plain().get("/health");
            JsonNode health = new ObjectMapper().readTree(call.body());

            assertThat(call.header("content-type")).contains("application/json");
            assertThat(health.path("schema").textValue()).isEqualTo("leat.page-health/1");
            assertThat(health.path("status").textValue()).isEqualTo("ok");
            assertThat(health.path("at").textValue()).isEqualTo("2026-01-05T06:01:20Z");
            assertThat(health.path("machines").findValuesAsText("machine"))
                    .containsExactly("jet-1", "jet-2");
            assertThat(health.path("machines").get(0).path("phase").textValue()).isEqualTo("rest");
            assertThat(health.path("sources").get(0).path("readings").longValue()).isEqualTo(900);
            assertThat(health.path("routes").get(0).path("ok").booleanValue()).isTrue();
            assertThat(health.path("store").path("ok").booleanValue()).isTrue();
        }
    }
}
