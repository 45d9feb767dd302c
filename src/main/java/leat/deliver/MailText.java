package leat.deliver;

import static java.nio.charset.StandardCharsets.UTF_8;
import static java.util.Objects.requireNonNull;

import jakarta.mail.Message.RecipientType;
import jakarta.mail.MessagingException;
import jakarta.mail.Session;
import jakarta.mail.internet.InternetAddress;
import jakarta.mail.internet.MimeBodyPart;
import jakarta.mail.internet.MimeMessage;
import jakarta.mail.internet.MimeMultipart;
import java.util.Date;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import leat.rule.Grade;
import leat.signal.PlainText;
import leat.store.Message;
import leat.words.Phrases;

/**
 * A message as e-mail: plain text and HTML that say the same. All mails about one occurrence of an
 * alarm make one thread: each refers to the first (RFC 5322, 3.6.4). A repeat has the same
 * Message-ID. Immutable.
 */
final class MailText {

    private static final int LONGEST_SUBJECT = 200;
    private static final int LONGEST_TEXT = 100_000;
    private static final int LONGEST_ID = 200;
    private static final long MICROS_PER_MILLI = 1_000;

    private final Phrases phrases;
    private final String from;
    private final List<String> to;
    private final String domain;

    /**
     * @param site keeps ids of two sites with one sender apart
     * @param phrases in whose language it is written
     * @param from the sender's address
     * @param to the addresses shown as receivers
     */
    MailText(String site, Phrases phrases, String from, List<String> to) {
        this.phrases = requireNonNull(phrases, "phrases");
        this.from = requireNonNull(from, "from");
        this.to = List.copyOf(to);
        this.domain =
                Integer.toHexString(requireNonNull(site, "site").hashCode())
                        + "."
                        + from.substring(from.lastIndexOf('@') + 1);
    }

    MimeMessage mail(Session session, Message message) throws MessagingException {
        MimeMessage mail = new Identified(session, messageId(message.id()));
        mail.setFrom(new InternetAddress(from));
        for (String address : to) {
            mail.addRecipient(RecipientType.TO, new InternetAddress(address));
        }
        String subject = PlainText.harmless(message.subject(), LONGEST_SUBJECT);
        mail.setSubject(subject, UTF_8.name());
        mail.setSentDate(new Date(message.atMicros() / MICROS_PER_MILLI));
        mail.setHeader("Auto-Submitted", "auto-generated");
        if (!message.alarmId().isEmpty()) {
            String root = messageId(message.alarmId() + "/1");
            if (!root.equals(messageId(message.id()))) {
                mail.setHeader("In-Reply-To", root);
                mail.setHeader("References", root);
            }
        }
        if (message.kind() == Message.Purpose.CALL && message.grade() == Grade.CRITICAL) {
            mail.setHeader("Importance", "high");
        }
        String text = harmlessLines(message.text());
        mail.setContent(
                alternatives(
                        text, new MailHtml(phrases.language().key()).of(message, subject, text)));
        mail.saveChanges();
        return mail;
    }

    private static MimeMultipart alternatives(String text, String html) throws MessagingException {
        MimeMultipart parts = new MimeMultipart("alternative");
        MimeBodyPart plain = new MimeBodyPart();
        plain.setText(text, UTF_8.name(), "plain");
        MimeBodyPart rich = new MimeBodyPart();
        rich.setText(html, UTF_8.name(), "html");
        parts.addBodyPart(plain);
        parts.addBodyPart(rich);
        return parts;
    }

    /** Whatever the id holds: only characters that need no quoting (RFC 5322, dot-atom-text). */
    String messageId(String id) {
        StringBuilder safe = new StringBuilder("leat-");
        for (byte b : PlainText.harmless(id, LONGEST_ID).getBytes(UTF_8)) {
            char c = (char) (b & 0xff);
            boolean plain = c < 128 && Character.isLetterOrDigit(c) || c == '-' || c == '/';
            if (plain) {
                safe.append(c);
            } else if (c == '.') {
                safe.append("_");
            } else {
                safe.append('=').append(HexFormat.of().toHexDigits(b).toLowerCase(Locale.ROOT));
            }
        }
        return "<" + safe + "@" + domain + ">";
    }

    private String harmlessLines(String text) {
        String start =
                text.length() > LONGEST_TEXT
                        ? text.substring(0, LONGEST_TEXT) + "\n" + phrases.say("mail.cut")
                        : text;
        return String.join("\n", start.lines().map(PlainText::harmless).toList()) + "\n";
    }

    /** The library would give each mail a new id. */
    private static final class Identified extends MimeMessage {
        private final String id;

        Identified(Session session, String id) {
            super(session);
            this.id = id;
        }

        @Override
        protected void updateMessageID() throws MessagingException {
            setHeader("Message-ID", id);
        }
    }
}
