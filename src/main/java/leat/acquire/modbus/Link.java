package leat.acquire.modbus;

import java.io.IOException;
import java.net.ConnectException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.StandardSocketOptions;
import java.nio.ByteBuffer;
import java.nio.channels.SelectionKey;
import java.nio.channels.SocketChannel;
import java.nio.channels.UnsupportedAddressTypeException;
import java.time.Duration;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import leat.acquire.modbus.LinkFault.Failure;
import leat.words.FaultWords;

/**
 * One TCP connection to one device, of which nothing waits: whoever polls calls {@link #progress}
 * when something has come, and {@link #expire} when nothing has come in time.
 *
 * <p>A reply counts only if it came after its question. The socket is looked into before each
 * question; bytes found there close the connection. What arrives between that look and the question
 * cannot carry the question's transaction id, but by chance. Each request is sent once, and every
 * exchange that does not end in a reply closes the connection: no late byte can survive it.
 *
 * <p>Confined to the polling thread. The look-up of a host name has a thread of its own.
 */
final class Link {

    /** What {@link #progress} has brought. */
    enum Event {
        NOTHING,
        CONNECTED,
        ANSWERED
    }

    private enum State {
        CLOSED,
        LOOKING_UP,
        CONNECTING,
        IDLE,
        WAITING
    }

    private final String host;
    private final int port;
    private final Duration timeout;
    private final Lookout lookout;
    private final TransactionIds ids = new TransactionIds();
    private final ByteBuffer question = ByteBuffer.allocateDirect(Frames.QUESTION_BYTES);

    /** One byte more than an answer can have, so that what follows it is seen. */
    private final ByteBuffer reply = ByteBuffer.allocateDirect(Frames.LONGEST_BYTES + 1);

    private State state = State.CLOSED;
    private Optional<CompletableFuture<InetAddress>> address = Optional.empty();
    private SocketChannel channel;
    private long expiryNanos;
    private boolean answered;
    private boolean moreThanAsked;
    private int transactionId;
    private Block asked;
    private int[] words = {};

    /**
     * @param timeout for the look-up, for connecting, and for each reply
     */
    Link(String host, int port, Duration timeout, Lookout lookout) {
        this.host = host;
        this.port = port;
        this.timeout = timeout;
        this.lookout = lookout;
    }

    String endpoint() {
        return host + ":" + port;
    }

    /** True when a question can be asked. */
    boolean isOpen() {
        return state == State.IDLE;
    }

    /** True when this very connection has brought a reply before. */
    boolean hasAnswered() {
        return answered;
    }

    /** What the device sent for the last question. */
    int[] words() {
        return words;
    }

    /** When {@link #expire} is due; without meaning when nothing is waited for. */
    long expiryNanos() {
        return expiryNanos;
    }

    /** Begins to connect. The closed link is open when {@link #progress} says so. */
    Event open() throws LinkFault {
        waitAs(State.LOOKING_UP);
        if (address.isEmpty()) {
            address = Optional.of(lookout.lookUp(host));
        }
        return lookedUp();
    }

    /** Asks for one block; {@link #progress} brings the answer. */
    void ask(Block block) throws LinkFault {
        lookForUnasked();
        transactionId = ids.next();
        asked = block;
        question.clear();
        Frames.question(question, transactionId, block);
        question.flip();
        try {
            channel.write(question);
        } catch (IOException e) {
            throw hungUp();
        }
        if (question.hasRemaining()) {
            throw closing(Failure.NO_REPLY, "connected, but it takes no request");
        }
        reply.clear();
        waitAs(State.WAITING);
    }

    /**
     * Takes what has come, if anything has. A {@link LinkFault} leaves the link closed, a refusal
     * leaves it open.
     */
    Event progress() throws LinkFault, DeviceRefused {
        return switch (state) {
            case LOOKING_UP -> lookedUp();
            case CONNECTING -> connected();
            case IDLE -> lookForUnasked();
            case WAITING -> answered();
            case CLOSED -> Event.NOTHING;
        };
    }

    /** Closes the connection, for what was waited for has not come in time. */
    LinkFault expire() {
        String within = Long.toString(Math.max(1, timeout.toMillis()));
        return switch (state) {
            case LOOKING_UP ->
                    closing(
                            Failure.UNKNOWN_HOST,
                            FaultWords.english("modbus.unresolved-within", within));
            case CONNECTING ->
                    closing(
                            Failure.UNREACHABLE,
                            FaultWords.english("modbus.unconnected-within", within));
            default -> closing(Failure.NO_REPLY, FaultWords.english("modbus.no-reply", within));
        };
    }

    /** Closes the connection; {@link #open} may follow. */
    void close() {
        state = State.CLOSED;
        answered = false;
        moreThanAsked = false;
        if (channel != null) {
            try {
                channel.close();
            } catch (IOException e) {
                // The descriptor is released all the same, and nobody waits for this peer's answer.
                return;
            } finally {
                channel = null;
            }
        }
    }

    private void waitAs(State next) {
        state = next;
        expiryNanos = System.nanoTime() + timeout.toNanos();
    }

    /**
     * An address serves one connection: the name may mean another by the next. One that came after
     * its time-out serves the next try, so that a slow name server is none that never answers.
     */
    private Event lookedUp() throws LinkFault {
        CompletableFuture<InetAddress> found = address.orElseThrow();
        if (!found.isDone()) {
            return Event.NOTHING;
        }
        address = Optional.empty();
        if (found.isCompletedExceptionally()) {
            throw closing(Failure.UNKNOWN_HOST, FaultWords.english("modbus.unresolved"));
        }
        waitAs(State.CONNECTING);
        try {
            channel = SocketChannel.open();
            channel.configureBlocking(false);
            channel.setOption(StandardSocketOptions.TCP_NODELAY, true);
            channel.setOption(StandardSocketOptions.SO_KEEPALIVE, true);
            lookout.watch(channel, SelectionKey.OP_CONNECT);
            if (!channel.connect(new InetSocketAddress(found.join(), port))) {
                return Event.NOTHING;
            }
        } catch (IOException e) {
            throw unconnected(e);
        } catch (UnsupportedAddressTypeException e) {
            throw closing(
                    Failure.UNREACHABLE,
                    FaultWords.english("modbus.no-ipv6", found.join().getHostAddress()));
        }
        return connected();
    }

    private Event connected() throws LinkFault {
        try {
            if (!channel.finishConnect()) {
                return Event.NOTHING;
            }
            lookout.watch(channel, SelectionKey.OP_READ);
        } catch (IOException e) {
            throw unconnected(e);
        }
        state = State.IDLE;
        return Event.CONNECTED;
    }

    private Event answered() throws LinkFault, DeviceRefused {
        int count = receive();
        if (count < 0) {
            throw hungUp();
        }
        try {
            int length = Frames.length(reply);
            if (length == 0 || reply.position() < length) {
                return Event.NOTHING;
            }
            moreThanAsked = reply.position() > length;
            state = State.IDLE;
            words = Frames.answer(reply, transactionId, asked);
        } catch (LinkFault fault) {
            close();
            throw fault;
        } catch (DeviceRefused refusal) {
            answered = true;
            throw refusal;
        }
        answered = true;
        return Event.ANSWERED;
    }

    /** Bytes that lie there now came before the next question. */
    private Event lookForUnasked() throws LinkFault {
        reply.clear();
        int count = moreThanAsked ? 1 : receive();
        if (count < 0) {
            throw hungUp();
        }
        if (count > 0) {
            close();
            throw Frames.unasked();
        }
        return Event.NOTHING;
    }

    private int receive() {
        try {
            return channel.read(reply);
        } catch (IOException e) {
            return -1;
        }
    }

    private LinkFault hungUp() {
        return closing(Failure.HUNG_UP, FaultWords.english("modbus.hung-up"));
    }

    private LinkFault unconnected(IOException why) {
        return why instanceof ConnectException
                ? closing(Failure.REFUSED, FaultWords.english("modbus.refused"))
                : closing(
                        Failure.UNREACHABLE,
                        FaultWords.english("modbus.unconnected", String.valueOf(why.getMessage())));
    }

    private LinkFault closing(Failure kind, String what) {
        close();
        return new LinkFault(kind, what);
    }
}
