package leat.config;

import static java.util.Objects.requireNonNull;

import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import leat.files.Exposure;
import leat.files.GivenFile;
import leat.files.UnfitFile;

/**
 * Fetches secrets from where {@code site.yaml} says they are. No message of its own ever shows what
 * may be a secret: a person who puts the password where its place belongs must not find it in a
 * log.
 */
final class SecretReader {

    private static final Key<String> ENV =
            Key.optional("env", Texts.VARIABLE, "environment variable that holds it");
    private static final Key<String> FILE =
            Key.optional("file", TextForm.LINE.neverShown(), "file that holds it and nothing else");

    static final Block BLOCK = Block.of(ENV, FILE).exactlyOneOf("env", "file");

    private static final int LARGEST_FILE = 4096;

    private final Optional<Source> source;

    private SecretReader(Optional<Source> source) {
        this.source = source;
    }

    /** Fetches every secret and reports those that are missing. */
    static SecretReader from(Path folder, Function<String, Optional<String>> environment) {
        return new SecretReader(Optional.of(new Source(folder, environment)));
    }

    /** Checks how a secret is written and fetches none. */
    static SecretReader fetchingNone() {
        return new SecretReader(Optional.empty());
    }

    /** False for a text that was archived: what it names may be gone by now. */
    boolean fetches() {
        return source.isPresent();
    }

    /** Where relative files are taken from; empty when none is read. */
    Optional<Path> folder() {
        return source.map(Source::folder);
    }

    /** Certificates stand in files beside the secrets, and are read when these are fetched. */
    TrustReader trust() {
        return new TrustReader(source.map(Source::folder));
    }

    Optional<Secret> read(Cursor at) {
        boolean isPlace = at.isMapping() && BLOCK.names().containsAll(names(at));
        if (!isPlace) {
            at.wrong(
                    "only the place of a secret can stand here, never the secret itself",
                    "write { env: NAME } with the secret in that environment variable,"
                            + " or { file: /path } with the secret in that file");
            return Optional.empty();
        }
        Fields fields = Fields.of(at, BLOCK);
        if (!fields.isWhole() || source.isEmpty()) {
            return Optional.empty();
        }
        Optional<Secret> fromVariable =
                fields.maybe(ENV).flatMap(name -> variable(fields.at("env").orElseThrow(), name));
        return fromVariable.or(
                () -> fields.maybe(FILE).flatMap(f -> file(fields.at("file").orElseThrow(), f)));
    }

    private static List<String> names(Cursor at) {
        return at.children().stream().map(Cursor.Child::name).toList();
    }

    private Optional<Secret> variable(Cursor at, String name) {
        Optional<String> value = source.orElseThrow().environment().apply(name);
        if (value.isEmpty() || value.get().isEmpty()) {
            at.wrong(
                    "the environment variable named here is "
                            + (value.isEmpty() ? "not set" : "empty"),
                    "set it where leat is started, for a service in its unit file");
            return Optional.empty();
        }
        return value.map(Secret::new);
    }

    private Optional<Secret> file(Cursor at, String name) {
        String remedy = "one line with the secret, readable by the user that leat runs as";
        try {
            Path path = source.orElseThrow().folder().resolve(name);
            String value = text(new GivenFile(path).bytes(LARGEST_FILE)).stripTrailing();
            if (value.isEmpty() || value.lines().count() > 1) {
                at.wrong("the file named here does not hold one line", remedy);
                return Optional.empty();
            }
            Exposure.of(path)
                    .ifPresent(
                            found ->
                                    at.doubtful(
                                            "others can read " + path + ": mode " + found.mode(),
                                            found.remedy()));
            return Optional.of(new Secret(value));
        } catch (UnfitFile e) {
            at.wrong("the file named here cannot be used: " + e.getMessage(), remedy);
        } catch (CharacterCodingException e) {
            at.wrong("the file named here is not UTF-8 text", remedy);
        } catch (InvalidPathException e) {
            at.wrong("there can be no file of the name that stands here", remedy);
        }
        return Optional.empty();
    }

    private static String text(byte[] bytes) throws CharacterCodingException {
        return StandardCharsets.UTF_8.newDecoder().decode(ByteBuffer.wrap(bytes)).toString();
    }

    /**
     * Where secrets are.
     *
     * @param folder relative files are taken from here
     * @param environment environment variables by name
     */
    private record Source(Path folder, Function<String, Optional<String>> environment) {
        Source {
            requireNonNull(folder, "folder");
            requireNonNull(environment, "environment");
        }
    }
}
