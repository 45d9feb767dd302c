package leat.page;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.stream.Stream;
import leat.Gear;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** The page in a browser that we did not write, looked over by a checker of accessibility. */
class BrowserTest {

    private static final String AXE = "META-INF/resources/webjars/axe-core/4.6.3/axe.min.js";

    /** What is wrong, each in a line; empty when nothing is. */
    private static final String LOOK_OVER =
            "axe.run().then(found => found.violations.map(v => v.impact + ' ' + v.id + ': '"
                    + " + v.nodes.map(n => n.html).join(' | ')).join('\\n'))";

    private static final String WIDER_THAN_ITS_WINDOW =
            "document.documentElement.scrollWidth > document.documentElement.clientWidth";

    @TempDir static Path folder;

    private static Chromium browser;
    private static Yard boatyard;

    @BeforeAll
    static void start() throws Exception {
        browser = Chromium.start(folder.resolve("profile"));
        boatyard = Yard.in(folder);
    }

    @AfterAll
    static void end() {
        if (browser != null) {
            browser.close();
        }
        if (boatyard != null) {
            boatyard.close();
        }
    }

    static Stream<Arguments> windows() {
        return Stream.of(
                        Arguments.of("en", 1200, "light"),
                        Arguments.of("de", 390, "dark"),
                        Arguments.of("en", 390, "light"),
                        Arguments.of("en", 390, "dark"),
                        Arguments.of("en", 1200, "dark"),
                        Arguments.of("de", 390, "light"),
                        Arguments.of("de", 1200, "light"),
                        Arguments.of("de", 1200, "dark"))
                .limit(Gear.of(2, 8));
    }

    @ParameterizedTest
    @MethodSource("windows")
    void everybody_can_read_it_and_nothing_is_refused(String language, int width, String scheme)
            throws Exception {
        try (Yard.Opened yard = language.equals("de") ? boatyard.german() : boatyard.open()) {
            String url = "http://127.0.0.1:" + yard.port() + "/";
            for (String path : List.of("", "start/jet-1/1")) {
                browser.open(url + path, width, scheme);
                assertThat(browser.complaints()).as("console of /" + path).isEmpty();
                browser.run(axe());

                assertThat(browser.run(LOOK_OVER).textValue()).as(path).isEmpty();
                assertThat(browser.run(WIDER_THAN_ITS_WINDOW).booleanValue()).as(path).isFalse();
            }
        }
    }

    @Test
    void who_is_asked_for_the_token_comes_to_the_page_by_keyboard() throws Exception {
        try (Yard.Opened yard = boatyard.asking()) {
            browser.open("http://127.0.0.1:" + yard.port() + "/", 390, "light");
            browser.run(axe());
            assertThat(browser.run(LOOK_OVER).textValue()).isEmpty();

            browser.run(
                    "document.getElementById('token').value = '"
                            + Yard.TOKEN
                            + "'; document.forms[0].requestSubmit()");

            await().atMost(Duration.ofSeconds(10))
                    .ignoreExceptions()
                    .until(() -> browser.run("document.body.innerText").asText().contains("jet-1"));
        }
    }

    @Tag(Gear.THOROUGH)
    @Test
    void old_figures_are_said_to_be_old() throws Exception {
        try (Yard.Opened yard = boatyard.open()) {
            browser.open("http://127.0.0.1:" + yard.port() + "/", 1200, "light");
            assertThat(browser.run("document.getElementById('stale').hidden").booleanValue())
                    .isTrue();
        }

        await().atMost(Duration.ofSeconds(20))
                .until(
                        () ->
                                !browser.run("document.getElementById('stale').hidden")
                                        .booleanValue());
    }

    private static String axe() throws IOException {
        try (InputStream script = BrowserTest.class.getClassLoader().getResourceAsStream(AXE)) {
            return new String(script.readAllBytes(), StandardCharsets.UTF_8) + "; true";
        }
    }
}
