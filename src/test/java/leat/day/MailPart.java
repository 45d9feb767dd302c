package leat.day;

import com.icegreen.greenmail.user.GreenMailUser;
import com.icegreen.greenmail.user.UserManager;
import com.icegreen.greenmail.util.GreenMail;
import com.icegreen.greenmail.util.ServerSetup;
import jakarta.mail.MessagingException;
import jakarta.mail.internet.MimeMessage;
import jakarta.mail.internet.MimeMultipart;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.time.Duration;
import java.util.List;
import leat.deliver.StartTlsDoor;
import leat.tls.Certificates;

/**
 * GreenMail behind a {@link StartTlsDoor}, for it knows no STARTTLS itself: what comes without TLS
 * or without the password is not let through.
 */
final class MailPart implements Part {

    private static final String MAINTENANCE = "maintenance@example.org";

    /** Before each of some nine answers; 2 s are allowed for all of them. */
    private static final Duration SLOW = Duration.ofMillis(150);

    private final Certificates certificates;
    private final Shown shown;
    private final Arrivals arrivals;
    private final GreenMail server;
    private final StartTlsDoor door;

    MailPart(Certificates certificates, Shown shown, Arrivals arrivals) throws Exception {
        this.certificates = certificates;
        this.shown = shown;
        this.arrivals = arrivals;
        server = new GreenMail(new ServerSetup(0, "127.0.0.1", ServerSetup.PROTOCOL_SMTP));
        server.setUser("leat@example.org", "leat", "invented");
        GreenMailUser maintenance = server.setUser(MAINTENANCE, MAINTENANCE, "unused");
        server.start();
        UserManager users = server.getUserManager();
        users.setMessageDeliveryHandler(
                (message, address) -> {
                    taken(message.getMessage());
                    return maintenance;
                });
        door = new StartTlsDoor(server.getSmtp().getPort(), shown.good().context());
    }

    private void taken(MimeMessage mail) throws MessagingException {
        String text = text(mail);
        arrivals.came(
                route(),
                id(mail.getMessageID()),
                row -> (row.text() + "\n").equals(text.replace("\r\n", "\n")));
    }

    private static String text(MimeMessage mail) throws MessagingException {
        try {
            return (String) ((MimeMultipart) mail.getContent()).getBodyPart(0).getContent();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /**
     * {@code <leat-jet-1_signal=5fbad_inlet/1@...>} stands for {@code jet-1.signal_bad.inlet/1}.
     */
    private static String id(String messageId) {
        String local = messageId.substring("<leat-".length(), messageId.lastIndexOf('@'));
        return local.replace('_', '.').replace("=5f", "_");
    }

    @Override
    public String route() {
        return "mail";
    }

    @Override
    public String yaml() {
        return "mail: { host: 127.0.0.1, port: "
                + door.port()
                + ", user: leat, password: { env: MAIL }, from: leat@example.org, to: [ "
                + MAINTENANCE
                + " ], timeout: 2 s, ca_file: '"
                + certificates.caFile()
                + "' }";
    }

    @Override
    public List<Spell> spells() {
        Duration brief = Duration.ofMillis(1000);
        return List.of(
                new Spell(Ailment.KILLED, brief, "connection refused"),
                new Spell(Ailment.HUNG, Duration.ofMillis(3600), "not done within 2.0 s"),
                new Spell(Ailment.SLOW, Duration.ofMillis(2000), ""),
                new Spell(Ailment.REFUSING, brief, "451 4.3.0 not now", "535 5.7.8"),
                new Spell(Ailment.FULL, brief, "452 4.2.2 mailbox full"),
                new Spell(Ailment.REFUSING_FOR_GOOD, brief, "550 5.1.1 no such person"),
                new Spell(
                        Ailment.CERTIFICATE,
                        Duration.ofMillis(1400),
                        "has expired",
                        "another host name"));
    }

    @Override
    public void begin(Ailment trouble) throws Exception {
        switch (trouble) {
            case KILLED -> door.shut();
            case HUNG -> door.saysNothingFrom(".");
            case SLOW -> door.delay(SLOW);
            case REFUSING -> door.answer("RCPT", "451 4.3.0 not now");
            case FULL -> door.answer("RCPT", "452 4.2.2 mailbox full");
            case REFUSING_FOR_GOOD -> door.answer("RCPT", "550 5.1.1 no such person here");
            case CERTIFICATE -> door.show(shown.expired().context());
        }
    }

    @Override
    public void turn(Ailment trouble) throws Exception {
        switch (trouble) {
            case HUNG -> door.saysNothingFrom("");
            case REFUSING -> {
                door.answerAsUsual();
                door.answer("AUTH", "535 5.7.8 wrong password");
            }
            case CERTIFICATE -> door.show(shown.elsewhere().context());
            case KILLED, SLOW, FULL, REFUSING_FOR_GOOD -> {
                // as it is
            }
        }
    }

    @Override
    public void end(Ailment trouble) throws Exception {
        switch (trouble) {
            case KILLED -> door.reopen();
            case SLOW -> door.delay(Duration.ZERO);
            case HUNG, REFUSING, FULL, REFUSING_FOR_GOOD -> door.answerAsUsual();
            case CERTIFICATE -> door.show(shown.good().context());
        }
    }

    @Override
    public void close() throws IOException {
        door.close();
        server.stop();
    }
}
