package leat.config;

import java.net.InetAddress;
import java.net.UnknownHostException;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.Optional;
import leat.files.Exposure;
import leat.files.UnfitFile;
import leat.tls.Identity;

/** Reads {@code page}: where the status page is served, and to whom. */
final class PageReader {

    private static final int SHORTEST_TOKEN = 32;
    private static final int HIGHEST_PORT = 65_535;

    private static final Key<String> LISTEN =
            Key.withDefault(
                    "listen",
                    Texts.LISTEN,
                    "127.0.0.1:8080",
                    Key.CHOICE,
                    "address and port that the page is served on; one that others can reach needs"
                            + " tls and token");
    private static final Key<String> CERTIFICATE =
            Key.optional(
                    "certificate",
                    TextForm.LINE,
                    "PEM file with leat's own certificate, and below" + " it those above");
    private static final Key<String> KEY =
            Key.optional("key", TextForm.LINE, "PEM file with its key, PKCS#8 without a password");
    private static final Key<String> PKCS12 =
            Key.optional("pkcs12", TextForm.LINE, "PKCS#12 file with both");

    private static final Block TLS =
            Block.of(
                            CERTIFICATE,
                            KEY,
                            PKCS12,
                            Part.optional(
                                    "password",
                                    SecretReader.BLOCK,
                                    "where the password of the PKCS#12 file is"))
                    .exactlyOneOf("certificate", "pkcs12")
                    .needs("certificate", "key")
                    .needs("key", "certificate")
                    .needs("pkcs12", "password")
                    .needs("password", "pkcs12");

    static final Block BLOCK =
            Block.of(
                    LISTEN,
                    Part.optional(
                            "token",
                            SecretReader.BLOCK,
                            "where the secret is that whoever looks has to show, 32 characters or"
                                    + " more; left out, nobody is asked"),
                    Part.optional("tls", TLS, "who leat is to a browser; left out, plain http"));

    private final SecretReader secrets;

    PageReader(SecretReader secrets) {
        this.secrets = secrets;
    }

    Optional<PageSettings> read(Cursor at) {
        Fields fields = Fields.of(at, BLOCK);
        Optional<Secret> token = fields.at("token").flatMap(secrets::read);
        token.filter(secret -> secret.reveal().length() < SHORTEST_TOKEN)
                .ifPresent(
                        secret ->
                                fields.at("token")
                                        .orElseThrow()
                                        .wrong(
                                                "the token that is named here is too short",
                                                SHORTEST_TOKEN
                                                        + " characters or more, by chance: openssl"
                                                        + " rand -hex 32"));
        Optional<Identity> tls = fields.at("tls").flatMap(this::identity);
        if (fields.maybe(LISTEN).isEmpty()) {
            return Optional.empty();
        }
        return settings(fields, fields.at("listen").orElse(at), token, tls);
    }

    private static Optional<PageSettings> settings(
            Fields fields, Cursor at, Optional<Secret> token, Optional<Identity> tls) {
        String listen = fields.the(LISTEN);
        int colon = listen.lastIndexOf(':');
        String host = listen.substring(0, colon).replaceAll("[\\[\\]]", "");
        int port = Integer.parseInt(listen.substring(colon + 1));
        if (port < 1 || port > HIGHEST_PORT || !isAddress(host)) {
            at.wrong(Cursor.quote(listen) + " is no address to listen on", Texts.LISTEN.allowed());
            return Optional.empty();
        }
        PageSettings settings = new PageSettings(host, port, token, tls);
        if (!settings.isLoopback() && !(fields.has("tls") && fields.has("token"))) {
            at.wrong(
                    "others can reach "
                            + Cursor.quote(listen)
                            + ", and they would see the page in clear or without being asked who"
                            + " they are",
                    "127.0.0.1:" + port + ", or both tls and token beside it");
        }
        return Optional.of(settings);
    }

    /** The form lets through 999.1.1.1; a name is never looked up. */
    private static boolean isAddress(String host) {
        try {
            return InetAddress.getByName(host).getHostAddress() != null;
        } catch (UnknownHostException e) {
            return false;
        }
    }

    private Optional<Identity> identity(Cursor at) {
        Fields fields = Fields.of(at, TLS);
        Optional<Secret> password = fields.at("password").flatMap(secrets::read);
        Optional<Path> folder = secrets.folder();
        if (!fields.isWhole() || folder.isEmpty()) {
            return Optional.empty();
        }
        try {
            if (fields.has("pkcs12")) {
                Path file = folder.get().resolve(fields.maybe(PKCS12).orElseThrow());
                warnOfReaders(fields.at("pkcs12").orElseThrow(), file);
                return password.isEmpty()
                        ? Optional.empty()
                        : Optional.of(Identity.ofPkcs12(file, password.get().reveal()));
            }
            Path key = folder.get().resolve(fields.maybe(KEY).orElseThrow());
            warnOfReaders(fields.at("key").orElseThrow(), key);
            return Optional.of(
                    Identity.ofPem(
                            folder.get().resolve(fields.maybe(CERTIFICATE).orElseThrow()), key));
        } catch (UnfitFile e) {
            at.wrong("the files named here cannot be used: " + e.getMessage(), e.wanted());
        } catch (InvalidPathException e) {
            at.wrong("there can be no file of the name that stands here", "another name");
        }
        return Optional.empty();
    }

    private static void warnOfReaders(Cursor at, Path file) {
        Exposure.of(file)
                .ifPresent(
                        found ->
                                at.doubtful(
                                        "others can read " + file + ": mode " + found.mode(),
                                        found.remedy()));
    }
}
