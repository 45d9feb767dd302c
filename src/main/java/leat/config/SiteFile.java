package leat.config;

import static java.util.Objects.requireNonNull;

import java.nio.file.Path;
import java.util.Optional;
import java.util.function.Function;
import leat.files.GivenFile;
import leat.files.UnfitFile;

/**
 * Loads {@code site.yaml}. Whatever is wrong with it is returned as problems, all at once; nothing
 * is thrown, printed or started. Thread-safe: keeps nothing.
 */
public final class SiteFile {

    private static final int LARGEST = 4 << 20;

    private SiteFile() {}

    /**
     * Loads a file and fetches its secrets.
     *
     * @param file the file; relative paths in it are taken from its folder
     * @param environment environment variables by name, for secrets
     */
    public static LoadedSite load(Path file, Function<String, Optional<String>> environment) {
        requireNonNull(file, "file");
        requireNonNull(environment, "environment");
        Problems problems = new Problems(file.toString());
        Path folder =
                Optional.ofNullable(file.toAbsolutePath().getParent())
                        .orElse(file.toAbsolutePath());
        SiteReader reader = SiteReader.ofFile(folder, SecretReader.from(folder, environment));
        Optional<String> text =
                bytes(file, problems).flatMap(bytes -> YamlText.decode(bytes, problems));
        return text.map(t -> read(t, reader, problems))
                .orElseGet(() -> result(Optional.empty(), problems));
    }

    /**
     * Reads a text that was loaded earlier and kept, to judge anew by the channels and limits that
     * held then. No secret is fetched: connections come without a password and cannot be opened.
     * Who was told may stand there in the words of an earlier leat; then the site has no routes.
     *
     * @param text as {@link Site#text} holds it
     */
    public static LoadedSite archived(String text) {
        requireNonNull(text, "text");
        return read(text, SiteReader.ofKept(), new Problems("archived configuration"));
    }

    private static LoadedSite read(String text, SiteReader reader, Problems problems) {
        return result(
                YamlText.parse(text, problems).flatMap(root -> reader.read(root, text)), problems);
    }

    private static LoadedSite result(Optional<Site> site, Problems problems) {
        Optional<Site> clean = site.filter(s -> problems.isClean());
        return new LoadedSite(clean, problems.problems(), problems.warnings());
    }

    private static Optional<byte[]> bytes(Path file, Problems problems) {
        try {
            return Optional.of(new GivenFile(file).bytes(LARGEST));
        } catch (UnfitFile e) {
            problems.unusable(e.getMessage(), e.wanted());
            return Optional.empty();
        }
    }
}
