package leat.page;

import leat.report.Html;
import leat.report.Shown;

/** What every page of ours begins and ends with. Immutable. */
final class Sheet {

    /** Drawn within the page, so that no browser asks for one. */
    private static final String ICON =
            "data:image/svg+xml,%3Csvg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 16 16'%3E"
                    + "%3Cpath fill='none' stroke='%231d7f8c' stroke-width='3'"
                    + " d='M1 5q3.5 4 7 0t7 0M1 12q3.5 4 7 0t7 0'/%3E%3C/svg%3E";

    private final String site;
    private final Shown shown;
    private final String style = Resource.text("page.css");

    Sheet(String site, Shown shown) {
        this.site = site;
        this.shown = shown;
    }

    String style() {
        return style;
    }

    /** Up to and with the name of the site. */
    String head() {
        return "<!doctype html>\n<html lang=\""
                + shown.language().key()
                + "\">\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"viewport\""
                + " content=\"width=device-width, initial-scale=1\">\n<title>"
                + Html.escaped(shown.say("status.title", site))
                + "</title>\n<link rel=\"icon\" href=\""
                + ICON
                + "\">\n<style>"
                + style
                + "</style>\n</head>\n<body>\n<header>\n<h1>"
                + Html.escaped(shown.say("status.title", site))
                + "</h1>\n";
    }

    /** From the end of what is shown on. */
    String foot(String script) {
        return "<footer>\n<p><strong>"
                + Html.escaped(shown.say("status.read-only"))
                + "</strong> "
                + Html.escaped(shown.findings().caution())
                + "</p>\n</footer>\n"
                + script
                + "</body>\n</html>\n";
    }
}
