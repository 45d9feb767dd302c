package leat.deliver;

import static java.util.Objects.requireNonNull;

import jakarta.mail.Address;
import jakarta.mail.MessagingException;
import jakarta.mail.SendFailedException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Pattern;
import leat.signal.PlainText;
import leat.words.FaultWords;
import org.eclipse.angus.mail.smtp.SMTPAddressFailedException;
import org.eclipse.angus.mail.smtp.SMTPSendFailedException;
import org.eclipse.angus.mail.smtp.SMTPSenderFailedException;

/**
 * How far one message has come with each of its receivers. Kept in memory only: after a restart a
 * receiver may get it again, with the same id. Thread-confined.
 */
final class MailReceivers {

    private static final int LONGEST_SAID = 200;

    /** RFC 3463, X.7.X: leat has no right to send there, which somebody can mend. */
    private static final Pattern NO_RIGHT = Pattern.compile("^5\\d\\d[ -]5\\.7\\.\\d");

    private final String messageId;
    private final Set<String> waiting;
    private final List<String> served = new ArrayList<>();

    /** Address and what the server said. */
    private final Map<String, String> refused = new LinkedHashMap<>();

    private String lastSaid = "";

    MailReceivers(String messageId, List<String> to) {
        this.messageId = requireNonNull(messageId, "messageId");
        this.waiting = new LinkedHashSet<>(to);
    }

    String messageId() {
        return messageId;
    }

    List<String> waiting() {
        return List.copyOf(waiting);
    }

    /**
     * Takes in what came of a try.
     *
     * @param failure empty when all that waited were served
     */
    void note(Optional<SendFailedException> failure) {
        if (failure.isEmpty()) {
            served.addAll(waiting);
            waiting.clear();
            return;
        }
        served(failure.get().getValidSentAddresses());
        for (Exception e = failure.get(); e != null; e = next(e)) {
            note(e);
        }
    }

    private void served(Address[] addresses) {
        if (addresses != null) {
            for (Address address : addresses) {
                if (waiting.remove(address.toString())) {
                    served.add(address.toString());
                }
            }
        }
    }

    private static Exception next(Exception e) {
        return e instanceof MessagingException chained ? chained.getNextException() : null;
    }

    private void note(Exception e) {
        String said = PlainText.harmless(String.valueOf(e.getMessage()).strip(), LONGEST_SAID);
        if (e instanceof SMTPAddressFailedException failed) {
            lastSaid = FaultWords.english("where", failed.getAddress(), said);
            if (isForGood(failed.getReturnCode()) && !NO_RIGHT.matcher(said).find()) {
                refuse(failed.getAddress().toString(), said);
            }
        } else if (e instanceof SMTPSenderFailedException) {
            lastSaid = FaultWords.english("mail.sender", said);
        } else if (e instanceof SMTPSendFailedException failed) {
            lastSaid = said;
            if (isForGood(failed.getReturnCode()) && isAboutContent(failed)) {
                waiting().forEach(address -> refuse(address, said));
            }
        } else if (lastSaid.isEmpty()) {
            lastSaid = said;
        }
    }

    private static boolean isAboutContent(SMTPSendFailedException failed) {
        String command = String.valueOf(failed.getCommand());
        return command.startsWith("DATA") || command.startsWith(".") || command.startsWith("BDAT");
    }

    /**
     * RFC 5321: 5xx is for good. Not so 552, by which servers also say that a mailbox is full
     * (4.5.3.1.10 treats it as temporary), and what is about logging in (RFC 4954), which somebody
     * can mend.
     */
    private static boolean isForGood(int code) {
        return switch (code) {
            case 530, 534, 535, 538, 552 -> false;
            default -> code >= 500 && code <= 599;
        };
    }

    private void refuse(String address, String said) {
        if (waiting.remove(address)) {
            refused.put(address, said);
        }
    }

    DeliveryResult result(String endpoint) {
        if (!waiting.isEmpty()) {
            String why = lastSaid.isEmpty() ? FaultWords.english("mail.not-taken") : lastSaid;
            return DeliveryResult.notNow(
                    FaultWords.english("mail.not-for", endpoint, String.join(", ", waiting), why));
        }
        if (refused.isEmpty()) {
            return DeliveryResult.DELIVERED;
        }
        List<String> words = new ArrayList<>();
        refused.forEach((address, said) -> words.add(address + " (" + said + ")"));
        return DeliveryResult.refused(
                FaultWords.english(
                        served.isEmpty() ? "mail.refused" : "mail.refused-some",
                        endpoint,
                        String.join(", ", words),
                        String.join(", ", served)));
    }
}
