package leat.json;

import java.lang.annotation.ElementType;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;

/** A document for programs outside; its schema stands in {@code config/} and is made from it. */
@Retention(RetentionPolicy.RUNTIME)
@Target(ElementType.TYPE)
public @interface Published {

    /** Name and version of its schema, such as {@code leat.alarms/1}. */
    String value();
}
