package leat.deliver;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import leat.alarm.AlarmChange;
import leat.diagnose.Diagnosis;
import leat.store.Message;

/**
 * A call about channels that fell silent together; it stands for the calls of all their alarms.
 * Immutable.
 *
 * @param lead the first of these alarms, by which the message is known
 * @param channels all that the route carries, the lead's first; at least two
 * @param whole names of the connections of which nothing comes at all
 * @param again set when it is told because nobody has acknowledged any of them
 */
record OutageCall(
        Changed lead, List<SilentChannel> channels, List<String> whole, Optional<Again> again)
        implements LaterCall {

    OutageCall {
        requireNonNull(lead, "lead");
        channels = List.copyOf(channels);
        whole = List.copyOf(whole);
        requireNonNull(again, "again");
    }

    @Override
    public String id() {
        return again.map(Again::id).orElseGet(lead::id);
    }

    @Override
    public String machine() {
        return lead.machine();
    }

    @Override
    public AlarmChange latest() {
        return lead.change();
    }

    @Override
    public Optional<Diagnosis> why() {
        return Optional.empty();
    }

    @Override
    public OptionalLong number() {
        return lead.number();
    }

    @Override
    public Message in(Wording wording, Notification notification) {
        return wording.outage(notification, this);
    }

    @Override
    public boolean isAgain() {
        return again.isPresent();
    }

    @Override
    public String event() {
        return again.map(Again::event).orElseGet(lead::event);
    }
}
