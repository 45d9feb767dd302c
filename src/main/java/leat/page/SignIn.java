package leat.page;

import static java.nio.charset.StandardCharsets.UTF_8;
import static java.util.Objects.requireNonNull;

import com.sun.net.httpserver.HttpExchange;
import java.io.IOException;
import java.net.URLDecoder;
import java.util.Optional;
import leat.report.Shown;

/** Takes the token that a person has typed, and gives a browser its pass. Thread-safe. */
final class SignIn {

    private static final int LONGEST_FORM = 2_048;
    private static final String FIELD = "token=";

    private final Access access;
    private final SignInPage page;
    private final Turns turns;
    private final Shown shown;

    SignIn(Access access, SignInPage page, Turns turns, Shown shown) {
        this.access = requireNonNull(access, "access");
        this.page = requireNonNull(page, "page");
        this.turns = requireNonNull(turns, "turns");
        this.shown = requireNonNull(shown, "shown");
    }

    /** The form. */
    Answer asked() {
        return page.of(200, "status.ask");
    }

    /** The form that was sent. */
    Answer sent(HttpExchange exchange) throws IOException {
        turns.begins(Doing.READING);
        byte[] form = exchange.getRequestBody().readNBytes(LONGEST_FORM + 1);
        turns.begins(Doing.WORKING);
        if (form.length > LONGEST_FORM) {
            return Answer.plain(413, shown.say("status.too-long"));
        }
        Access.Verdict verdict =
                access.show(
                        token(new String(form, UTF_8)).orElse(""),
                        exchange.getRemoteAddress().getAddress());
        return verdict == Access.Verdict.MAY
                ? Answer.plain(303, shown.say("status.signed-in"))
                        .with("Location", Paths.PAGE)
                        .with("Set-Cookie", access.setCookie())
                : refused(verdict, true);
    }

    private static Optional<String> token(String form) {
        try {
            return Optional.of(form)
                    .filter(text -> text.startsWith(FIELD) && text.indexOf('&') < 0)
                    .map(text -> URLDecoder.decode(text.substring(FIELD.length()), UTF_8));
        } catch (IllegalArgumentException e) {
            return Optional.empty(); // no form of a browser
        }
    }

    /**
     * @param isForPeople whether a form is of use
     */
    Answer refused(Access.Verdict verdict, boolean isForPeople) {
        int status = verdict == Access.Verdict.WAIT ? 429 : 401;
        String words =
                switch (verdict) {
                    case MAY, UNKNOWN -> "status.ask";
                    case WRONG -> "status.wrong";
                    case WAIT -> "status.wait";
                };
        Answer answer =
                isForPeople ? page.of(status, words) : Answer.plain(status, shown.say(words));
        return status == 401
                ? answer.with("WWW-Authenticate", "Bearer realm=\"leat\"")
                : answer.with("Retry-After", "6");
    }
}
