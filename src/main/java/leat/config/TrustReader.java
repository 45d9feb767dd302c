package leat.config;

import static java.util.Objects.requireNonNull;

import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.security.cert.CertificateException;
import java.util.Optional;
import leat.files.UnfitFile;
import leat.tls.Trust;

/** Reads the certificates that a {@code ca_file} names. */
final class TrustReader {

    static final Key<String> CA_FILE =
            Key.optional(
                    "ca_file",
                    TextForm.LINE,
                    "PEM file with the certificates of those whose signature under the server's"
                            + " certificate counts; left out, those that Java trusts");

    private static final String REMEDY =
            "a PEM file with one or more certificates, readable by the user that leat runs as";

    private final Optional<Path> folder;

    /**
     * @param folder relative files are taken from here; empty to read no file
     */
    TrustReader(Optional<Path> folder) {
        this.folder = requireNonNull(folder, "folder");
    }

    /** Reports a file that is of no use; the answer then does not count. */
    Trust read(Fields fields) {
        Optional<String> name = fields.maybe(CA_FILE);
        if (name.isEmpty() || folder.isEmpty()) {
            return Trust.OF_THE_RUNTIME;
        }
        Cursor at = fields.at("ca_file").orElseThrow();
        try {
            return Trust.read(folder.get().resolve(name.get()));
        } catch (CertificateException e) {
            at.wrong("the file " + Cursor.quote(name.get()) + " holds no certificate", REMEDY);
        } catch (UnfitFile e) {
            at.wrong(
                    "the file " + Cursor.quote(name.get()) + " cannot be used: " + e.getMessage(),
                    REMEDY);
        } catch (InvalidPathException e) {
            at.wrong("there can be no file " + Cursor.quote(name.get()), REMEDY);
        }
        return Trust.OF_THE_RUNTIME;
    }
}
