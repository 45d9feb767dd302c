package leat.page;

import leat.report.Shown;

/** Asks a person for the token. Immutable. */
final class SignInPage {

    private final Shown shown;
    private final Sheet sheet;

    SignInPage(Shown shown, Sheet sheet) {
        this.shown = shown;
        this.sheet = sheet;
    }

    /**
     * @param status of HTTP
     * @param words why one is asked; a key of the phrases
     */
    Answer of(int status, String words) {
        Element out = new Element().html(sheet.head()).close("header").open("main");
        out.open("section class=\"card\"").text("h2", shown.say("status.sign-in"));
        out.text("p role=\"status\"", shown.say(words));
        out.open("form method=\"post\" action=\"" + Paths.SIGN_IN + "\"");
        out.text("label for=\"token\"", shown.say("status.token"));
        out.open(
                "input id=\"token\" name=\"token\" type=\"password\" required autocomplete=\"current-password\"");
        out.text("button type=\"submit\"", shown.say("status.send"));
        out.close("form").close("section").close("main");
        return Answer.html(status, out.html(sheet.foot("")).done(), Policy.form(sheet.style()));
    }
}
