package leat.tls;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.security.KeyStore;
import java.security.cert.CertificateException;
import java.security.cert.CertificateFactory;
import java.security.cert.X509Certificate;
import java.util.ArrayList;
import java.util.List;
import javax.net.ssl.SSLContext;
import javax.net.ssl.TrustManagerFactory;
import leat.files.GivenFile;
import leat.files.UnfitFile;

/**
 * The certificates of those whose signature under a server's certificate counts. Immutable.
 *
 * @param signers their certificates; empty for those that the Java runtime trusts
 */
public record Trust(List<X509Certificate> signers) {

    /** Whoever the Java runtime trusts. */
    public static final Trust OF_THE_RUNTIME = new Trust(List.of());

    private static final int LARGEST_FILE = 1 << 20;

    public Trust {
        signers = List.copyOf(signers);
    }

    /**
     * Reads the certificates of a PEM file.
     *
     * @throws UnfitFile when the file is not there, is no regular file, is larger than 1 MB or
     *     cannot be read
     * @throws CertificateException when it holds no certificate, or something that is none
     */
    public static Trust read(Path pem) throws UnfitFile, CertificateException {
        List<X509Certificate> signers = new ArrayList<>();
        byte[] bytes = new GivenFile(pem).bytes(LARGEST_FILE);
        CertificateFactory.getInstance("X.509")
                .generateCertificates(new ByteArrayInputStream(bytes))
                .forEach(c -> signers.add((X509Certificate) c));
        if (signers.isEmpty()) {
            throw new CertificateException("no certificate in it");
        }
        return new Trust(signers);
    }

    /** What a client makes its connections by. */
    public SSLContext context() {
        try {
            SSLContext context = SSLContext.getInstance("TLS");
            if (signers.isEmpty()) {
                context.init(null, null, null);
            } else {
                KeyStore store = KeyStore.getInstance(KeyStore.getDefaultType());
                store.load(null, null);
                for (int i = 0; i < signers.size(); i++) {
                    store.setCertificateEntry("signer-" + i, signers.get(i));
                }
                TrustManagerFactory trust =
                        TrustManagerFactory.getInstance(TrustManagerFactory.getDefaultAlgorithm());
                trust.init(store);
                context.init(null, trust.getTrustManagers(), null);
            }
            return context;
        } catch (GeneralSecurityException | IOException e) {
            throw new IllegalStateException("this Java runtime speaks no TLS", e);
        }
    }

    /** The certificates themselves would fill pages. */
    @Override
    public String toString() {
        return signers.isEmpty() ? "of the runtime" : signers.size() + " signers";
    }
}
