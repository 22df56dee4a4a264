package lungwort.classify;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;

class HeardEventsTest {
    private static final HeardEvent TONE = new HeardEvent(3, 4, true, 0.3);
    private static final HeardEvent FAINT_TONE = new HeardEvent(1, 2, true, 0.2);
    private static final HeardEvent CRACKLES = new HeardEvent(1, 1.5, false, 0.6);
    private static final HeardEvent FAINT_CRACKLES = new HeardEvent(6, 7, false, 0.4);
    private static final HeardEvents HEARD =
            new HeardEvents(List.of(TONE, CRACKLES), List.of(FAINT_CRACKLES, FAINT_TONE));

    @Test
    void theLikelyOnesAreToldWhereTheirKindIsSuggested() {
        assertThat(HEARD.where(false, false)).containsExactly(CRACKLES, TONE);
        assertThat(HEARD.where(true, false)).containsExactly(FAINT_TONE, CRACKLES, TONE);
        assertThat(HEARD.where(false, true)).containsExactly(CRACKLES, TONE, FAINT_CRACKLES);
        assertThat(HEARD.where(true, true)).containsExactly(FAINT_TONE, CRACKLES, TONE, FAINT_CRACKLES);
        assertThat(HeardEvents.NONE.where(true, true)).isEmpty();
    }

    @Test
    void bothAreInOrderOfTime() {
        assertThat(HEARD.sure()).containsExactly(CRACKLES, TONE);
        assertThat(HEARD.likely()).containsExactly(FAINT_TONE, FAINT_CRACKLES);
    }
}
