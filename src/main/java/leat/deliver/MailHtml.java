package leat.deliver;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import leat.store.Message;
import leat.words.Lines;

/**
 * The same text for mail programs that show HTML: what matters first stands large beside a bar of
 * its grade, each thing is a paragraph that begins with what it is, in bold. It needs no style
 * sheet; one adds the colours of a dark window. Immutable.
 *
 * @param language its key, such as {@code en}
 */
record MailHtml(String language) {

    /** Such as {@code Check first:}; a time of day or a long sentence is none. */
    private static final Pattern BEGINS =
            Pattern.compile("([^:.0-9]{2,28}|[^:.]{2,60}, [^:.]{1,60}):( .*)");

    private static final String STYLE =
            "@media (prefers-color-scheme: dark) { body { background: #14181c !important; color: #e6eaee"
                    + " !important; } .soft { color: #9fabb5 !important; } }";

    MailHtml {
        requireNonNull(language, "language");
    }

    /**
     * @param subject of the mail
     * @param text its lines, made harmless
     */
    String of(Message message, String subject, String text) {
        List<String> lines = Lines.unbroken(text).lines().filter(each -> !each.isBlank()).toList();
        StringBuilder html = new StringBuilder("<!DOCTYPE html>\n<html lang=\"");
        html.append(language)
                .append("\"><head><meta charset=\"utf-8\">\n<meta name=\"viewport\"")
                .append(" content=\"width=device-width, initial-scale=1\">\n")
                .append("<meta name=\"color-scheme\" content=\"light dark\">\n<title>")
                .append(escaped(subject))
                .append("</title>\n<style>")
                .append(STYLE)
                .append(
                        "</style></head>\n<body style=\"margin:0;padding:16px;font:16px/1.45 sans-serif\">\n")
                .append("<div style=\"max-width:640px;border-left:6px solid ")
                .append(colour(message))
                .append(";padding-left:14px\">\n");
        for (int i = 0; i < lines.size(); i++) {
            boolean isLast = i > 0 && i == lines.size() - 1;
            html.append(
                    i == 0
                            ? first(lines.get(0))
                            : isLast ? last(lines.get(i)) : paragraph(lines.get(i)));
        }
        return html.append("</div>\n</body></html>\n").toString();
    }

    private static String colour(Message message) {
        if (message.kind() != Message.Purpose.CALL) {
            return "#7a8791";
        }
        return switch (message.grade()) {
            case ADVISORY -> "#a88500";
            case WARNING -> "#d0660f";
            case CRITICAL -> "#c9252f";
        };
    }

    private static String first(String line) {
        return "<p style=\"margin:0 0 12px;font-size:19px;line-height:1.35;font-weight:bold\">"
                + escaped(line)
                + "</p>\n";
    }

    private static String paragraph(String line) {
        Matcher begins = BEGINS.matcher(line);
        return "<p style=\"margin:0 0 8px\">"
                + (begins.matches()
                        ? "<b>" + escaped(begins.group(1)) + ":</b>" + escaped(begins.group(2))
                        : escaped(line))
                + "</p>\n";
    }

    /** By which number and id the message is known. */
    private static String last(String line) {
        return "<p class=\"soft\" style=\"margin:12px 0 0;font-size:13px;color:#5b6670;word-break:break-word\">"
                + escaped(line)
                + "</p>\n";
    }

    private static String escaped(String text) {
        return text.replace("&", "&amp;")
                .replace("<", "&lt;")
                .replace(">", "&gt;")
                .replace("\"", "&quot;")
                .replace("'", "&#39;");
    }
}
