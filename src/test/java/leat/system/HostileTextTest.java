package leat.system;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.icegreen.greenmail.util.GreenMail;
import com.icegreen.greenmail.util.ServerSetup;
import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import jakarta.mail.Address;
import jakarta.mail.Header;
import jakarta.mail.MessagingException;
import jakarta.mail.Session;
import jakarta.mail.internet.MimeMessage;
import jakarta.mail.internet.MimeMultipart;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.StringReader;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Properties;
import java.util.UUID;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import javax.xml.parsers.DocumentBuilderFactory;
import leat.Gear;
import leat.HostileText;
import leat.instruct.Requests;
import leat.instruct.Signed;
import leat.interop.Mosquitto;
import leat.interop.Passwords;
import leat.signal.Order;
import leat.store.InstructionBox;
import leat.store.StoreReader;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.w3c.dom.Document;
import org.w3c.dom.NamedNodeMap;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;

/**
 * The program as it runs in the field, on hostile words from its configuration, a device, signed
 * messages and the box of the store; every route has its real other side, which reads what came.
 */
@Timeout(240)
class HostileTextTest {

    private static final Duration SOON = Duration.ofSeconds(30);
    private static final String[] LOGIN = {"-u", "leat", "-P", "invented"};
    private static final ObjectMapper MAPPER = new ObjectMapper();

    /** As far as a site, and a topic, may be called. */
    private static final String SITE =
            "\"'`$(x)<script>alert(1)</script> \u202egnorw\u202c,=1;@x {} %n";

    private static final String TOPIC = "yard/\"'<script>alert(1)</script> \u202egnorw,=1;@x {} %n";

    private static final String BY = "Kim\r\nBcc: x@example.org\u001b[2J\u202e\u0000 \"<script>=1";

    /** Everything but half characters, which are refused. */
    private static final String WHY =
            HostileText.EACH.stream()
                    .filter(text -> !text.startsWith("half"))
                    .collect(Collectors.joining(" "));

    /** By day leat.cli.HostileTextTest has them, without a process for each. */
    private static final List<String> COMMANDS_BY_NIGHT =
            List.of(
                    "alarms",
                    "alarms --history 1 --json",
                    "alarms --health --since 1d",
                    "journal",
                    "journal --json",
                    "startups",
                    "startups --json",
                    "baseline",
                    "check site.yaml",
                    "replay --machine jet-1 --since 1h --json");

    @TempDir Path folder;

    private final List<String> posted = new CopyOnWriteArrayList<>();
    private final GreenMail mails =
            new GreenMail(new ServerSetup(0, "127.0.0.1", ServerSetup.PROTOCOL_SMTP));
    private HttpServer web;
    private Mosquitto broker;
    private Mosquitto.Heard heard;
    private Mosquitto.Heard replies;
    private LeatProcess leat;

    @BeforeEach
    void start_everything() throws Exception {
        mails.start();
        web = HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
        web.createContext("/leat", this::take);
        web.start();
        startBroker();
        heard = broker.listen("leat/yard/#", LOGIN);
        replies = broker.listen(Signed.TOPIC + "/reply", LOGIN);
        secret("password", "invented");
        secret("hook", "an invented secret of 32 letters");
        secret("anna", Signed.ANNA);
        script();
        Files.writeString(folder.resolve("site.yaml"), site());
        leat = LeatProcess.watching(folder);
        await().atMost(SOON).until(() -> leat.log().contains(" topics subscribed"));
    }

    @AfterEach
    void end_everything() {
        leat.close();
        broker.close();
        web.stop(0);
        mails.stop();
    }

    private void startBroker() throws Exception {
        Path passwords = Passwords.of(folder.resolve("passwords"), "leat");
        broker = new Mosquitto(folder, "allow_anonymous false", "password_file " + passwords);
        broker.start();
    }

    private void secret(String name, String text) throws IOException {
        Path file = Files.writeString(folder.resolve(name), text);
        file.toFile().setReadable(false, false);
        file.toFile().setReadable(true, true);
    }

    private void script() throws IOException {
        Path script = folder.resolve("siren");
        Files.writeString(
                script,
                "#!/bin/sh\ncat > "
                        + folder
                        + "/said.$$ && env -0 > "
                        + folder
                        + "/part.$$ && mv "
                        + folder
                        + "/part.$$ "
                        + folder
                        + "/environment.$$\n");
        assertThat(script.toFile().setExecutable(true)).isTrue();
    }

    private void take(HttpExchange exchange) throws IOException {
        posted.add(new String(exchange.getRequestBody().readAllBytes(), UTF_8));
        exchange.sendResponseHeaders(204, -1);
        exchange.close();
    }

    private String site() {
        return """
        site: { name: "%s" }
        connections:
          broker:
            mqtt: { url: "%s", client_id: leat-test, user: leat, password: { file: password } }
        limits:
          signal: { missing: 1 s }
        machines:
          jet-1:
            channels:
              inlet: { from: broker, topic: { name: "%s", silent_after: 1 s }, unit: psi }
              boosted: { from: broker, topic: { name: yard/boosted, silent_after: 1 s }, unit: psi }
        tell:
          log: { by: { log: { } } }
          yard: { by: { mqtt: { connection: broker, topic_prefix: leat/yard } } }
          hall:
            by: { mail:
              { host: 127.0.0.1, port: %d, security: plain, from: leat@example.org, to: [ shift@example.org ] } }
          office: { by: { webhook: { url: "http://127.0.0.1:%d/leat", secret: { file: hook } } } }
          siren: { by: { command: { run: [ "%s" ] } } }
        instructions:
          connection: broker
          topic: %s
          people:
            anna: { token: { file: anna } }
        """
                .formatted(
                        escaped(SITE),
                        broker.url(),
                        escaped(TOPIC),
                        mails.getSmtp().getPort(),
                        web.getAddress().getPort(),
                        folder.resolve("siren"),
                        Signed.TOPIC);
    }

    private static String escaped(String text) {
        return text.chars()
                .mapToObj(c -> String.format(Locale.ROOT, "\\u%04x", c))
                .collect(Collectors.joining());
    }

    @Tag(Gear.THOROUGH)
    @Test
    void hostile_words_from_everywhere_come_out_harmless_on_every_way() throws Exception {
        Path garbage = Files.writeString(folder.resolve("garbage"), WHY + "\u001b[2J\r\n");
        broker.publishFile("yard/boosted", garbage, LOGIN);
        await().atMost(SOON).until(() -> standing() == 2);
        await().atMost(SOON).until(() -> posted.size() == 1); // both hang on the broker

        order("\"do\":\"journal\",\"machine\":\"jet-1\",\"text\":" + json(WHY));
        order("\"do\":\"shelve\",\"alarm\":\"1\",\"for\":\"1h\",\"why\":" + json(WHY));
        order("\"do\":\"out-of-service\",\"alarm\":\"2\",\"turn\":\"on\",\"why\":" + json(WHY));
        order("\"do\":\"service\",\"machine\":\"jet-1\",\"turn\":\"on\",\"text\":" + json(WHY));
        order("\"do\":\"unshelve\",\"alarm\":\"1\"");
        order("\"do\":" + json(WHY));
        acknowledgeAsKim();

        await().atMost(SOON).until(() -> posted.stream().anyMatch(j -> j.contains("Kim")));
        await().atMost(SOON).until(() -> mails.getReceivedMessages().length == posted.size());
        await().atMost(SOON).until(() -> said("environment").size() == posted.size());
        // two channels were one call, and the one unshelved was acknowledged before it called
        await().atMost(SOON)
                .until(() -> heard.lines("leat/yard/event").size() == posted.size() + 2);
        assertThat(posted).hasSizeGreaterThanOrEqualTo(4);
        for (String json : posted) {
            assertMessageIsHarmless(json);
        }
        for (MimeMessage mail : mails.getReceivedMessages()) {
            assertMailIsHarmless(mail);
        }
        for (Path file : said("environment")) {
            assertEnvironmentIsHarmless(Files.readString(file));
        }
        for (Path file : said("said")) {
            assertMessageIsHarmless(Files.readString(file));
        }
        assertHeardIsHarmless();
        assertLogIsHarmless();
        assertCommandsAreHarmless();
        assertNothingIsLost();
    }

    private long standing() {
        try (StoreReader reader = StoreReader.open(folder.resolve("data/leat.db"))) {
            return reader.standingAlarms().size();
        }
    }

    /** Signed by Anna; waits until it has been answered. */
    private void order(String what) throws Exception {
        String words =
                Signed.words(Instant.now().getEpochSecond(), UUID.randomUUID().toString(), what);
        int before = replies.lines().size();
        Path file =
                Files.write(folder.resolve("message"), Signed.message("anna", Signed.ANNA, words));
        broker.publishFile(Signed.TOPIC, file, LOGIN);
        await().atMost(SOON).until(() -> replies.lines().size() == before + 1);
    }

    private static String json(String text) throws IOException {
        return MAPPER.writeValueAsString(text);
    }

    /** By the box of the store, as the command line does. */
    private void acknowledgeAsKim() throws Exception {
        try (InstructionBox box = InstructionBox.open(folder.resolve("data/leat.db"))) {
            long now = ChronoUnit.MICROS.between(Instant.EPOCH, Instant.now());
            Requests kim = new Requests(box, List.of(), BY, now);
            kim.service("jet-1", "off", "").leaveIn(box);
            kim.about("1", Order.Acknowledge::new).leaveIn(box);
        }
    }

    private List<Path> said(String prefix) throws IOException {
        try (Stream<Path> files = Files.list(folder)) {
            return files.filter(f -> f.getFileName().toString().startsWith(prefix + ".")).toList();
        }
    }

    private static void assertMessageIsHarmless(String json) throws IOException {
        JsonNode message = MAPPER.readTree(json);
        assertThat(message.path("schema").asText()).isEqualTo("leat.alarm/1");
        for (JsonNode value : message) {
            HostileText.assertHarmless(value.asText());
        }
        HostileText.assertHarmless(json);
    }

    private static void assertMailIsHarmless(MimeMessage received) throws Exception {
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        received.writeTo(bytes);
        MimeMessage mail =
                new MimeMessage(
                        Session.getInstance(new Properties()),
                        new ByteArrayInputStream(bytes.toByteArray()));
        assertThat(headers(mail))
                .isSubsetOf(
                        "Return-Path",
                        "Received",
                        "Date",
                        "From",
                        "To",
                        "Message-ID",
                        "In-Reply-To",
                        "References",
                        "Subject",
                        "MIME-Version",
                        "Content-Type",
                        "Auto-Submitted",
                        "Importance");
        assertThat(mail.getAllRecipients())
                .extracting(Address::toString)
                .containsExactly("shift@example.org");
        HostileText.assertHarmless(mail.getSubject());
        MimeMultipart parts = (MimeMultipart) mail.getContent();
        assertThat(parts.getCount()).isEqualTo(2);
        String plain = (String) parts.getBodyPart(0).getContent();
        String html = (String) parts.getBodyPart(1).getContent();
        HostileText.assertHarmless(plain.replace("\r\n", "\n"));
        assertHtmlSaysTheSame(html.replace("\r\n", "\n"), plain.replace("\r\n", "\n"));
    }

    private static List<String> headers(MimeMessage mail) throws MessagingException {
        List<String> names = new ArrayList<>();
        for (Header header : Collections.list(mail.getAllHeaders())) {
            names.add(header.getName());
        }
        assertThat(names).doesNotHaveDuplicates();
        return names;
    }

    /** The body is parsed: it has known elements and attributes, and each line of the mail. */
    private static void assertHtmlSaysTheSame(String html, String plain) throws Exception {
        HostileText.assertHarmless(html);
        String body = html.substring(html.indexOf("<body"), html.indexOf("</body>") + 7);
        Document parsed =
                DocumentBuilderFactory.newInstance()
                        .newDocumentBuilder()
                        .parse(new InputSource(new StringReader(body)));
        NodeList all = parsed.getElementsByTagName("*");
        for (int i = 0; i < all.getLength(); i++) {
            assertThat(all.item(i).getNodeName()).isIn("b", "body", "div", "p");
            NamedNodeMap attributes = all.item(i).getAttributes();
            for (int j = 0; j < attributes.getLength(); j++) {
                assertThat(attributes.item(j).getNodeName()).isIn("class", "style");
                assertThat(attributes.item(j).getNodeValue()).matches("[a-z0-9 #%.,/:;-]+");
            }
        }
        NodeList paragraphs = parsed.getElementsByTagName("p");
        List<String> said = new ArrayList<>();
        for (int i = 0; i < paragraphs.getLength(); i++) {
            said.add(paragraphs.item(i).getTextContent().strip());
        }
        assertThat(said)
                .as("with whole lines")
                .isEqualTo(
                        plain.replace("\n   ", " ")
                                .lines()
                                .filter(line -> !line.isBlank())
                                .map(String::strip)
                                .toList());
        String head = html.substring(0, html.indexOf("<body"));
        assertThat(head.replaceAll("<title>[^<>]*</title>\n<style>[^<>]*</style>", ""))
                .isEqualTo(
                        "<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">\n"
                                + "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
                                + "<meta name=\"color-scheme\" content=\"light dark\">\n</head>\n");
    }

    private static void assertEnvironmentIsHarmless(String environment) {
        Map<String, String> variables =
                Arrays.stream(environment.split("\0"))
                        .collect(
                                Collectors.toMap(
                                        v -> v.substring(0, v.indexOf('=')),
                                        v -> v.substring(v.indexOf('=') + 1)));
        assertThat(variables.keySet())
                .isSubsetOf(
                        "PATH",
                        "LANG",
                        "PWD",
                        "OLDPWD",
                        "SHLVL",
                        "_",
                        "LEAT_ID",
                        "LEAT_ALARM",
                        "LEAT_NUMBER",
                        "LEAT_MACHINE",
                        "LEAT_KIND",
                        "LEAT_EVENT",
                        "LEAT_GRADE",
                        "LEAT_CAUSE",
                        "LEAT_CAUSE_WEIGHT",
                        "LEAT_AT",
                        "LEAT_SHORT",
                        "LEAT_SUBJECT",
                        "LEAT_TEXT");
        assertThat(variables.get("LEAT_SUBJECT")).doesNotContain("\n");
        variables.values().forEach(HostileText::assertHarmless);
    }

    private void assertHeardIsHarmless() throws IOException {
        List<String> ours = new ArrayList<>(heard.lines());
        ours.addAll(replies.lines());
        assertThat(ours).hasSizeGreaterThan(10);
        for (String line : ours) {
            HostileText.assertHarmless(line);
            assertThat(MAPPER.readTree(line.substring(line.indexOf('{'))).isObject()).isTrue();
        }
        assertThat(ours).anyMatch(line -> line.contains("there is nothing to do called"));
    }

    private void assertLogIsHarmless() {
        String log = leat.log();
        HostileText.assertHarmless(log);
        assertThat(log).contains("it begins: ", "<script>alert(1)</script>", "\\u{1b}[2J");
        assertThat(log.lines().filter(line -> line.startsWith("2026-01-05 06:00:00Z"))).isEmpty();
        assertThat(log.lines().filter(line -> line.startsWith("Bcc:"))).isEmpty();
    }

    private void assertCommandsAreHarmless() throws Exception {
        Path export = folder.resolve("out.csv");
        List<String> commands =
                new ArrayList<>(
                        List.of(
                                "alarms --all --json",
                                "alarms --history 1",
                                "replay --machine jet-1 --since 1h",
                                "export --machine jet-1 --since 1h -o " + export,
                                "replay " + export));
        if (Gear.isThorough()) {
            commands.addAll(COMMANDS_BY_NIGHT);
        }
        for (String command : commands) {
            try (LeatProcess ran = LeatProcess.done(folder, command.split(" "))) {
                assertThat(ran.exitCode()).as(ran.log()).isZero();
                HostileText.assertHarmless(ran.log());
            }
        }
        HostileText.assertHarmless(Files.readString(export));
    }

    private void assertNothingIsLost() {
        try (StoreReader reader = StoreReader.open(folder.resolve("data/leat.db"))) {
            assertThat(reader.journal(java.util.Optional.empty(), 10))
                    .extracting(line -> line.entry().text())
                    .contains(WHY);
            assertThat(reader.alarmHistory(reader.alarm("1").orElseThrow().change().alarmId()))
                    .anyMatch(alarm -> alarm.change().notes().why().equals(WHY))
                    .anyMatch(alarm -> alarm.change().by().equals(BY));
        }
    }
}
