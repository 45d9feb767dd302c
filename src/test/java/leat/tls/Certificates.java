package leat.tls;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.security.KeyStore;
import java.security.cert.Certificate;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.TimeUnit;
import javax.net.ssl.KeyManagerFactory;
import javax.net.ssl.SSLContext;

/**
 * An authority of a test's own and the servers that it has signed for, made by the JDK's keytool.
 * Each keytool takes about a second of the processor, so what it makes is taken from the {@link
 * Stock} of this build.
 */
public final class Certificates {

    private static final String PASSWORD = "changeit";

    /** What GnuTLS reads too: it refuses the short form in which Java writes an EC key. */
    private static final String KEY = "RSA";

    private static final String AUTHORITY = "authority";
    private static final String SERVER = "it";

    private final Path folder;
    private final Stock stock;
    private final Path authority;
    private final Map<String, Server> servers = new ConcurrentHashMap<>();

    /** The authority of this build. */
    public Certificates(Path folder) throws Exception {
        this(folder, Stock.ofToday("boatyard"));
    }

    private Certificates(Path folder, Stock stock) throws Exception {
        this.folder = Files.createDirectories(folder);
        this.stock = stock;
        this.authority = folder.resolve("ca.p12");
        stock.copy("ca.p12", authority, Certificates::makeAuthority);
        writePem(caFile(), "CERTIFICATE", load(authority).getCertificate(AUTHORITY).getEncoded());
    }

    /** One that has signed nothing that {@link #Certificates(Path)} has. */
    static Certificates ofAnotherAuthority(Path folder) throws Exception {
        return new Certificates(folder, Stock.ofToday("another"));
    }

    private static void makeAuthority(Path file) throws Exception {
        keytool(
                file,
                AUTHORITY,
                "CN=Boatyard test authority",
                "-ext",
                "bc:critical=ca:true",
                "-validity",
                "3650",
                "-startdate",
                "-400d");
    }

    /** PEM, for whoever shall trust the servers. */
    public Path caFile() {
        return folder.resolve("ca.pem");
    }

    public Trust trust() throws Exception {
        return Trust.read(caFile());
    }

    /** For 127.0.0.1, and good for a year. */
    public Server good() throws Exception {
        return server("good", "ip:127.0.0.1", "-1d", 365);
    }

    /** For 127.0.0.1, but since five days over. */
    public Server expired() throws Exception {
        return server("expired", "ip:127.0.0.1", "-10d", 5);
    }

    /** Good, but for another host. */
    public Server elsewhere() throws Exception {
        return server("elsewhere", "dns:elsewhere.example.org", "-1d", 365);
    }

    private Server server(String name, String host, String start, int days) throws Exception {
        Server made = servers.get(name);
        if (made == null) {
            made = make(name, host, start, days);
            servers.put(name, made);
        }
        return made;
    }

    private Server make(String name, String host, String start, int days) throws Exception {
        Path own = Files.createTempDirectory(folder, name);
        Path store = own.resolve(name + ".p12");
        stock.copy(name + ".p12", store, file -> sign(file, name, host, start, days));
        KeyStore keys = load(store);
        return new Server(
                store,
                caFile(),
                writePem(
                        own.resolve(name + ".pem"),
                        "CERTIFICATE",
                        keys.getCertificate(SERVER).getEncoded()),
                writePem(
                        own.resolve(name + ".key"),
                        "PRIVATE KEY",
                        keys.getKey(SERVER, PASSWORD.toCharArray()).getEncoded()));
    }

    private void sign(Path file, String name, String host, String start, int days)
            throws Exception {
        Files.copy(authority, file);
        keytool(
                file,
                SERVER,
                "CN=" + name,
                "-signer",
                AUTHORITY,
                "-ext",
                "san=" + host,
                "-startdate",
                start,
                "-validity",
                Integer.toString(days));
    }

    private static Path writePem(Path file, String what, byte[] der) throws IOException {
        String text = Base64.getMimeEncoder(64, new byte[] {'\n'}).encodeToString(der);
        return Files.writeString(
                file, "-----BEGIN " + what + "-----\n" + text + "\n-----END " + what + "-----\n");
    }

    private static KeyStore load(Path store) throws GeneralSecurityException, IOException {
        KeyStore keys = KeyStore.getInstance("PKCS12");
        try (InputStream in = Files.newInputStream(store)) {
            keys.load(in, PASSWORD.toCharArray());
        }
        return keys;
    }

    /** A new key in that store, with a certificate for it. */
    private static void keytool(Path store, String alias, String who, String... more)
            throws Exception {
        List<String> command = new ArrayList<>();
        command.add(Path.of(System.getProperty("java.home"), "bin", "keytool").toString());
        command.addAll(List.of("-J-XX:TieredStopAtLevel=1", "-J-XX:+UseSerialGC"));
        for (String rounds : List.of("certPbe", "keyPbe", "mac")) {
            command.add("-J-Dkeystore.pkcs12." + rounds + "IterationCount=1"); // opened in no time
        }
        command.addAll(List.of("-genkeypair", "-keyalg", KEY, "-keysize", "2048", "-dname", who));
        command.addAll(List.of("-alias", alias, "-keystore", store.toString()));
        command.addAll(List.of("-storepass", PASSWORD, "-storetype", "PKCS12"));
        command.addAll(List.of(more));
        Path said = Files.createTempFile(store.getParent(), "keytool", ".txt");
        Process process =
                new ProcessBuilder(command)
                        .redirectErrorStream(true)
                        .redirectOutput(said.toFile())
                        .start();
        if (!process.waitFor(60, TimeUnit.SECONDS) || process.exitValue() != 0) {
            process.destroyForcibly();
            throw new IOException("keytool failed: " + Files.readString(said));
        }
    }

    /**
     * What a server shows.
     *
     * @param store its key, for a server in Java
     * @param ca who signed it, PEM
     * @param certificate PEM
     * @param key PEM, PKCS 8
     */
    public record Server(Path store, Path ca, Path certificate, Path key) {

        public SSLContext context() throws Exception {
            KeyStore keys = load(store);
            keys.deleteEntry(AUTHORITY);
            Certificate[] alone = {keys.getCertificate(SERVER)};
            char[] password = PASSWORD.toCharArray();
            keys.setKeyEntry(SERVER, keys.getKey(SERVER, password), password, alone);
            KeyManagerFactory managers =
                    KeyManagerFactory.getInstance(KeyManagerFactory.getDefaultAlgorithm());
            managers.init(keys, password);
            SSLContext context = SSLContext.getInstance("TLS");
            context.init(managers.getKeyManagers(), null, null);
            return context;
        }
    }
}
