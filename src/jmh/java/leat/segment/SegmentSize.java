package leat.segment;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.PressureUnit;
import leat.signal.Quality;
import leat.signal.Reading;
import leat.signal.Tick;
import leat.signal.TwoPoint;

/**
 * Bytes a reading of a segment of ten minutes, and what it costs to write and read, beside the same
 * as records of eleven bytes, those by {@code zstd -19} (which must be there), and a bare loop that
 * makes the readings again from arrays. Two pressures at 20 Hz by a converter of 12 bits over 20.48
 * mA, noise of 0.8 counts, polls up to a millisecond late. Judges nothing.
 */
final class SegmentSize {

    private static final int SECONDS = 600;
    private static final int HERTZ = 20;
    private static final double NOISE_COUNTS = 0.8;
    private static final int ROUNDS = 200;

    private SegmentSize() {}

    public static void main(String[] args) throws Exception {
        Locale.setDefault(Locale.ROOT);
        System.out.printf(
                "%-22s %9s %9s %9s %11s %11s %11s%n",
                "B/reading, ns/reading", "segment", "records", "zstd -19", "write", "read", "bare");
        for (String what : List.of("rest", "at work", "a start a minute", "at work, floats")) {
            show(what, inputs(what));
        }
    }

    private static void show(String what, List<Input> inputs) throws Exception {
        long readings = inputs.stream().filter(Reading.class::isInstance).count();
        byte[] segment = Segments.write(inputs);
        byte[] records = records(inputs);
        double write = Double.MAX_VALUE;
        double read = Double.MAX_VALUE;
        double bare = Double.MAX_VALUE;
        Reading[] array = inputs.stream().filter(Reading.class::isInstance).toArray(Reading[]::new);
        long[] sum = {0};
        for (int round = 0; round < ROUNDS; round++) {
            long began = System.nanoTime();
            Segments.write(inputs);
            long wrote = System.nanoTime();
            Segments.read(segment, input -> sum[0] += input.atMicros());
            long done = System.nanoTime();
            for (Reading r : array) {
                sum[0] += Reading.good(r.channel(), r.atMicros() + 1, r.value()).atMicros();
            }
            bare = Math.min(bare, System.nanoTime() - done);
            write = Math.min(write, wrote - began);
            read = Math.min(read, done - wrote);
        }
        System.out.printf(
                "%-22s %9.3f %9.3f %9.3f %11.1f %11.1f %11.1f   (%d)%n",
                what,
                (double) segment.length / readings,
                (double) records.length / readings,
                (double) zstd(records) / readings,
                write / readings,
                read / readings,
                bare / readings,
                sum[0] & 1);
    }

    private static List<Input> inputs(String what) {
        Random random = new Random(1);
        TwoPoint loop = new TwoPoint(0, 0, 4_096, 20.48);
        TwoPoint pressure = new TwoPoint(4, 0, 20, 200);
        List<Input> inputs = new ArrayList<>();
        double base = 1_767_225_600_000d;
        for (int i = 0; i < SECONDS * HERTZ; i++) {
            double t = (double) i / HERTZ;
            long millis = (long) (base + 1_000 * t + random.nextDouble() * 1.3);
            double on =
                    switch (what) {
                        case "rest" -> 0;
                        case "at work", "at work, floats" -> 1;
                        default -> t % 60 < 45 ? 1 - Math.exp(-(t % 60)) : Math.exp(45 - t % 60);
                    };
            double stroke = on * Math.max(0, Math.sin(2 * Math.PI * t * 0.9));
            double[] psi = {
                45 - 4 * on - stroke + 0.5 * Math.sin(t / 90), on * (100 - 3 * stroke),
            };
            for (Channel channel : List.of(Channel.INLET, Channel.BOOSTED)) {
                double counts = loop.inputFor(pressure.inputFor(psi[channel.code()]));
                counts = Math.rint(counts + NOISE_COUNTS * random.nextGaussian());
                double value =
                        what.endsWith("floats")
                                ? PressureUnit.BAR.toPsi(
                                        (float)
                                                PressureUnit.BAR.fromPsi(
                                                        psi[channel.code()]
                                                                + 0.05 * random.nextGaussian()))
                                : pressure.at(loop.at(counts));
                inputs.add(new Reading(channel, millis * 1_000, value, Quality.GOOD));
            }
            if (i % HERTZ == HERTZ - 1) {
                inputs.add(new Tick(((long) base / 1_000 + i / HERTZ + 1) * 1_000_000));
            }
        }
        return inputs;
    }

    /** Time in milliseconds, counts, quality and channel. */
    private static byte[] records(List<Input> inputs) {
        ByteBuffer bytes = ByteBuffer.allocate(inputs.size() * 12);
        TwoPoint loop = new TwoPoint(0, 0, 4_096, 20.48);
        TwoPoint pressure = new TwoPoint(4, 0, 20, 200);
        for (Input input : inputs) {
            bytes.putLong(input.atMicros() / 1_000);
            if (input instanceof Reading r) {
                double counts = loop.inputFor(pressure.inputFor(r.value()));
                bytes.putShort((short) Math.round(counts)).put((byte) r.channel().code());
            } else {
                bytes.put((byte) 100);
            }
        }
        byte[] all = new byte[bytes.position()];
        bytes.flip().get(all);
        return all;
    }

    private static int zstd(byte[] bytes) throws IOException, InterruptedException {
        Path file = Files.createTempFile("segment", "");
        try {
            Files.write(file, bytes);
            Process zstd = new ProcessBuilder("zstd", "-19", "-c", "-q", file.toString()).start();
            try (InputStream out = zstd.getInputStream()) {
                return out.readAllBytes().length;
            } finally {
                zstd.waitFor();
            }
        } finally {
            Files.delete(file);
        }
    }
}
