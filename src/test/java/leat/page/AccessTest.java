package leat.page;

import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.lang.syntax.ArchRuleDefinition;
import java.io.IOException;
import java.net.InetAddress;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.time.Duration;
import java.util.Arrays;
import java.util.concurrent.atomic.AtomicLong;
import javax.net.SocketFactory;
import leat.Gear;
import leat.config.Secret;
import leat.tls.Certificates;
import leat.tls.Identity;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Where a token is asked for, nothing is shown without it. */
class AccessTest {

    private static final long NOW = 1_800_000_000L;
    private static final String FORM = "Content-Type: application/x-www-form-urlencoded";

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
    void a_program_shows_the_token_with_each_request() throws IOException {
        try (Yard.Opened yard = boatyard.asking()) {
            String token = Yard.TOKEN;
            assertThat(status(yard, "Authorization: Bearer " + token)).isEqualTo(200);
            assertThat(status(yard, "Authorization: bearer " + token)).isEqualTo(200);
            assertThat(status(yard, "Authorization: Bearer " + token + "x")).isEqualTo(401);
            assertThat(status(yard, "Authorization: Bearer " + token.substring(1))).isEqualTo(401);
            assertThat(status(yard, "Authorization: Basic " + token)).isEqualTo(401);
            assertThat(status(yard, "Authorization: Bearer ")).isEqualTo(401);
            assertThat(status(yard, "Cookie: leat=" + token)).isEqualTo(401);
        }
    }

    private static int status(Yard.Opened yard, String header) throws IOException {
        return yard.plain().get("/health", header).status();
    }

    @Test
    void a_person_types_it_once_and_the_browser_gets_a_pass() throws IOException {
        try (Yard.Opened yard = boatyard.asking()) {
            Call form = yard.plain().get("/");
            assertThat(form.status()).isEqualTo(401);
            assertThat(form.body())
                    .contains("action=\"/sign-in\"", "type=\"password\"", "no safety device")
                    .doesNotContain("jet-1");

            Call wrong = yard.plain().post("/sign-in", "token=wrong", FORM);
            assertThat(wrong.status()).isEqualTo(401);
            assertThat(wrong.header("set-cookie")).isEmpty();

            Call right = yard.plain().post("/sign-in", "token=" + Yard.TOKEN, FORM);
            String cookie = right.header("set-cookie").orElseThrow();
            assertThat(right.status()).isEqualTo(303);
            assertThat(right.header("location")).contains("/");
            assertThat(cookie)
                    .matches("leat=[0-9]+\\.[0-9a-f]{64}; Path=/; HttpOnly; SameSite=Strict")
                    .doesNotContain(Yard.TOKEN);
            String pass = "Cookie: other=1; " + cookie.substring(0, cookie.indexOf(';'));
            assertThat(yard.plain().get("/", pass).body()).contains("jet-1");
            assertThat(yard.plain().get("/", pass + "0").status()).isEqualTo(401);
        }
    }

    @Tag(Gear.THOROUGH)
    @Test
    void over_tls_the_pass_is_for_tls_alone() throws Exception {
        Certificates made = new Certificates(folder.resolve("tls"));
        Certificates.Server server = made.good();
        Identity identity = Identity.ofPem(server.certificate(), server.key());
        try (Yard.Opened yard = boatyard.asking(identity)) {
            SocketFactory trusting = made.trust().context().getSocketFactory();

            Call.To secure = new Call.To(yard.port(), trusting);

            assertThat(secure.get("/health").status()).isEqualTo(401);
            assertThat(
                            secure.post("/sign-in", "token=" + Yard.TOKEN, FORM)
                                    .header("set-cookie")
                                    .orElseThrow())
                    .startsWith("__Host-leat=")
                    .endsWith("; Path=/; HttpOnly; SameSite=Strict; Secure");
            assertThat(secure.get("/", "Authorization: Bearer " + Yard.TOKEN).body())
                    .contains("jet-1");
        }
    }

    @Test
    void a_form_that_is_no_form_of_ours_is_refused() throws IOException {
        try (Yard.Opened yard = boatyard.asking()) {
            assertThat(yard.plain().post("/sign-in", "token=%zz").status()).isEqualTo(401);
            assertThat(yard.plain().post("/sign-in", "x=" + Yard.TOKEN).status()).isEqualTo(401);
            assertThat(yard.plain().post("/sign-in", "token=" + "x".repeat(3_000)).status())
                    .isEqualTo(413);
        }
    }

    @Test
    void who_guesses_is_told_to_wait_and_what_is_shown_then_is_not_looked_at() throws IOException {
        try (Yard.Opened yard = boatyard.asking()) {
            for (int i = 0; i < 10; i++) {
                assertThat(status(yard, "Authorization: Bearer guess" + i)).isEqualTo(401);
            }

            Call eleventh = yard.plain().get("/", "Authorization: Bearer " + Yard.TOKEN);

            assertThat(eleventh.status()).isEqualTo(429);
            assertThat(eleventh.header("retry-after")).contains("6");
        }
    }

    @Test
    void who_guessed_may_try_once_in_six_seconds_and_others_are_not_kept_out() throws IOException {
        AtomicLong nanos = new AtomicLong();
        WrongTokens wrong = new WrongTokens(nanos::get);
        InetAddress one = InetAddress.getByName("192.0.2.1");
        for (int i = 0; i < 10; i++) {
            assertThat(wrong.mayTry(one)).isTrue();
            wrong.wrong(one);
        }
        assertThat(wrong.mayTry(one)).isFalse();
        assertThat(wrong.mayTry(InetAddress.getByName("192.0.2.2"))).isTrue();

        nanos.addAndGet(Duration.ofSeconds(6).toNanos());

        assertThat(wrong.mayTry(one)).isTrue();
        wrong.wrong(one);
        assertThat(wrong.mayTry(one)).isFalse();
    }

    @Test
    void a_network_of_ipv6_counts_as_one_address() throws IOException {
        WrongTokens wrong = new WrongTokens(() -> 0L);
        for (int i = 1; i <= 10; i++) {
            wrong.wrong(InetAddress.getByName("2001:db8::" + i));
        }

        assertThat(wrong.mayTry(InetAddress.getByName("2001:db8::99"))).isFalse();
        assertThat(wrong.mayTry(InetAddress.getByName("2001:db8:0:1::99"))).isTrue();
    }

    @Test
    void a_pass_ends_and_is_of_its_token_alone() {
        Token token = new Token(new Secret(Yard.TOKEN));
        String pass = token.pass(NOW);
        long end = NOW + Token.PASS_HOLDS.toSeconds();

        assertThat(token.holds(pass, NOW)).isTrue();
        assertThat(token.holds(pass, end - 1)).isTrue();
        assertThat(token.holds(pass, end)).isFalse();
        assertThat(new Token(new Secret(Yard.TOKEN + "x")).holds(pass, NOW)).isFalse();
        assertThat(token.holds((end + 1) + pass.substring(pass.indexOf('.')), NOW)).isFalse();
        assertThat(token.holds("", NOW)).isFalse();
        assertThat(token.holds("99999999999999999999.0", NOW)).isFalse();
    }

    /** Time tells nothing where hashes are compared by what takes as long for each. */
    @Test
    void what_is_secret_is_compared_by_the_jdk_in_constant_time() {
        JavaClasses token = new ClassFileImporter().importClasses(Token.class);

        ArchRuleDefinition.theClass(Token.class)
                .should()
                .callMethod(MessageDigest.class, "isEqual", byte[].class, byte[].class)
                .check(token);
        ArchRuleDefinition.noClasses()
                .should()
                .callMethod(String.class, "equals", Object.class)
                .orShould()
                .callMethod(String.class, "compareTo", String.class)
                .orShould()
                .callMethod(Arrays.class, "equals", byte[].class, byte[].class)
                .check(token);
    }
}
