package leat.deliver;

import static org.assertj.core.api.Assertions.assertThat;
import static org.awaitility.Awaitility.await;

import com.icegreen.greenmail.store.StoredMessage;
import com.icegreen.greenmail.user.GreenMailUser;
import com.icegreen.greenmail.util.GreenMail;
import com.icegreen.greenmail.util.ServerSetup;
import jakarta.mail.BodyPart;
import jakarta.mail.internet.MimeMessage;
import jakarta.mail.internet.MimeMultipart;
import java.util.ArrayList;
import java.util.Date;
import java.util.List;
import leat.rule.Grade;
import leat.store.Message;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;

/** The server is GreenMail: what arrives is read back as a mail program would. */
class MailRouteTest extends RouteContract {

    private GreenMail server;

    @Override
    Route open() {
        server = new GreenMail(new ServerSetup(0, "127.0.0.1", ServerSetup.PROTOCOL_SMTP));
        server.start();
        return MailRoutes.plain(
                server.getSmtp().getPort(), "maintenance@example.org", "shift@example.org");
    }

    @AfterEach
    void end_the_server() {
        server.stop();
    }

    @Override
    List<Integer> arrived() throws Exception {
        List<Integer> numbers = new ArrayList<>();
        for (MimeMessage mail : mails("shift@example.org")) {
            numbers.add(Integer.parseInt(mail.getSubject().replaceFirst("subject ", "")));
        }
        return numbers;
    }

    @Test
    void mail_says_from_whom_to_whom_when_and_what_in_text_and_html() throws Exception {
        Message message =
                Hostile.message(
                        "WARNING jet-1: weak boost, 1.62 \u00b1 0.1",
                        "Line 1.\nLine <2> & 3.",
                        "{}");

        route().deliver(message);

        MimeMessage mail = received(0);
        assertThat(mail.getFrom()).extracting(Object::toString).containsExactly("leat@example.org");
        assertThat(mail.getAllRecipients())
                .extracting(Object::toString)
                .containsExactly("maintenance@example.org", "shift@example.org");
        assertThat(mail.getSubject()).isEqualTo("WARNING jet-1: weak boost, 1.62 \u00b1 0.1");
        assertThat(mail.getSentDate()).isEqualTo(new Date(Changes.RAISED / 1000 / 1000 * 1000));
        assertThat(mail.getHeader("Auto-Submitted")).containsExactly("auto-generated");
        assertThat(mail.getHeader("Importance")).containsExactly("high");
        assertThat(mail.getContentType()).startsWith("multipart/alternative");
        assertThat(part(mail, 0).getContentType()).startsWith("text/plain");
        assertThat(text(mail, 0)).isEqualToNormalizingNewlines("Line 1.\nLine <2> & 3.\n");
        assertThat(part(mail, 1).getContentType()).startsWith("text/html");
        assertThat(text(mail, 1)).contains("Line 1.", "Line &lt;2&gt; &amp; 3.", "1.62 \u00b1 0.1");
    }

    @Test
    void mails_about_one_alarm_are_one_thread_and_a_repeat_has_the_same_id() throws Exception {
        route().deliver(Changes.message(1));
        route().deliver(Changes.message(2));
        route().deliver(Changes.message(2));

        MimeMessage first = received(0);
        MimeMessage second = received(1);
        MimeMessage repeat = received(2);
        assertThat(first.getMessageID())
                .matches("<leat-[A-Za-z0-9_/=-]+@[a-z0-9.]+\\.example\\.org>");
        assertThat(first.getHeader("In-Reply-To")).isNull();
        assertThat(second.getHeader("In-Reply-To")).containsExactly(first.getMessageID());
        assertThat(second.getHeader("References")).containsExactly(first.getMessageID());
        assertThat(second.getMessageID()).isNotEqualTo(first.getMessageID());
        assertThat(repeat.getMessageID()).isEqualTo(second.getMessageID());
    }

    @Test
    void hostile_text_adds_no_header_no_receiver_no_tag_and_no_escape() throws Exception {
        route().deliver(Hostile.message());

        assertThat(mails("maintenance@example.org")).hasSize(1);
        assertThat(mails("shift@example.org")).hasSize(1);
        assertThat(server.getReceivedMessages()).hasSize(2);
        MimeMessage mail = received(0);
        assertThat(mail.getHeader("Bcc")).isNull();
        assertThat(mail.getAllRecipients()).hasSize(2);
        assertThat(mail.getSubject().codePoints()).noneMatch(Character::isISOControl);
        assertThat(mail.getSubject()).contains("\\r\\nBcc: thief@example.org");
        assertThat(mail.getMessageID()).matches("<[!-;=?-~]+>");
        assertThat(text(mail, 0).replaceAll("\r?\n", "").codePoints())
                .noneMatch(Character::isISOControl)
                .noneMatch(point -> point == 0x202e);
        assertThat(text(mail, 1))
                .doesNotContain("<script>")
                .contains("&lt;script&gt;alert(1)&lt;/script&gt;");
    }

    @Test
    void one_megabyte_is_cut_and_says_so() throws Exception {
        String large = "a long line of \u00e4\u00f6\u00fc ".repeat(70_000);

        DeliveryResult result = route().deliver(Hostile.message(large, large, "{}"));

        assertThat(result).isEqualTo(DeliveryResult.DELIVERED);
        assertThat(received(0).getSubject()).hasSizeLessThanOrEqualTo(200).endsWith("...");
        assertThat(text(received(0), 0).strip()).endsWith("(cut: the message was too long)");
    }

    @Test
    void notice_belongs_to_no_thread() throws Exception {
        Message lost = Changes.message(4);
        Message notice =
                Changes.said(
                        Changes.site(leat.signal.PressureUnit.PSI),
                        "id",
                        new Undelivered("jet-1", List.of(lost), "gone"));

        route().deliver(notice);

        assertThat(received(0).getSubject())
                .isEqualTo("NOT DELIVERED jet-1: 1 message on route hall");
        assertThat(received(0).getHeader("References")).isNull();
        assertThat(notice.grade()).isEqualTo(Grade.WARNING);
    }

    @Test
    void server_that_is_away_is_a_reason() {
        server.stop();

        DeliveryResult result = route().deliver(Changes.message(1));

        assertThat(result.kind()).isEqualTo(DeliveryResult.Answer.NOT_NOW);
        assertThat(result.reason())
                .contains("127.0.0.1:", "connection refused", "check that the server runs");
    }

    private MimeMessage received(int index) throws Exception {
        await().until(() -> mails("maintenance@example.org").size() > index);
        return mails("maintenance@example.org").get(index);
    }

    /** In the order in which they came into that mailbox. */
    private List<MimeMessage> mails(String address) throws Exception {
        GreenMailUser user = server.getUserManager().getUserByEmail(address);
        if (user == null) {
            return List.of();
        }
        return server.getManagers().getImapHostManager().getInbox(user).getMessages().stream()
                .map(StoredMessage::getMimeMessage)
                .toList();
    }

    private static BodyPart part(MimeMessage mail, int index) throws Exception {
        return ((MimeMultipart) mail.getContent()).getBodyPart(index);
    }

    private static String text(MimeMessage mail, int index) throws Exception {
        return (String) part(mail, index).getContent();
    }
}
