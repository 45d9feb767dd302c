package leat.page;

import leat.report.Html;

/** Writes HTML: whatever is text is made harmless here and nowhere else. Thread-confined. */
final class Element {

    private final StringBuilder out = new StringBuilder(2_000);

    /** Text between two tags, such as {@code p} or {@code p class="soft"}. */
    Element text(String tag, String words) {
        return open(tag).words(words).close(tag);
    }

    Element open(String tag) {
        out.append('<').append(tag).append('>');
        return this;
    }

    /**
     * @param tag as it was opened, or its name alone
     */
    Element close(String tag) {
        int blank = tag.indexOf(' ');
        out.append("</").append(blank < 0 ? tag : tag.substring(0, blank)).append(">\n");
        return this;
    }

    Element words(String text) {
        out.append(Html.escaped(text));
        return this;
    }

    /** What is HTML by now. */
    Element html(String html) {
        out.append(html);
        return this;
    }

    String done() {
        return out.toString();
    }
}
