package leat.config;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import leat.signal.Channel;
import leat.signal.PressureUnit;
import leat.signal.TwoPoint;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.api.lowlevel.Compose;
import org.snakeyaml.engine.v2.common.FlowStyle;
import org.snakeyaml.engine.v2.exceptions.Mark;
import org.snakeyaml.engine.v2.exceptions.YamlEngineException;
import org.snakeyaml.engine.v2.nodes.MappingNode;
import org.snakeyaml.engine.v2.nodes.Node;
import org.snakeyaml.engine.v2.nodes.NodeTuple;
import org.snakeyaml.engine.v2.nodes.ScalarNode;
import org.snakeyaml.engine.v2.nodes.SequenceNode;

/**
 * Writes another scale for one channel into the text of a {@code site.yaml} that is in order.
 * Nothing else in the text changes, comments and layout least of all: of a {@code scale} only the
 * two inputs behind {@code at} are replaced, a {@code unit} becomes a scale in its place.
 *
 * @param machine name of the machine
 * @param channel a pressure
 * @param line from number or loop current to psi, as it shall be
 */
public record ScaleEdit(String machine, Channel channel, TwoPoint line) {

    /** What leat believes where neither scale nor range says otherwise. */
    private static final String BELIEVED = "range: [ -15 psi, 500 psi ]";

    private record Change(int from, int to, String text) {}

    public ScaleEdit {
        requireNonNull(machine, "machine");
        requireNonNull(channel, "channel");
        requireNonNull(line, "line");
    }

    /** The text with the other scale; empty where the channel's scale is not found in it. */
    public Optional<String> in(String text) {
        LoadSettings settings = LoadSettings.builder().setUseMarks(true).build();
        try {
            return new Compose(settings)
                    .composeString(text)
                    .flatMap(root -> value(root, "machines"))
                    .flatMap(machines -> value(machines, machine))
                    .flatMap(found -> value(found, "channels"))
                    .flatMap(channels -> value(channels, channel.key()))
                    .flatMap(found -> changes(found, text))
                    .map(changes -> changed(text, changes));
        } catch (YamlEngineException e) {
            return Optional.empty();
        }
    }

    private Optional<List<Change>> changes(Node found, String text) {
        Optional<Node> scale = value(found, "scale");
        return scale.isPresent()
                ? scale.flatMap(points -> ofPoints(points, text))
                : tuple(found, "unit").map(unit -> ofUnit((MappingNode) found, unit, text));
    }

    private Optional<List<Change>> ofPoints(Node points, String text) {
        List<Change> changes = new ArrayList<>();
        if (points instanceof SequenceNode list) {
            for (Node point : list.getValue()) {
                Optional<String> reads = value(point, "reads").flatMap(ScaleEdit::scalar);
                Optional<Node> at = value(point, "at");
                Optional<String> input = at.flatMap(ScaleEdit::scalar);
                Optional<Double> psi = reads.flatMap(ScaleEdit::psi);
                if (psi.isEmpty() || input.isEmpty()) {
                    return Optional.empty();
                }
                String unit = Amount.parse(input.get()).map(Amount::unit).orElse("");
                String number = Plain.number(line.inputFor(psi.get()));
                String written = unit.isEmpty() ? number : number + " " + unit;
                changes.add(at(at.get(), text, written));
            }
        }
        return Optional.of(changes).filter(c -> c.size() == 2);
    }

    private List<Change> ofUnit(MappingNode channelNode, NodeTuple unit, String text) {
        String symbol = scalar(unit.getValueNode()).orElseThrow();
        PressureUnit in = PressureUnit.bySymbol(symbol).orElseThrow();
        int top =
                switch (in) {
                    case PSI -> 100;
                    case BAR -> 10;
                    case KPA -> 1000;
                };
        String scale =
                "scale: [ { at: "
                        + Plain.number(line.inputFor(0))
                        + ", reads: 0 "
                        + symbol
                        + " }, { at: "
                        + Plain.number(line.inputFor(in.toPsi(top)))
                        + ", reads: "
                        + top
                        + " "
                        + symbol
                        + " } ]";
        int from = offset(unit.getKeyNode().getStartMark(), text);
        int to = offset(unit.getValueNode().getEndMark(), text);
        String range = "";
        if (value(channelNode, "range").isEmpty()) {
            boolean flow = channelNode.getFlowStyle() == FlowStyle.FLOW;
            int column = from - (text.lastIndexOf('\n', from - 1) + 1);
            range = (flow ? ", " : "\n" + " ".repeat(column)) + BELIEVED;
        }
        return List.of(new Change(from, to, scale + range));
    }

    private static Change at(Node node, String text, String written) {
        return new Change(
                offset(node.getStartMark(), text), offset(node.getEndMark(), text), written);
    }

    /** From the last to the first, so that none moves another. */
    private static String changed(String text, List<Change> changes) {
        StringBuilder out = new StringBuilder(text);
        changes.stream()
                .sorted(Comparator.comparingInt(Change::from).reversed())
                .forEach(change -> out.replace(change.from(), change.to(), change.text()));
        return out.toString();
    }

    /** Marks count code points. */
    private static int offset(Optional<Mark> mark, String text) {
        return text.offsetByCodePoints(0, mark.orElseThrow().getIndex());
    }

    private static Optional<Double> psi(String reads) {
        return Amount.parse(reads)
                .flatMap(
                        amount ->
                                PressureUnit.bySymbol(amount.unit())
                                        .map(unit -> unit.toPsi(amount.value())));
    }

    private static Optional<String> scalar(Node node) {
        return node instanceof ScalarNode scalar
                ? Optional.of(scalar.getValue())
                : Optional.empty();
    }

    private static Optional<Node> value(Node node, String key) {
        return tuple(node, key).map(NodeTuple::getValueNode);
    }

    private static Optional<NodeTuple> tuple(Node node, String key) {
        if (!(node instanceof MappingNode mapping)) {
            return Optional.empty();
        }
        return mapping.getValue().stream()
                .filter(t -> scalar(t.getKeyNode()).filter(key::equals).isPresent())
                .findFirst();
    }
}
