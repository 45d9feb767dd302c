package leat.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.Base64;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Whatever is asked and however it is answered: what a browser may do with it is said. */
class HeadersTest {

    private static final String BEARER = "Authorization: Bearer " + Yard.TOKEN;

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

    /** Every path with every kind of status that our own answers have. */
    private record Case(int status, String method, String path, List<String> headers) {}

    private static final List<Case> CASES =
            List.of(
                    new Case(200, "GET", "/", List.of(BEARER)),
                    new Case(200, "HEAD", "/", List.of(BEARER)),
                    new Case(200, "GET", "/health", List.of(BEARER)),
                    new Case(200, "HEAD", "/health", List.of(BEARER)),
                    new Case(200, "GET", "/metrics", List.of(BEARER)),
                    new Case(200, "HEAD", "/metrics", List.of(BEARER)),
                    new Case(200, "HEAD", "/events", List.of(BEARER)),
                    new Case(200, "GET", "/start/jet-1/1", List.of(BEARER)),
                    new Case(200, "HEAD", "/start/jet-1/1", List.of(BEARER)),
                    new Case(200, "GET", "/sign-in", List.of()),
                    new Case(404, "GET", "/start/jet-1/99", List.of(BEARER)),
                    new Case(404, "GET", "/start/../1", List.of(BEARER)),
                    new Case(404, "GET", "/favicon.ico", List.of(BEARER)),
                    new Case(404, "HEAD", "/nothing", List.of(BEARER)),
                    new Case(401, "GET", "/", List.of()),
                    new Case(401, "HEAD", "/", List.of()),
                    new Case(401, "GET", "/health", List.of()),
                    new Case(401, "GET", "/metrics", List.of()),
                    new Case(401, "GET", "/events", List.of()),
                    new Case(401, "GET", "/start/jet-1/1", List.of()),
                    new Case(401, "GET", "/nothing", List.of()),
                    new Case(401, "GET", "/", List.of("Authorization: Bearer wrong")),
                    new Case(405, "POST", "/", List.of(BEARER)),
                    new Case(405, "PUT", "/health", List.of(BEARER)),
                    new Case(405, "DELETE", "/start/jet-1/1", List.of(BEARER)),
                    new Case(405, "OPTIONS", "/metrics", List.of(BEARER)),
                    new Case(405, "TRACE", "/events", List.of(BEARER)),
                    new Case(405, "PUT", "/sign-in", List.of()),
                    new Case(421, "GET", "/", List.of(BEARER, "Host: yard.example.org")));

    @Test
    void each_answer_says_what_a_browser_may_do_with_it() throws IOException {
        try (Yard.Opened yard = boatyard.asking()) {
            for (Case each : CASES) {
                Call call =
                        yard.plain()
                                .ask(
                                        each.method(),
                                        each.path(),
                                        "",
                                        each.headers().toArray(String[]::new));

                assertThat(call.status()).as("%s", each).isEqualTo(each.status());
                isGuarded(call, each.toString());
                if (each.method().equals("HEAD")) {
                    assertThat(call.body()).as("%s", each).isEmpty();
                }
            }
        }
    }

    private static void isGuarded(Call call, String what) {
        assertThat(call.headers())
                .as(what)
                .contains(
                        "x-content-type-options: nosniff",
                        "x-frame-options: DENY",
                        "referrer-policy: no-referrer",
                        "cross-origin-opener-policy: same-origin",
                        "cross-origin-resource-policy: same-origin",
                        "cache-control: no-store",
                        "connection: close")
                .noneMatch(line -> line.startsWith("server:"));
        assertThat(call.header("content-security-policy").orElse(""))
                .as(what)
                .startsWith("default-src 'none'; base-uri 'none'; frame-ancestors 'none'; ")
                .contains("form-action '")
                .doesNotContain("unsafe", "*", "http");
        assertThat(call.header("content-type")).as(what).isPresent();
    }

    @Test
    void what_may_be_read_is_said_to_who_tries_more() throws IOException {
        try (Yard.Opened yard = boatyard.asking()) {
            assertThat(yard.plain().post("/", "x").header("allow")).contains("GET, HEAD");
            assertThat(yard.plain().get("/").header("www-authenticate"))
                    .contains("Bearer realm=\"leat\"");
        }
    }

    /**
     * A page whose own style or script a browser would refuse looks broken; no style stands alone.
     */
    @Test
    void the_policy_lets_through_exactly_what_the_pages_hold() throws Exception {
        try (Yard.Opened yard = boatyard.open()) {
            for (String path : List.of("/", "/start/jet-1/1")) {
                Call call = yard.plain().get(path);
                String policy = call.header("content-security-policy").orElseThrow();

                for (String tag : List.of("style", "script")) {
                    Matcher inside =
                            Pattern.compile("<" + tag + ">(.*?)</" + tag + ">", Pattern.DOTALL)
                                    .matcher(call.body());
                    while (inside.find()) {
                        assertThat(policy)
                                .as(path)
                                .contains(tag + "-src 'sha256-" + hash(inside.group(1)) + "'");
                    }
                }
                assertThat(call.body())
                        .as(path)
                        .doesNotContain(" style=", "javascript:", " src=", "url(", "@import")
                        .doesNotContainPattern("\\son[a-z]+=");
            }
        }
    }

    private static String hash(String text) throws Exception {
        return Base64.getEncoder()
                .encodeToString(
                        MessageDigest.getInstance("SHA-256").digest(text.getBytes("UTF-8")));
    }

    @Test
    void a_name_that_is_not_this_computers_is_not_answered_to() throws IOException {
        try (Yard.Opened yard = boatyard.open()) {
            for (String host : List.of("127.0.0.1", "localhost:8080", "LOCALHOST", "[::1]:80")) {
                assertThat(yard.plain().get("/health", "Host: " + host).status())
                        .as(host)
                        .isEqualTo(200);
            }
            for (String host :
                    List.of("yard.example.org", "127.0.0.1.example.org", "localhost.evil", "")) {
                assertThat(yard.plain().get("/health", "Host: " + host).status())
                        .as(host)
                        .isEqualTo(421);
            }
            assertThat(yard.plain().get("/health", "Host: localhost", "Host: localhost").status())
                    .isEqualTo(421);
        }
    }

    @Test
    void a_head_that_is_too_large_or_no_request_is_not_answered_with_the_page() throws IOException {
        try (Yard.Opened yard = boatyard.open()) {
            assertThat(yard.plain().get("/health", "X: " + "x".repeat(12_000)).status())
                    .isEqualTo(200);
            for (String request :
                    List.of(
                            "GET /" + "x".repeat(40_000) + " HTTP/1.1\r\nHost: localhost\r\n\r\n",
                            "GET / HTTP/1.1\r\nHost: localhost\r\nX: "
                                    + "x".repeat(40_000)
                                    + "\r\n\r\n",
                            "GET / HTTP/1.1\r\nHost: localhost\r\n"
                                    + "X: y\r\n".repeat(900)
                                    + "\r\n",
                            "nonsense\r\n\r\n",
                            "GET mailto:x HTTP/1.1\r\nHost: localhost\r\n\r\n")) {
                assertThat(isServed(yard, request)).as(request.substring(0, 12)).isFalse();
            }
            assertThat(yard.plain().get("/health").status()).isEqualTo(200);
        }
    }

    private static boolean isServed(Yard.Opened yard, String request) {
        try {
            return yard.plain().raw(request).status() == 200;
        } catch (IOException e) {
            return false; // closed while it was sent
        }
    }
}
