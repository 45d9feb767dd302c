package leat.mqtt;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.SocketTimeoutException;
import java.util.concurrent.TimeUnit;
import org.eclipse.paho.client.mqttv3.MqttException;
import org.eclipse.paho.client.mqttv3.internal.NetworkModule;

/**
 * Lets a connection end no sooner than half a second after it began. The library (1.2.5) starts its
 * reading thread and then asks every 100 ms whether it runs; a connection that breaks in between is
 * never seen running, and the thread that asks is left behind for ever. A port that takes a call
 * and hangs up, as one in front of a stopped broker does, would cost a thread at every try.
 */
final class PatientModule implements NetworkModule {

    private static final long SETTLED_NANOS = TimeUnit.MILLISECONDS.toNanos(500);

    private final NetworkModule module;
    private volatile long startedNanos;

    PatientModule(NetworkModule module) {
        this.module = module;
    }

    @Override
    public void start() throws IOException, MqttException {
        module.start();
        startedNanos = System.nanoTime();
    }

    @Override
    public InputStream getInputStream() throws IOException {
        return new Patient(module.getInputStream());
    }

    @Override
    public OutputStream getOutputStream() throws IOException {
        return module.getOutputStream();
    }

    @Override
    public void stop() throws IOException {
        module.stop();
    }

    @Override
    public String getServerURI() {
        return module.getServerURI();
    }

    /** Waits until half a second has passed since {@code beganNanos} of the system's clock. */
    static void settle(long beganNanos) {
        long left = SETTLED_NANOS - (System.nanoTime() - beganNanos);
        if (left > 0) {
            try {
                TimeUnit.NANOSECONDS.sleep(left);
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
            }
        }
    }

    private final class Patient extends InputStream {
        private final InputStream in;

        Patient(InputStream in) {
            this.in = in;
        }

        @Override
        public int read() throws IOException {
            byte[] one = new byte[1];
            return read(one, 0, 1) < 0 ? -1 : one[0] & 0xff;
        }

        @Override
        public int read(byte[] bytes, int offset, int length) throws IOException {
            try {
                int count = in.read(bytes, offset, length);
                if (count < 0) {
                    settle(startedNanos);
                }
                return count;
            } catch (SocketTimeoutException e) {
                throw e;
            } catch (IOException e) {
                settle(startedNanos);
                throw e;
            }
        }

        @Override
        public int available() throws IOException {
            return in.available();
        }

        @Override
        public void close() throws IOException {
            in.close();
        }
    }
}
