package leat.deliver;

import static java.util.Objects.requireNonNull;

import jakarta.mail.AuthenticationFailedException;
import jakarta.mail.MessagingException;
import jakarta.mail.SendFailedException;
import jakarta.mail.Session;
import jakarta.mail.internet.AddressException;
import jakarta.mail.internet.InternetAddress;
import java.util.List;
import java.util.Optional;
import java.util.Properties;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.FutureTask;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import leat.config.RouteSettings;
import leat.config.RouteSettings.MailSecurity;
import leat.config.Secret;
import leat.signal.PlainText;
import leat.store.Message;
import leat.words.FaultWords;
import leat.words.Phrases;
import org.eclipse.angus.mail.smtp.SMTPTransport;

/**
 * E-mail by SMTP, one connection per message. The server's certificate and name are checked; where
 * TLS is asked for, nothing but the greeting goes to a server without it.
 *
 * <p>Who of several receivers has got a message does not get it again while another one's mailbox
 * is full. A receiver that the server refuses for good holds up nobody: the others get the message,
 * and it counts as refused.
 *
 * <p>Confined to one thread; a second one talks to the server for as long as a delivery lasts.
 */
public final class MailRoute implements Route {

    private static final int LONGEST_SAID = 200;

    /** What the library holds for the server's answer when there was none. */
    private static final String HUNG_UP = "[EOF]";

    private final RouteSettings.Mail settings;
    private final MailText text;
    private final String endpoint;
    private MailReceivers receivers;

    /**
     * @param site name of the site
     * @param phrases in whose language it is written
     */
    public MailRoute(RouteSettings.Mail settings, String site, Phrases phrases) {
        this.settings = requireNonNull(settings, "settings");
        this.text = new MailText(site, phrases, settings.from(), settings.to());
        this.endpoint = settings.host() + ":" + settings.port();
        this.receivers = new MailReceivers("", settings.to());
    }

    @Override
    public String name() {
        return settings.name();
    }

    @Override
    public void start(Runnable reachable) {
        // it is found out at the next try
    }

    @Override
    public DeliveryResult deliver(Message message) {
        if (!receivers.messageId().equals(message.id())) {
            receivers = new MailReceivers(message.id(), settings.to());
        }
        MailSockets sockets = new MailSockets();
        List<String> waiting = receivers.waiting();
        FutureTask<Optional<SendFailedException>> talk =
                new FutureTask<>(() -> send(message, waiting, sockets));
        Thread thread = new Thread(talk, "leat-mail-" + settings.name());
        thread.setDaemon(true);
        thread.start();
        try {
            Optional<SendFailedException> failure =
                    talk.get(settings.timeout().toMillis(), TimeUnit.MILLISECONDS);
            receivers.note(failure);
            DeliveryResult result = receivers.result(endpoint);
            if (result.kind() != DeliveryResult.Answer.NOT_NOW) {
                receivers = new MailReceivers("", settings.to());
            }
            return result;
        } catch (TimeoutException e) {
            return notNow(
                    FaultWords.english(
                            "mail.not-done",
                            Double.toString(settings.timeout().toMillis() / 1000.0)));
        } catch (ExecutionException e) {
            return notNow(words(e.getCause()));
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return notNow(FaultWords.english("interrupted"));
        } finally {
            sockets.breakOff();
        }
    }

    /** Empty when every receiver was taken. */
    private Optional<SendFailedException> send(
            Message message, List<String> waiting, MailSockets sockets) throws MessagingException {
        Session session = Session.getInstance(properties(sockets));
        try (SMTPTransport transport = (SMTPTransport) session.getTransport("smtp")) {
            transport.connect(
                    settings.host(),
                    settings.port(),
                    settings.user().orElse(null),
                    settings.password().map(Secret::reveal).orElse(null));
            if (settings.user().isPresent() && !transport.supportsExtension("AUTH")) {
                throw noLogin(transport.getLastReturnCode());
            }
            try {
                transport.sendMessage(text.mail(session, message), addresses(waiting));
                return Optional.empty();
            } catch (SendFailedException e) {
                return Optional.of(e);
            }
        }
    }

    /** To the library a server that hangs up after the handshake is one that offers nothing. */
    private static MessagingException noLogin(int lastCode) {
        return lastCode < 0
                ? new MessagingException(HUNG_UP)
                : new AuthenticationFailedException(FaultWords.english("mail.no-login"));
    }

    private static InternetAddress[] addresses(List<String> waiting) throws AddressException {
        InternetAddress[] addresses = new InternetAddress[waiting.size()];
        for (int i = 0; i < addresses.length; i++) {
            addresses[i] = new InternetAddress(waiting.get(i));
        }
        return addresses;
    }

    /** Each step is bounded by the time of the whole, which the waiting thread sees to. */
    private Properties properties(MailSockets sockets) {
        Properties set = new Properties();
        String bound = Long.toString(settings.timeout().toMillis());
        set.put("mail.smtp.connectiontimeout", bound);
        set.put("mail.smtp.timeout", bound);
        set.put("mail.smtp.socketFactory", sockets.plain());
        set.put("mail.smtp.socketFactory.fallback", "false");
        set.put(
                "mail.smtp.ssl.socketFactory",
                sockets.tls(settings.trust().context().getSocketFactory()));
        set.put("mail.smtp.ssl.checkserveridentity", "true");
        set.put("mail.smtp.ssl.enable", is(MailSecurity.TLS));
        set.put("mail.smtp.starttls.enable", is(MailSecurity.STARTTLS));
        set.put("mail.smtp.starttls.required", is(MailSecurity.STARTTLS));
        set.put("mail.smtp.auth", Boolean.toString(settings.user().isPresent()));
        set.put("mail.smtp.auth.mechanisms", "PLAIN LOGIN");
        set.put("mail.smtp.from", settings.from());
        set.put("mail.smtp.localhost", "[127.0.0.1]");
        set.put("mail.smtp.sendpartial", "true");
        set.put("mail.smtp.quitwait", "false");
        return set;
    }

    private String is(MailSecurity security) {
        return Boolean.toString(settings.security() == security);
    }

    private static String words(Throwable failure) {
        String said = String.valueOf(failure.getMessage());
        if (failure instanceof AuthenticationFailedException) {
            return FaultWords.english("mail.login", PlainText.harmless(said.strip(), LONGEST_SAID));
        }
        if (said.contains(HUNG_UP)) {
            return FaultWords.english("net.closed");
        }
        if (said.contains("STARTTLS is required")) {
            return FaultWords.english("mail.starttls");
        }
        return NetTrouble.words(failure);
    }

    private DeliveryResult notNow(String why) {
        return DeliveryResult.notNow(FaultWords.english("where", endpoint, why));
    }

    @Override
    public void close() {
        // each connection has ended with its delivery
    }
}
