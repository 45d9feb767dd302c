package leat.json;

import com.fasterxml.jackson.databind.module.SimpleModule;
import leat.measure.ClimbRemark;
import leat.measure.Figure;

/** The forms of values that are no records, or not written as such. */
final class ValueForms extends SimpleModule {

    ValueForms() {
        super("leat");
        addSerializer(Figure.class, new FigureJson.Writer());
        addDeserializer(Figure.class, new FigureJson.Reader());
        addDeserializer(ClimbRemark.class, new ClimbRemarkReader());
        setDeserializerModifier(new KnownKeys());
    }
}
