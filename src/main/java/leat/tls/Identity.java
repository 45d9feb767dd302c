package leat.tls;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.security.Key;
import java.security.KeyFactory;
import java.security.KeyStore;
import java.security.PrivateKey;
import java.security.PublicKey;
import java.security.Signature;
import java.security.cert.Certificate;
import java.security.cert.CertificateException;
import java.security.cert.CertificateFactory;
import java.security.cert.X509Certificate;
import java.security.spec.PKCS8EncodedKeySpec;
import java.util.ArrayList;
import java.util.Base64;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.net.ssl.KeyManagerFactory;
import javax.net.ssl.SSLContext;
import leat.files.GivenFile;
import leat.files.UnfitFile;

/**
 * Who leat is to those that call it: a certificate and the key that belongs to it. Immutable.
 * Prints without its key.
 */
public final class Identity {

    private static final int LARGEST_FILE = 1 << 20;
    private static final Pattern PEM_KEY =
            Pattern.compile(
                    "-----BEGIN ([A-Z0-9 ]*)PRIVATE KEY-----([^-]*)-----END", Pattern.DOTALL);
    private static final String AS_PKCS8 = "openssl pkcs8 -topk8 -nodes -in OLD -out NEW";

    private final List<X509Certificate> chain;
    private final PrivateKey key;

    private Identity(List<X509Certificate> chain, PrivateKey key) {
        this.chain = List.copyOf(chain);
        this.key = key;
    }

    /**
     * From two PEM files.
     *
     * @param certificates leat's own first, then those above it
     * @param privateKey PKCS#8 without a password
     * @throws UnfitFile when a file cannot be read or does not hold what it should, with what to do
     */
    public static Identity ofPem(Path certificates, Path privateKey) throws UnfitFile {
        List<X509Certificate> chain = chain(new GivenFile(certificates).bytes(LARGEST_FILE));
        byte[] key = new GivenFile(privateKey).bytes(LARGEST_FILE);
        return fitting(chain, key(new String(key, StandardCharsets.ISO_8859_1), chain.get(0)));
    }

    /**
     * From a PKCS#12 file.
     *
     * @param password of the file and of the key in it
     * @throws UnfitFile when the file cannot be read or opened or holds no key, with what to do
     */
    public static Identity ofPkcs12(Path file, String password) throws UnfitFile {
        byte[] bytes = new GivenFile(file).bytes(LARGEST_FILE);
        try {
            KeyStore store = KeyStore.getInstance("PKCS12");
            store.load(new ByteArrayInputStream(bytes), password.toCharArray());
            for (String alias : Collections.list(store.aliases())) {
                Optional<Identity> found = inside(store, alias, password);
                if (found.isPresent()) {
                    return found.get();
                }
            }
            throw new UnfitFile("there is no private key in it", "export it with its key");
        } catch (UnfitFile e) {
            throw e;
        } catch (GeneralSecurityException | IOException e) {
            throw new UnfitFile(
                    "it cannot be opened as PKCS#12 with this password", "check file and password");
        }
    }

    private static Optional<Identity> inside(KeyStore store, String alias, String password)
            throws GeneralSecurityException, UnfitFile {
        Key key = store.getKey(alias, password.toCharArray());
        Certificate[] certificates = store.getCertificateChain(alias);
        if (!(key instanceof PrivateKey found) || certificates == null) {
            return Optional.empty();
        }
        List<X509Certificate> chain = new ArrayList<>();
        for (Certificate certificate : certificates) {
            chain.add((X509Certificate) certificate);
        }
        return Optional.of(fitting(chain, found));
    }

    private static List<X509Certificate> chain(byte[] pem) throws UnfitFile {
        List<X509Certificate> chain = new ArrayList<>();
        try {
            CertificateFactory.getInstance("X.509")
                    .generateCertificates(new ByteArrayInputStream(pem))
                    .forEach(each -> chain.add((X509Certificate) each));
        } catch (CertificateException e) {
            chain.clear();
        }
        if (chain.isEmpty()) {
            throw new UnfitFile("there is no certificate in it", "a PEM file with a certificate");
        }
        return chain;
    }

    private static PrivateKey key(String pem, X509Certificate certificate) throws UnfitFile {
        Matcher found = PEM_KEY.matcher(pem);
        if (!found.find()) {
            throw new UnfitFile("there is no private key in the key file", "a PEM file with one");
        }
        if (!found.group(1).isEmpty()) {
            throw new UnfitFile("the key in it has a form that leat does not read", AS_PKCS8);
        }
        try {
            byte[] bytes = Base64.getMimeDecoder().decode(found.group(2));
            return KeyFactory.getInstance(certificate.getPublicKey().getAlgorithm())
                    .generatePrivate(new PKCS8EncodedKeySpec(bytes));
        } catch (GeneralSecurityException | IllegalArgumentException e) {
            throw new UnfitFile(
                    "the key in it cannot be read as one of the kind of the certificate",
                    "the key that the certificate was made for");
        }
    }

    /** A key of another certificate would show only when the first caller comes. */
    private static Identity fitting(List<X509Certificate> chain, PrivateKey key) throws UnfitFile {
        if (!belongTogether(chain.get(0).getPublicKey(), key)) {
            throw new UnfitFile(
                    "the key does not belong to the first certificate",
                    "the key that the certificate was made for");
        }
        return new Identity(chain, key);
    }

    private static boolean belongTogether(PublicKey open, PrivateKey key) {
        try {
            Signature signature = Signature.getInstance(signing(key.getAlgorithm()));
            signature.initSign(key);
            signature.update((byte) 1);
            byte[] signed = signature.sign();
            signature.initVerify(open);
            signature.update((byte) 1);
            return signature.verify(signed);
        } catch (GeneralSecurityException e) {
            return false;
        }
    }

    private static String signing(String algorithm) {
        return switch (algorithm) {
            case "RSA" -> "SHA256withRSA";
            case "EC" -> "SHA256withECDSA";
            default -> algorithm;
        };
    }

    /** What a server makes its connections by. */
    public SSLContext context() {
        try {
            char[] inMemory = new char[0];
            KeyStore store = KeyStore.getInstance("PKCS12");
            store.load(null, null);
            store.setKeyEntry("leat", key, inMemory, chain.toArray(Certificate[]::new));
            KeyManagerFactory keys =
                    KeyManagerFactory.getInstance(KeyManagerFactory.getDefaultAlgorithm());
            keys.init(store, inMemory);
            SSLContext context = SSLContext.getInstance("TLS");
            context.init(keys.getKeyManagers(), null, null);
            return context;
        } catch (GeneralSecurityException | IOException e) {
            throw new IllegalStateException("this Java runtime speaks no TLS", e);
        }
    }

    @Override
    public String toString() {
        return chain.get(0).getSubjectX500Principal().getName();
    }
}
