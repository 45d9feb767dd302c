package leat.wire;

import java.util.Arrays;

/** Where the fields of one part stand in the bytes. Thread-confined. */
final class Fields {

    private int[] names = new int[16];
    private int[] positions = new int[16];
    private int count;
    private int next;
    private int found;

    /** Looks over the fields from here until {@code end}, of which each must end in the part. */
    Fields(In in, int end, int knownNames) {
        while (in.position() < end) {
            if (count == names.length) {
                names = Arrays.copyOf(names, 2 * count);
                positions = Arrays.copyOf(positions, 2 * count);
            }
            names[count] = In.most(in.count(), knownNames - 1);
            positions[count++] = in.position();
            in.skip();
        }
        if (in.position() != end) {
            throw new IllegalArgumentException(
                    "state is damaged: a field goes beyond its part at byte " + end);
        }
    }

    /** Where the value stands; -1 when there is none. Those asked for in their order cost least. */
    int find(String name, String[] table) {
        for (int tried = 0; tried < count; tried++) {
            int i = next;
            next = next + 1 == count ? 0 : next + 1;
            if (table[names[i]].equals(name)) {
                found++;
                return positions[i];
            }
        }
        return -1;
    }

    /** How many nobody asked for. */
    int left() {
        return count - found;
    }
}
