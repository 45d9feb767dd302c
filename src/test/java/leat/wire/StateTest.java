package leat.wire;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.OptionalLong;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Consumer;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What one walk writes down, the same walk takes up bit by bit. */
class StateTest {

    private enum Colour {
        RED,
        GREEN,
        BLUE
    }

    private sealed interface Shape permits Circle, Box {}

    private record Circle(double radius) implements Shape {}

    private record Box(int width, int height, Optional<Colour> colour) implements Shape {
        Box {
            if (width < 0) {
                throw new IllegalArgumentException("a width of " + width);
            }
        }
    }

    private record All(
            boolean yes,
            int small,
            long large,
            double real,
            String text,
            Colour colour,
            Optional<Shape> shape,
            OptionalDouble maybeReal,
            OptionalLong maybeLong,
            OptionalInt maybeInt,
            List<Long> longs,
            List<Shape> shapes,
            Set<Colour> colours,
            Map<Colour, Double> byColour,
            Map<String, Box> byName,
            Box box) {}

    /** One with a state: every kind of field, and a part with the same names. */
    private static final class Thing {
        private boolean yes;
        private int small;
        private long large;
        private double real;
        private String text = "";
        private Colour colour = Colour.RED;
        private long[] times = {};
        private double[] reals = {};
        private Optional<All> all = Optional.empty();
        private List<Shape> shapes = List.of();
        private Map<String, Box> byName = Map.of();
        private Map<Colour, String> byColour = Map.of();
        private Optional<Thing> part = Optional.empty();

        void keep(State state) {
            yes = state.keep("yes", yes);
            small = state.keep("small", small);
            large = state.keep("large", large);
            real = state.keep("real", real);
            text = state.keep("text", text);
            colour = state.keep("colour", colour);
            times = state.keep("times", times);
            reals = state.keep("reals", reals);
            all = state.keep("all", All.class, all);
            shapes = state.keep("shapes", Shape.class, shapes);
            byName = state.keep("by-name", Box.class, byName);
            byColour = state.keep("by-colour", Colour.class, String.class, byColour);
            part.ifPresent(p -> state.part("part", p::keep));
        }

        List<Object> fields() {
            return List.of(
                    yes,
                    small,
                    large,
                    bits(real),
                    text,
                    colour,
                    LongStream.of(times).boxed().toList(),
                    Arrays.stream(reals).mapToObj(StateTest::bits).toList(),
                    all,
                    shapes,
                    byName,
                    List.copyOf(byName.keySet()),
                    byColour,
                    part.map(Thing::fields));
        }

        static Thing of(Random random, int depth) {
            Thing thing = new Thing();
            thing.yes = random.nextBoolean();
            thing.small = (int) any(random);
            thing.large = any(random);
            thing.real = real(random);
            thing.text = text(random);
            thing.colour = Colour.values()[random.nextInt(3)];
            thing.times = random.longs(random.nextInt(20)).map(l -> any(random)).toArray();
            thing.reals = random.doubles(random.nextInt(20)).map(d -> real(random)).toArray();
            thing.all = random.nextInt(4) == 0 ? Optional.empty() : Optional.of(all(random));
            thing.shapes = shapes(random);
            thing.byName = new TreeMap<>(Map.of(text(random), box(random), "b", box(random)));
            thing.byColour = Map.of(Colour.BLUE, text(random), Colour.RED, text(random));
            thing.part = depth == 0 ? Optional.empty() : Optional.of(of(random, depth - 1));
            return thing;
        }

        /** A fresh one of the same parts. */
        Thing fresh() {
            Thing fresh = new Thing();
            fresh.part = part.map(Thing::fresh);
            return fresh;
        }
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20})
    void anything_that_has_a_state_comes_back_the_very_same(long seed) {
        Thing thing = Thing.of(new Random(seed), 3);
        byte[] bytes = StateBytes.of(1, thing::keep);
        Thing again = thing.fresh();

        int passedOver = StateBytes.into(1, bytes, again::keep);

        assertThat(again.fields()).isEqualTo(thing.fields());
        assertThat(StateBytes.of(1, again::keep)).isEqualTo(bytes);
        assertThat(passedOver).isZero();
    }

    @Test
    void a_double_keeps_every_bit() {
        double[] strange = {
            -0.0,
            0.0,
            1,
            -1e15,
            1e300,
            Double.NaN,
            Double.longBitsToDouble(0x7ff8_dead_beef_0001L),
            Double.MIN_VALUE,
            Double.NEGATIVE_INFINITY,
            Long.MIN_VALUE,
            Long.MAX_VALUE
        };
        for (double value : strange) {
            Thing thing = new Thing();
            thing.real = value;
            thing.reals = new double[] {value};

            Thing again = copy(thing);

            assertThat(bits(again.real)).isEqualTo(bits(value));
            assertThat(bits(again.reals[0])).isEqualTo(bits(value));
        }
    }

    @Test
    void even_times_take_a_byte_each() {
        Thing thing = new Thing();
        thing.times =
                LongStream.range(0, 1000).map(i -> 1_767_592_800_000_000L + 50_000 * i).toArray();

        byte[] bytes = StateBytes.of(1, thing::keep);

        assertThat(bytes.length).isLessThan(StateBytes.of(1, new Thing()::keep).length + 1020);
        assertThat(copy(thing).times).isEqualTo(thing.times);
    }

    @Test
    void a_field_that_the_stored_state_lacks_stays_as_it_is() {
        byte[] bytes = StateBytes.of(1, state -> state.keep("known", 5));
        List<Object> kept = new ArrayList<>();

        int passedOver =
                StateBytes.into(
                        1,
                        bytes,
                        state -> {
                            kept.add(state.keep("new", 7L));
                            kept.add(state.keep("known", 0));
                            state.part("newer", part -> kept.add("walked"));
                            kept.add(state.keep("colour", Colour.BLUE));
                            kept.add(state.keep("shape", Shape.class, Optional.empty()));
                        });

        assertThat(kept).containsExactly(7L, 5, Colour.BLUE, Optional.empty());
        assertThat(passedOver).isZero();
    }

    @Test
    void a_stored_field_that_nobody_asks_for_is_passed_over_and_counted() {
        Thing thing = Thing.of(new Random(5), 1);
        byte[] bytes =
                StateBytes.of(
                        1,
                        state -> {
                            state.part("whole-part", thing::keep);
                            state.keep("before", 1);
                            state.part("part", part -> part.keep("inside", "text"));
                            state.keep("after", 2);
                        });
        List<Object> kept = new ArrayList<>();

        int passedOver =
                StateBytes.into(
                        1,
                        bytes,
                        state -> {
                            state.part("part", part -> kept.add(part.keep("other", 3)));
                            kept.add(state.keep("after", 0));
                        });

        assertThat(kept).containsExactly(3, 2);
        assertThat(passedOver).isEqualTo(3);
    }

    /** Made as by another version: a part has the form of a record. */
    @Test
    void a_record_that_lacks_what_can_be_empty_gets_it_empty() {
        byte[] bytes =
                StateBytes.of(
                        1,
                        state ->
                                state.part(
                                        "all",
                                        all -> {
                                            all.keep("colour", Colour.GREEN);
                                            all.part("box", box -> box.keep("width", 4));
                                            all.keep("ofLater", 4);
                                        }));
        Thing thing = new Thing();

        int passedOver = StateBytes.into(1, bytes, thing::keep);

        assertThat(thing.all)
                .contains(
                        new All(
                                false,
                                0,
                                0,
                                0,
                                "",
                                Colour.GREEN,
                                Optional.empty(),
                                OptionalDouble.empty(),
                                OptionalLong.empty(),
                                OptionalInt.empty(),
                                List.of(),
                                List.of(),
                                Set.of(),
                                Map.of(),
                                Map.of(),
                                new Box(4, 0, Optional.empty())));
        assertThat(passedOver).isEqualTo(1);
    }

    @Test
    void a_record_that_lacks_what_cannot_be_empty_is_refused_by_name() {
        refused(state -> state.part("all", all -> all.part("box", box -> {})), "all", "no colour");
        refused(state -> state.part("all", all -> all.keep("colour", Colour.RED)), "all", "no box");
    }

    @Test
    void what_no_longer_fits_is_refused_with_its_path() {
        refused(state -> state.keep("real", "text"), "at real", "TEXT", "REAL");
        refused(state -> state.keep("small", 1L << 40), "at small", "32-bit");
        refused(state -> state.keep("all", 4), "at all", "WHOLE", "FIELDS");
        refused(
                state -> state.part("all", all -> all.keep("colour", Thread.State.NEW)),
                "at all.colour",
                "no Colour is called NEW");
        refused(
                state ->
                        state.part(
                                "all",
                                all -> {
                                    all.keep("colour", Colour.RED);
                                    all.part("box", box -> box.keep("width", -1));
                                }),
                "at all.box",
                "Box: a width of -1");
    }

    private static void refused(Consumer<State> written, String... says) {
        byte[] bytes = StateBytes.of(1, written);
        Thing thing = new Thing();

        assertThatThrownBy(() -> StateBytes.into(1, bytes, thing::keep))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContainingAll(says);
    }

    @Test
    void a_state_of_another_format_is_refused() {
        byte[] bytes = StateBytes.of(8, new Thing()::keep);

        assertThatThrownBy(() -> StateBytes.into(9, bytes, new Thing()::keep))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("format 8")
                .hasMessageContaining("reads 9");
    }

    @Test
    void a_name_that_stands_twice_in_a_part_is_a_mistake_of_the_programmer() {
        assertThatThrownBy(
                        () ->
                                StateBytes.of(
                                        1,
                                        state -> {
                                            state.keep("same", 1);
                                            state.keep("same", 2);
                                        }))
                .isInstanceOf(IllegalStateException.class)
                .hasMessageContaining("same");
    }

    @Test
    void what_a_map_or_set_is_made_of_does_not_change_the_bytes() {
        Thing one = Thing.of(new Random(3), 0);
        Thing other = copy(one);
        one.byColour = Map.of(Colour.BLUE, "b", Colour.RED, "r", Colour.GREEN, "g");
        other.byColour = new TreeMap<>(one.byColour);

        assertThat(StateBytes.of(1, one::keep)).isEqualTo(StateBytes.of(1, other::keep));
    }

    private static Thing copy(Thing thing) {
        Thing again = thing.fresh();
        StateBytes.into(1, StateBytes.of(1, thing::keep), again::keep);
        return again;
    }

    private static All all(Random random) {
        return new All(
                random.nextBoolean(),
                (int) any(random),
                any(random),
                (double) any(random),
                text(random),
                Colour.values()[random.nextInt(3)],
                random.nextBoolean() ? Optional.of(box(random)) : Optional.empty(),
                random.nextBoolean() ? OptionalDouble.of(any(random)) : OptionalDouble.empty(),
                random.nextBoolean() ? OptionalLong.of(any(random)) : OptionalLong.empty(),
                random.nextBoolean() ? OptionalInt.of(random.nextInt()) : OptionalInt.empty(),
                random.longs(random.nextInt(5)).boxed().toList(),
                shapes(random),
                random.nextBoolean() ? Set.of(Colour.BLUE, Colour.RED) : Set.of(),
                Map.of(Colour.GREEN, 0.1, Colour.RED, 5.0),
                Map.of(text(random), box(random)),
                box(random));
    }

    private static List<Shape> shapes(Random random) {
        return random.nextBoolean()
                ? List.of()
                : List.of(new Circle(random.nextDouble()), box(random), new Circle(2));
    }

    private static Box box(Random random) {
        return new Box(
                random.nextInt(9),
                random.nextInt(),
                random.nextBoolean() ? Optional.of(Colour.BLUE) : Optional.empty());
    }

    /** Of every size, and at the ends. */
    private static long any(Random random) {
        long[] ends = {
            Long.MIN_VALUE, Long.MAX_VALUE, 0, -1, Integer.MIN_VALUE, Long.MIN_VALUE / 4
        };
        return random.nextInt(4) == 0
                ? ends[random.nextInt(ends.length)]
                : random.nextLong() >> random.nextInt(64);
    }

    private static double real(Random random) {
        return random.nextInt(3) == 0 ? any(random) : Double.longBitsToDouble(random.nextLong());
    }

    private static String text(Random random) {
        StringBuilder text = new StringBuilder();
        int length = random.nextInt(40);
        int most = random.nextBoolean() ? 128 : Character.MAX_VALUE + 1;
        for (int i = 0; i < length; i++) {
            text.append((char) random.nextInt(most));
        }
        return text.toString();
    }

    private static long bits(double value) {
        return Double.doubleToRawLongBits(value);
    }

    @Test
    void a_state_of_which_any_byte_has_changed_is_refused() {
        byte[] bytes = StateBytes.of(1, new Thing()::keep);

        for (int i = 0; i < bytes.length; i++) {
            byte[] changed = bytes.clone();
            changed[i] ^= 0x40;
            assertThatThrownBy(() -> StateBytes.into(1, changed, new Thing()::keep))
                    .as("byte %d", i)
                    .isInstanceOf(IllegalArgumentException.class)
                    .hasMessageContaining("damaged");
        }
    }
}
