package leat.instruct;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import java.util.stream.IntStream;
import leat.config.InstructionSettings.Person;
import leat.interop.Peer;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class SealTest {

    private static final String WORDS =
            Signed.words(1_767_592_800L, "0123456789abcdef", "\"do\":\"ack\",\"alarm\":\"12\"");

    private final Seal seal = new Seal(Signed.TOPIC, Signed.PEOPLE);
    private final byte[] good = Signed.message("anna", Signed.ANNA, WORDS);

    @Test
    void message_signed_by_a_person_of_the_site_opens_to_what_was_signed() {
        Optional<Seal.Opened> opened = seal.open(good);

        assertThat(opened).contains(new Seal.Opened("anna", WORDS));
    }

    @Test
    void every_single_changed_byte_is_refused() {
        List<byte[]> changed = withOneByteChanged(good);

        assertThat(changed).hasSize(good.length * 255);
        assertThat(changed).noneMatch(message -> seal.open(message).isPresent());
    }

    @Test
    void every_single_lost_doubled_or_swapped_byte_is_refused() {
        List<byte[]> changed = withOneByteLostDoubledOrSwapped(good);

        assertThat(changed).noneMatch(message -> seal.open(message).isPresent());
    }

    @Test
    void message_is_cut_nowhere() {
        List<byte[]> cut =
                IntStream.range(0, good.length).mapToObj(end -> Arrays.copyOf(good, end)).toList();

        assertThat(cut).noneMatch(message -> seal.open(message).isPresent());
    }

    @Test
    void message_for_another_topic_is_refused() {
        byte[] elsewhere =
                Signed.message("leat/shipyard", "anna", Signed.ANNA, WORDS.getBytes(UTF_8));

        assertThat(seal.open(elsewhere)).isEmpty();
    }

    @Test
    void token_of_another_person_or_a_name_that_nobody_has_is_refused() {
        assertThat(seal.open(Signed.message("anna", Signed.BEN, WORDS))).isEmpty();
        assertThat(seal.open(Signed.message("carl", Signed.ANNA, WORDS))).isEmpty();
        assertThat(seal.open(Signed.message("ANNA", Signed.ANNA, WORDS))).isEmpty();
        assertThat(seal.open(Signed.message("anna\nben", Signed.ANNA, WORDS))).isEmpty();
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3})
    void any_garbage_is_refused(long seed) {
        List<byte[]> garbage = garbage(seed);

        assertThat(garbage).as("seed %d", seed).noneMatch(g -> seal.open(g).isPresent());
        assertThat(garbage).extracting(Seal::mark).containsOnly("");
    }

    @Test
    void signed_words_that_are_no_text_are_refused() {
        byte[] words = {'{', (byte) 0xc3, (byte) 0x28, '}'};

        assertThat(seal.open(Signed.message(Signed.TOPIC, "anna", Signed.ANNA, words))).isEmpty();
    }

    @Test
    void the_mark_is_the_signature_that_the_message_bears() {
        assertThat(Seal.mark(good)).matches("[0-9a-f]{64}").isEqualTo(new String(good, 8, 64));
    }

    @Test
    void openssl_makes_the_same_signature() throws Exception {
        String theirs = openssl(Signed.TOPIC + "\nanna\n" + WORDS, Signed.ANNA);

        assertThat(theirs).isEqualTo(Seal.mark(good));
    }

    @Test
    void without_the_tokens_there_is_no_seal() {
        List<Person> unfetched = List.of(new Person("anna", Optional.empty()));

        assertThatThrownBy(() -> new Seal(Signed.TOPIC, unfetched))
                .isInstanceOf(IllegalArgumentException.class);
    }

    private static List<byte[]> withOneByteChanged(byte[] message) {
        List<byte[]> changed = new ArrayList<>();
        for (int at = 0; at < message.length; at++) {
            for (int by = 1; by <= 255; by++) {
                byte[] copy = message.clone();
                copy[at] ^= (byte) by;
                changed.add(copy);
            }
        }
        return changed;
    }

    private static List<byte[]> withOneByteLostDoubledOrSwapped(byte[] message) {
        List<byte[]> changed = new ArrayList<>();
        for (int at = 0; at < message.length; at++) {
            byte[] lost = new byte[message.length - 1];
            System.arraycopy(message, 0, lost, 0, at);
            System.arraycopy(message, at + 1, lost, at, lost.length - at);
            changed.add(lost);
            byte[] doubled = new byte[message.length + 1];
            System.arraycopy(message, 0, doubled, 0, at + 1);
            System.arraycopy(message, at, doubled, at + 1, message.length - at);
            changed.add(doubled);
            if (at > 0 && message[at] != message[at - 1]) {
                byte[] swapped = message.clone();
                swapped[at] = message[at - 1];
                swapped[at - 1] = message[at];
                changed.add(swapped);
            }
        }
        return changed;
    }

    private static List<byte[]> garbage(long seed) {
        Random random = new Random(seed);
        List<byte[]> garbage = new ArrayList<>();
        for (int i = 0; i < 5_000; i++) {
            byte[] bytes = new byte[random.nextInt(300)];
            random.nextBytes(bytes);
            garbage.add(bytes);
        }
        return garbage;
    }

    private static String openssl(String signed, String token)
            throws IOException, InterruptedException {
        Process process =
                new ProcessBuilder(
                                Peer.require("openssl").toString(),
                                "dgst",
                                "-sha256",
                                "-hmac",
                                token,
                                "-r")
                        .start();
        process.getOutputStream().write(signed.getBytes(UTF_8));
        process.getOutputStream().close();
        String printed = new String(process.getInputStream().readAllBytes(), UTF_8);
        assertThat(process.waitFor(10, TimeUnit.SECONDS)).isTrue();
        return printed.split(" ")[0];
    }
}
