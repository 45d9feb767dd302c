package leat.config;

import java.util.Map;
import java.util.Optional;

/** An address on the wire. One that only a manual can have is explained. */
record AddressForm() implements Form<Integer> {

    /** How many there are. */
    static final int ADDRESSES = 65_536;

    private static final Form<Integer> NUMBER = NumberForm.whole(0, ADDRESSES - 1);

    @Override
    public Optional<Integer> read(Cursor at) {
        Optional<ReferenceNumber> manual = ofSixDigits(at).flatMap(ReferenceNumber::of);
        if (manual.isEmpty()) {
            return NUMBER.read(at);
        }
        at.wrong(manual.get().words(), manual.get().meant());
        return Optional.empty();
    }

    private static Optional<Integer> ofSixDigits(Cursor at) {
        return at.isScalar() && !at.isNothing() && !at.isQuoted()
                ? at.text("").filter(text -> text.matches("[1-9][0-9]{5}")).map(Integer::valueOf)
                : Optional.empty();
    }

    @Override
    public String print(Integer value) {
        return NUMBER.print(value);
    }

    @Override
    public String unit() {
        return NUMBER.unit();
    }

    @Override
    public String min() {
        return NUMBER.min();
    }

    @Override
    public String max() {
        return NUMBER.max();
    }

    @Override
    public Map<String, Object> schema() {
        return NUMBER.schema();
    }

    @Override
    public Object schemaValue(Integer value) {
        return NUMBER.schemaValue(value);
    }
}
