package leat.acquire.modbus;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import leat.config.Point.Register;
import leat.config.Point.Table;

/**
 * The requests of one poll. Channels of one unit and table that lie close together are read in one
 * request, so that they are sampled at one moment and cost one round trip. Immutable.
 *
 * @param blocks in order of unit, table and address; every channel is in exactly one
 */
record ReadPlan(List<Block> blocks) {

    /** Unused registers worth reading along: 16 bytes cost less than a second request. */
    private static final int MAX_REGISTER_GAP = 8;

    private static final int MAX_BIT_GAP = 128;

    private static final Comparator<Tap> BY_PLACE =
            Comparator.<Tap>comparingInt(tap -> tap.register().unitId())
                    .thenComparing(tap -> tap.register().table())
                    .thenComparingInt(tap -> tap.register().address());

    ReadPlan {
        blocks = List.copyOf(blocks);
    }

    static ReadPlan of(List<Tap> taps) {
        List<Block> blocks = new ArrayList<>();
        List<Tap> run = new ArrayList<>();
        for (Tap tap : taps.stream().sorted(BY_PLACE).toList()) {
            if (!run.isEmpty() && !joins(run, tap)) {
                blocks.add(block(run));
                run.clear();
            }
            run.add(tap);
        }
        if (!run.isEmpty()) {
            blocks.add(block(run));
        }
        return new ReadPlan(blocks);
    }

    /** This plan with each channel of {@code refused} read by a request of its own. */
    ReadPlan split(Block refused) {
        List<Block> changed = new ArrayList<>();
        for (Block block : blocks) {
            if (block.equals(refused)) {
                alone(block).forEach(changed::add);
            } else {
                changed.add(block);
            }
        }
        return new ReadPlan(changed);
    }

    /** One block for each channel of {@code block}. */
    static List<Block> alone(Block block) {
        return block.taps().stream().map(tap -> block(List.of(tap))).toList();
    }

    private static boolean joins(List<Tap> run, Tap tap) {
        Register first = run.get(0).register();
        Register next = tap.register();
        if (first.unitId() != next.unitId() || first.table() != next.table()) {
            return false;
        }
        int gap = next.address() - end(run);
        int count = Math.max(end(run), next.address() + next.width()) - first.address();
        return gap <= maxGap(next.table()) && count <= Block.longest(next.table());
    }

    private static Block block(List<Tap> run) {
        Register first = run.get(0).register();
        int count = end(run) - first.address();
        return new Block(first.unitId(), first.table(), first.address(), count, run);
    }

    /** The address after the last one that the run needs. */
    private static int end(List<Tap> run) {
        int end = 0;
        for (Tap tap : run) {
            end = Math.max(end, tap.register().address() + tap.register().width());
        }
        return end;
    }

    private static int maxGap(Table table) {
        return table.isBits() ? MAX_BIT_GAP : MAX_REGISTER_GAP;
    }
}
