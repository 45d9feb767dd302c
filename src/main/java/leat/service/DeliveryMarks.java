package leat.service;

import java.util.List;
import leat.store.Owed;

/**
 * What couriers tell of their messages, to be written down with the next commit. Thread-safe; every
 * call returns at once.
 */
interface DeliveryMarks {

    /** A message has reached its receiver. */
    void delivered(long number);

    /** A message was tried in vain. */
    void attempted(long number);

    /** Messages of one route are not tried any more; the other routes are owed a notice. */
    void givenUp(List<Owed> owed, String reason);
}
