package leat.acquire.modbus;

import static java.util.Objects.requireNonNull;

import java.io.IOException;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import leat.config.Point.Table;

/**
 * Looks at the registers of a device of which nothing is known yet: first which of them there are,
 * then what stands in them, some times over. One connection, one question at a time, with a pause
 * after each: a device that others poll is hardly disturbed.
 *
 * <p>Thread-confined.
 */
public final class RegisterSurvey {

    /** What one look may read of each table. */
    public static final int MOST = 64;

    /** So often in one look a new connection is tried. */
    private static final int MOST_FAULTS = 3;

    private final Aim aim;
    private final Pace pace;
    private final Map<Block, List<List<Integer>>> reads = new LinkedHashMap<>();
    private final List<Surveyed.Refusal> refusals = new ArrayList<>();
    private int requests;
    private int faults;
    private Optional<String> fault = Optional.empty();

    /**
     * What is looked at.
     *
     * @param host name or address of the device
     * @param port TCP port
     * @param unitId 0 to 255
     * @param tables of registers
     * @param from first address
     * @param to last address, at most {@link #MOST} from the first on
     * @param timeout for connecting and for each reply
     */
    public record Aim(
            String host,
            int port,
            int unitId,
            List<Table> tables,
            int from,
            int to,
            Duration timeout) {
        public Aim {
            requireNonNull(host, "host");
            requireNonNull(timeout, "timeout");
            tables = List.copyOf(tables);
            if (from < 0 || to > 0xffff || to < from || to - from >= MOST) {
                throw new IllegalArgumentException("addresses " + from + " to " + to);
            }
        }
    }

    /**
     * How fast.
     *
     * @param afterRequest pause after each request
     * @param betweenReads from the end of one read to the next
     * @param reads how often everything is read
     */
    public record Pace(Duration afterRequest, Duration betweenReads, int reads) {

        /** At most twenty requests a second, and each register twice a second. */
        public static Pace polite(Duration inAll) {
            int reads = (int) Math.max(2, inAll.toMillis() / 500);
            return new Pace(Duration.ofMillis(50), Duration.ofMillis(450), reads);
        }
    }

    /** This very exchange brought nothing, and a further one will not either. */
    private static final class Ended extends Exception {
        private static final long serialVersionUID = 1L;
    }

    public RegisterSurvey(Aim aim, Pace pace) {
        this.aim = requireNonNull(aim, "aim");
        this.pace = requireNonNull(pace, "pace");
    }

    /**
     * Looks. Whatever the device does, this returns; what has come before a fault is kept.
     *
     * @throws IOException when this computer gives no socket
     */
    public Surveyed look() throws IOException, InterruptedException {
        try (Enquiry enquiry = new Enquiry(aim.host(), aim.port(), aim.timeout())) {
            try {
                for (Table table : aim.tables()) {
                    find(enquiry, block(table, aim.from(), aim.to()));
                    join(enquiry, table);
                }
                for (int i = 1; i < pace.reads() && !reads.isEmpty(); i++) {
                    Thread.sleep(pace.betweenReads().toMillis());
                    readAgain(enquiry);
                }
            } catch (Ended e) {
                // why stands in fault
            }
        }
        return new Surveyed(strips(), joined(), fault, requests);
    }

    private Block block(Table table, int from, int to) {
        return new Block(aim.unitId(), table, from, to - from + 1, List.of());
    }

    /** Reads a block, or what of it the device has: a refused one is halved. */
    private void find(Enquiry enquiry, Block block)
            throws IOException, InterruptedException, Ended {
        try {
            keep(block, ask(enquiry, block));
        } catch (DeviceRefused refused) {
            int last = block.address() + block.count() - 1;
            if (!refused.mayBeTheExtent() || block.count() == 1) {
                refusals.add(
                        new Surveyed.Refusal(
                                block.table(),
                                block.address(),
                                last,
                                refused.code(),
                                refused.words()));
                return;
            }
            int middle = block.address() + block.count() / 2;
            find(enquiry, block(block.table(), block.address(), middle - 1));
            find(enquiry, block(block.table(), middle, last));
        }
    }

    /** Neighbouring blocks that the device also gives at once are one from here on. */
    private void join(Enquiry enquiry, Table table)
            throws IOException, InterruptedException, Ended {
        List<Block> found = reads.keySet().stream().filter(b -> b.table() == table).toList();
        int first = 0;
        for (int i = 0; i < found.size(); i++) {
            int end = found.get(i).address() + found.get(i).count();
            if (i + 1 == found.size() || found.get(i + 1).address() != end) {
                if (i > first) {
                    join(enquiry, found.subList(first, i + 1));
                }
                first = i + 1;
            }
        }
    }

    private void join(Enquiry enquiry, List<Block> run)
            throws IOException, InterruptedException, Ended {
        Block last = run.get(run.size() - 1);
        Block whole = block(last.table(), run.get(0).address(), last.address() + last.count() - 1);
        try {
            List<Integer> words = ask(enquiry, whole);
            run.forEach(reads::remove);
            keep(whole, words);
        } catch (DeviceRefused refused) {
            return; // then it is read in pieces
        }
    }

    /** A refusal of what was there before is a gap of this read. */
    private void readAgain(Enquiry enquiry) throws IOException, InterruptedException, Ended {
        for (Block block : List.copyOf(reads.keySet())) {
            try {
                keep(block, ask(enquiry, block));
            } catch (DeviceRefused refused) {
                continue;
            }
        }
    }

    private void keep(Block block, List<Integer> words) {
        reads.computeIfAbsent(block, b -> new ArrayList<>()).add(words);
    }

    /** A question that fails is asked once more over a new connection, a few times in all. */
    private List<Integer> ask(Enquiry enquiry, Block block)
            throws IOException, InterruptedException, Ended, DeviceRefused {
        while (true) {
            try {
                requests++;
                return Arrays.stream(enquiry.ask(block)).boxed().toList();
            } catch (LinkFault e) {
                faults++;
                if (faults == MOST_FAULTS || e.isBeforeConnected()) {
                    fault = Optional.of(enquiry.endpoint() + ": " + e.words());
                    throw new Ended();
                }
            } finally {
                Thread.sleep(pace.afterRequest().toMillis());
            }
        }
    }

    private List<RegisterStrip> strips() {
        return reads.entrySet().stream()
                .map(e -> new RegisterStrip(e.getKey().table(), e.getKey().address(), e.getValue()))
                .toList();
    }

    private List<Surveyed.Refusal> joined() {
        List<Surveyed.Refusal> joined = new ArrayList<>();
        for (Surveyed.Refusal next : refusals) {
            int last = joined.size() - 1;
            if (last >= 0 && joined.get(last).isFollowedBy(next)) {
                joined.set(last, joined.get(last).with(next));
            } else {
                joined.add(next);
            }
        }
        return joined;
    }
}
