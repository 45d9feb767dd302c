package leat.cli;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import leat.config.ChannelSettings;
import leat.config.LoadedSite;
import leat.config.MachineSettings;
import leat.config.ScaleEdit;
import leat.config.Site;
import leat.config.SiteFile;
import leat.files.Replacement;
import leat.signal.Channel;
import leat.signal.PlainText;
import leat.signal.Transducer;
import leat.signal.TwoPoint;
import leat.words.Saying;

/**
 * Another scale for one channel in {@code site.yaml}, before and after it is written.
 *
 * @param file as it was named
 * @param site that stands in it
 * @param machine name of the machine
 * @param channel that is changed
 * @param text the new text
 */
record ScaleChange(Path file, Site site, String machine, Channel channel, String text) {

    private static final DateTimeFormatter STAMP =
            DateTimeFormatter.ofPattern("'.before-'uuuuMMdd'T'HHmmss'Z'").withZone(ZoneOffset.UTC);
    private static final int LONGEST = 300;
    private static final String BYTE_ORDER_MARK = "\uFEFF";

    /**
     * @param line from number or loop current to psi, as it shall be
     */
    static ScaleChange of(Path file, Site site, String machine, Channel channel, TwoPoint line) {
        String text =
                new ScaleEdit(machine, channel, line)
                        .in(site.text())
                        .orElseThrow(
                                () ->
                                        failed(
                                                "cli.scale.not-found",
                                                machine,
                                                channel.key(),
                                                file.toString()));
        return new ScaleChange(file, site, machine, channel, text);
    }

    /** The lines that go. */
    String before() {
        return differing(site.text(), text);
    }

    /** The lines that come in their place. */
    String after() {
        return differing(text, site.text());
    }

    private static String differing(String of, String from) {
        List<String> mine = of.lines().toList();
        List<String> other = from.lines().toList();
        int first = 0;
        while (first < Math.min(mine.size(), other.size())
                && mine.get(first).equals(other.get(first))) {
            first++;
        }
        int end = 0;
        while (end < Math.min(mine.size(), other.size()) - first
                && mine.get(mine.size() - 1 - end).equals(other.get(other.size() - 1 - end))) {
            end++;
        }
        String lines =
                mine.subList(first, mine.size() - end).stream()
                        .map(String::strip)
                        .collect(Collectors.joining("; "));
        return PlainText.harmless(lines, LONGEST);
    }

    /**
     * Writes it, once it is sure that the new file says the same of everything else.
     *
     * @return the copy of the file as it was
     */
    Path write() throws IOException {
        try {
            Replacement place = Replacement.of(file);
            byte[] now = Files.readAllBytes(place.file());
            String found = new String(now, StandardCharsets.UTF_8);
            boolean marked = found.startsWith(BYTE_ORDER_MARK);
            if (!found.substring(marked ? 1 : 0).equals(site.text())) {
                throw failed("cli.scale.just-changed", file.toString());
            }
            String whole = marked ? BYTE_ORDER_MARK + text : text;
            Path fresh = place.write(whole.getBytes(StandardCharsets.UTF_8));
            try {
                requireTheSameBut(fresh);
                return place.put(fresh, STAMP.format(Instant.now()));
            } finally {
                place.drop(fresh);
            }
        } catch (AccessDeniedException e) {
            throw failed(
                    "cli.scale.no-right",
                    file.toString(),
                    "\n",
                    Saying.of("cli.zero.now", before()),
                    Saying.of("cli.zero.then", after()));
        }
    }

    private void requireTheSameBut(Path fresh) {
        LoadedSite loaded = SiteFile.load(fresh, name -> Optional.ofNullable(System.getenv(name)));
        Optional<List<MachineSettings>> machines = loaded.site().map(Site::machines);
        boolean elseAlike =
                machines.map(this::others).filter(others(site.machines())::equals).isPresent();
        if (!elseAlike || !believed(loaded.site().orElseThrow()).equals(believed(site))) {
            throw failed("cli.scale.more");
        }
    }

    /** What pressures of the channel are believed: another scale changes nothing in that. */
    private List<Long> believed(Site of) {
        Transducer transducer =
                (Transducer)
                        of.machine(machine).orElseThrow().byChannel().get(channel).conversion();
        return List.of(
                Math.round(transducer.lowPsi() * 1e3), Math.round(transducer.highPsi() * 1e3));
    }

    /** Every channel with all that is said of it, but for this one's scale. */
    private List<String> others(List<MachineSettings> machines) {
        return machines.stream().flatMap(m -> m.channels().stream().map(c -> of(m, c))).toList();
    }

    private String of(MachineSettings settings, ChannelSettings wired) {
        boolean changes = settings.name().equals(machine) && wired.channel() == channel;
        return settings.name()
                + wired.channel()
                + wired.connection()
                + wired.point()
                + settings.limits().changed()
                + (changes ? "" : wired.conversion());
    }

    private static CommandFailure.Expected failed(String key, Object... values) {
        return new CommandFailure.Expected(ExitCode.FAILED, key, values);
    }
}
