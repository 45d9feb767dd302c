package leat.rule;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import leat.json.RecordJson;
import leat.measure.Measurand;
import org.junit.jupiter.api.Test;

class RemarkTest {

    @Test
    void what_is_written_is_read_back_to_the_bit() {
        List<Remark> remarks =
                List.of(
                        Remark.about(Measurand.TOP, Remark.Kind.SHARE_LESS, 1.0 / 3, -0.0, 1e-300),
                        Remark.of(Remark.Kind.RISEN_LATE),
                        new Remark(Remark.Kind.REPORTED, List.of(), "no answer : check 1 : 2"),
                        Remark.of(Remark.Kind.OWN_RISE, 1.8, 1.3, 2));

        for (Remark remark : remarks) {
            assertThat(RecordJson.read(Remark.class, RecordJson.write(remark))).isEqualTo(remark);
        }
    }

    @Test
    void one_remark_is_one_line_whatever_a_device_reports() {
        List<Remark> remarks = Remark.reported("cut\nrisen-late\r\u001b[2J");

        assertThat(remarks)
                .extracting(Remark::about)
                .containsExactly("cut\\nrisen-late\\r\\u{1b}[2J");
    }

    @Test
    void a_remark_has_the_numbers_of_its_kind_and_no_others() {
        assertThatThrownBy(() -> Remark.of(Remark.Kind.RATIO_NOW))
                .isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> Remark.of(Remark.Kind.RATIO_NOW, Double.NaN))
                .isInstanceOf(IllegalArgumentException.class);
    }
}
