package leat.acquire.modbus;

import com.ghgande.j2mod.modbus.ModbusIOException;
import com.ghgande.j2mod.modbus.io.ModbusTCPTransport;
import com.ghgande.j2mod.modbus.msg.ExceptionResponse;
import com.ghgande.j2mod.modbus.msg.ModbusRequest;
import com.ghgande.j2mod.modbus.msg.ModbusResponse;
import com.ghgande.j2mod.modbus.msg.ReadCoilsRequest;
import com.ghgande.j2mod.modbus.msg.ReadCoilsResponse;
import com.ghgande.j2mod.modbus.msg.ReadInputDiscretesRequest;
import com.ghgande.j2mod.modbus.msg.ReadInputDiscretesResponse;
import com.ghgande.j2mod.modbus.msg.ReadInputRegistersRequest;
import com.ghgande.j2mod.modbus.msg.ReadInputRegistersResponse;
import com.ghgande.j2mod.modbus.msg.ReadMultipleRegistersRequest;
import com.ghgande.j2mod.modbus.msg.ReadMultipleRegistersResponse;
import com.ghgande.j2mod.modbus.util.BitVector;
import java.io.IOException;
import java.net.ConnectException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.SocketTimeoutException;
import java.net.UnknownHostException;
import java.time.Duration;
import java.util.function.IntUnaryOperator;

/**
 * One TCP connection to one device. The library only frames requests and parses replies here; its
 * own transaction layer is left out on purpose, because after one time-out it takes the late reply
 * for the answer to the next request. This class therefore sends each request once, under a
 * transaction id that nobody can tell before, compares id, unit, table and length of the reply, and
 * closes the connection after every exchange that did not end in a reply: no late byte can survive
 * it. Bytes that lie there before a question close it too.
 *
 * <p>Confined to the polling thread, except {@link #abort} and {@link #isAborted}.
 */
final class Link {

    private static final int EXCEPTION_BIT = 0x80;

    private final String host;
    private final int port;
    private final Duration timeout;
    private final TransactionIds ids = new TransactionIds();
    private boolean answered;

    private ModbusTCPTransport transport;
    private volatile DeadlineSocket socket;
    private volatile boolean aborted;

    Link(String host, int port, Duration timeout) {
        this.host = host;
        this.port = port;
        this.timeout = timeout;
    }

    String endpoint() {
        return host + ":" + port;
    }

    boolean isOpen() {
        return socket != null;
    }

    /** True when this very connection has brought a reply before. */
    boolean hasAnswered() {
        return answered;
    }

    boolean isAborted() {
        return aborted;
    }

    /** Connects; takes no longer than the time-out, but for the look-up of a host name. */
    void open() throws LinkFault {
        close();
        try {
            InetAddress address = InetAddress.getByName(host);
            socket = new DeadlineSocket();
            if (aborted) {
                throw new IOException("closed");
            }
            socket.setTcpNoDelay(true);
            socket.setKeepAlive(true);
            socket.connect(new InetSocketAddress(address, port), millis());
            transport = new ModbusTCPTransport(socket);
        } catch (UnknownHostException e) {
            throw closing(LinkFault.Failure.UNKNOWN_HOST, "the host name cannot be resolved");
        } catch (ConnectException e) {
            throw closing(LinkFault.Failure.REFUSED, "connection refused");
        } catch (SocketTimeoutException e) {
            String what = "no connection within " + millis() + " ms";
            throw closing(LinkFault.Failure.UNREACHABLE, what);
        } catch (IOException | IllegalStateException e) {
            throw closing(LinkFault.Failure.UNREACHABLE, "no connection: " + e.getMessage());
        }
    }

    /**
     * Reads one block. A {@link LinkFault} leaves the link closed, a refusal leaves it open.
     *
     * @return as many words as the block counts: registers 0 to 65535, or bits 0 and 1
     */
    int[] read(Block block) throws LinkFault, DeviceRefused {
        ModbusRequest request = request(block);
        int transactionId = ids.next();
        request.setTransactionID(transactionId);
        request.setUnitID(block.unitId());
        ModbusResponse response = exchange(request);
        if (response.getProtocolID() != 0) {
            throw malformed("it is of no Modbus protocol");
        }
        if (response.getTransactionID() != transactionId) {
            throw unasked();
        }
        if (response.getUnitID() != block.unitId()) {
            throw malformed("it comes from unit " + response.getUnitID());
        }
        if ((response.getFunctionCode() & ~EXCEPTION_BIT) != request.getFunctionCode()) {
            throw malformed("it answers function " + response.getFunctionCode());
        }
        answered = true;
        if (response instanceof ExceptionResponse refusal) {
            throw new DeviceRefused(refusal.getExceptionCode());
        }
        return words(block, response);
    }

    private ModbusResponse exchange(ModbusRequest request) throws LinkFault {
        try {
            if (socket.holdsUnasked()) {
                throw unasked();
            }
            socket.allow(timeout.toNanos());
            transport.writeRequest(request);
        } catch (IOException | ModbusIOException e) {
            throw hungUp();
        }
        try {
            return transport.readResponse();
        } catch (ModbusIOException e) {
            throw failure();
        }
    }

    /** Closes the connection; {@link #open} may follow. */
    void close() {
        DeadlineSocket open = socket;
        socket = null;
        answered = false;
        closeQuietly(open);
    }

    /** Closes the connection for good and ends any wait for it. Callable from any thread. */
    void abort() {
        aborted = true;
        closeQuietly(socket);
    }

    private static void closeQuietly(DeadlineSocket socket) {
        if (socket != null) {
            try {
                socket.close();
            } catch (IOException e) {
                // The descriptor is released all the same, and nobody waits for this peer's answer.
                return;
            }
        }
    }

    private static ModbusRequest request(Block block) {
        return switch (block.table()) {
            case COIL -> new ReadCoilsRequest(block.address(), block.count());
            case DISCRETE_INPUT -> new ReadInputDiscretesRequest(block.address(), block.count());
            case HOLDING_REGISTER ->
                    new ReadMultipleRegistersRequest(block.address(), block.count());
            case INPUT_REGISTER -> new ReadInputRegistersRequest(block.address(), block.count());
        };
    }

    private int[] words(Block block, ModbusResponse response) throws LinkFault {
        return switch (block.table()) {
            case COIL -> bits(block, ((ReadCoilsResponse) response).getCoils());
            case DISCRETE_INPUT ->
                    bits(block, ((ReadInputDiscretesResponse) response).getDiscretes());
            case HOLDING_REGISTER -> {
                var registers = (ReadMultipleRegistersResponse) response;
                yield registers(block, registers.getByteCount(), registers::getRegisterValue);
            }
            case INPUT_REGISTER -> {
                var registers = (ReadInputRegistersResponse) response;
                yield registers(block, registers.getByteCount(), registers::getRegisterValue);
            }
        };
    }

    private int[] bits(Block block, BitVector bits) throws LinkFault {
        if (bits.byteSize() != (block.count() + 7) / 8) {
            throw malformed(bits.byteSize() + " bytes for " + block.count() + " bits");
        }
        int[] words = new int[block.count()];
        for (int i = 0; i < words.length; i++) {
            words[i] = bits.getBit(i) ? 1 : 0;
        }
        return words;
    }

    private int[] registers(Block block, int bytes, IntUnaryOperator value) throws LinkFault {
        if (bytes != 2 * block.count()) {
            throw malformed(bytes + " bytes for " + block.count() + " registers");
        }
        int[] words = new int[block.count()];
        for (int i = 0; i < words.length; i++) {
            words[i] = value.applyAsInt(i) & 0xffff;
        }
        return words;
    }

    private LinkFault failure() {
        return switch (socket.end()) {
            case TIME_OUT ->
                    closing(
                            LinkFault.Failure.NO_REPLY,
                            "connected, but no whole reply within " + millis() + " ms");
            case CLOSED -> hungUp();
            case NONE -> malformed("it is no Modbus frame");
        };
    }

    private LinkFault hungUp() {
        return closing(LinkFault.Failure.HUNG_UP, "the other side closed the connection");
    }

    /** Before the question, or by its transaction id an answer to none that was asked last. */
    private LinkFault unasked() {
        return closing(LinkFault.Failure.UNASKED, "it sent something that nobody had asked for");
    }

    private LinkFault malformed(String why) {
        return closing(LinkFault.Failure.MALFORMED, "the reply makes no sense: " + why);
    }

    private LinkFault closing(LinkFault.Failure kind, String what) {
        close();
        return new LinkFault(kind, what);
    }

    private int millis() {
        return (int) Math.max(1, timeout.toMillis());
    }
}
