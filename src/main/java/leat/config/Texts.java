package leat.config;

import java.net.URI;
import java.net.URISyntaxException;
import java.util.Optional;
import java.util.regex.Pattern;

/** The rules for text that goes into topics, addresses and the like. */
final class Texts {

    private Texts() {}

    /** Levels separated by slashes, with none of them a wildcard. */
    static final TextForm TOPIC =
            new TextForm(
                    "topic",
                    Pattern.compile(
                            "[^+#\\u0000-\\u001f\\u007f-\\u009f]*"
                                    + "[^+#/\\u0000-\\u001f\\u007f-\\u009f]"),
                    "an MQTT topic without the wildcards + and #, and with no slash at its end");

    /** RFC 6901. */
    static final TextForm JSON_POINTER =
            new TextForm(
                    "JSON pointer",
                    Pattern.compile("(/([^~/]|~[01])*)+"),
                    "a JSON pointer (RFC 6901), such as /psi or /sensor/pressure");

    static final TextForm BROKER_URL =
            new TextForm(
                    "URL",
                    Pattern.compile(
                            "(tcp|ssl)://([A-Za-z0-9._-]+|\\[[0-9A-Fa-f:.]+\\])(:[0-9]{1,5})?"),
                    "tcp://host:port, or ssl://host:port for TLS; no user and no path in it",
                    false);

    static final TextForm HOST =
            new TextForm(
                    "name or address",
                    Pattern.compile(
                            "[A-Za-z0-9]([A-Za-z0-9._-]*[A-Za-z0-9])?|[0-9A-Fa-f]*:[0-9A-Fa-f:.]*:[0-9A-Fa-f:.]*"),
                    "a host name or an address alone, such as 192.168.1.20; the port stands under port");

    /** An address of this computer with a port; a name would have to be looked up. */
    static final TextForm LISTEN =
            new TextForm(
                    "address",
                    Pattern.compile(
                            "(localhost|[0-9]{1,3}(\\.[0-9]{1,3}){3}|\\[[0-9A-Fa-f:.]+\\]):[0-9]{1,5}"),
                    "an address of this computer and a port, such as 127.0.0.1:8080 or [::1]:8080");

    static final TextForm CLIENT_ID =
            new TextForm(
                    "text",
                    Pattern.compile("[!-~]{1,128}"),
                    "1 to 128 letters, digits and signs, without blanks");

    static final TextForm VARIABLE =
            new TextForm(
                    "variable",
                    Pattern.compile("[A-Za-z_][A-Za-z0-9_]*"),
                    "the name of an environment variable: letters, digits and _",
                    false);

    static final TextForm GROUP =
            new TextForm(
                    "group",
                    Pattern.compile("[A-Za-z0-9_][A-Za-z0-9_.-]{0,63}"),
                    "the name of a group: letters, digits and _ . -");

    /** As much of RFC 5321 as people use; nothing in it needs quoting in a header. */
    static final TextForm MAIL_ADDRESS =
            new TextForm(
                    "mail address",
                    Pattern.compile(
                            "[A-Za-z0-9!#$%&'*+/=?^_`{|}~-]+(\\.[A-Za-z0-9!#$%&'*+/=?^_`{|}~-]+)*"
                                    + "@[A-Za-z0-9]([A-Za-z0-9-]*[A-Za-z0-9])?"
                                    + "(\\.[A-Za-z0-9]([A-Za-z0-9-]*[A-Za-z0-9])?)*"),
                    "one address alone, such as maintenance@example.org");

    static final TextForm WEB_URL =
            new TextForm(
                    "URL",
                    Pattern.compile(
                            "https?://([A-Za-z0-9._-]+|\\[[0-9A-Fa-f:.]+\\])(:[0-9]{1,5})?"
                                    + "(/[!-~]*)?"),
                    "https://host/path, without user and password in it",
                    false);

    /** Whether a host is this computer itself, as far as its name says. */
    static boolean isLoopback(String host) {
        return host.equals("localhost")
                || host.matches("127(\\.[0-9]{1,3}){3}")
                || host.equals("::1")
                || host.equals("[::1]");
    }

    /** Empty for what is no address after all. */
    static Optional<URI> uri(String url) {
        try {
            URI uri = new URI(url);
            return Optional.of(uri).filter(u -> u.getHost() != null && u.getPort() <= 65535);
        } catch (URISyntaxException e) {
            return Optional.empty();
        }
    }
}
