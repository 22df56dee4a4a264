package lungwort.classify;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;

class ChestNetsTest {
    @Test
    void saysTheMeanAndPointsWhereTheLoudestDoes() {
        List<TrainingItem> items = NoiseModel.items(1);
        ChestNet first = ChestNet.fit(items, new NetSettings(1, 2, 0.006), 1);
        ChestNet second = ChestNet.fit(items, new NetSettings(1, 2, 0.006), 2);
        ChestNets both = new ChestNets(List.of(first, second));
        boolean[] pointed = new boolean[2];
        for (TrainingItem item : NoiseModel.items(2)) {
            NetLook a = first.look(item.image());
            NetLook b = second.look(item.image());
            NetLook look = both.look(item.image());
            for (int m = 0; m < ChestNet.OUTPUTS; m++) {
                assertThat(look.logits()[m]).isCloseTo((a.logits()[m] + b.logits()[m]) / 2, within(1e-9));
                boolean louder = b.logits()[m] > a.logits()[m];
                assertThat(look.seconds()[m]).isEqualTo((louder ? b : a).seconds()[m]);
                pointed[louder ? 1 : 0] = true;
            }
            assertThat(look.frames()).hasDimensions(2, item.image()[0].length);
            for (int m = 0; m < 2; m++) {
                for (int f = 0; f < look.frames()[m].length; f++) {
                    assertThat(look.frames()[m][f]).isCloseTo((a.frames()[m][f] + b.frames()[m][f]) / 2, within(1e-5f));
                }
            }
            assertThat(a.frames()[0]).isNotEqualTo(b.frames()[0]);
        }
        assertThat(pointed).as("each net is the loudest somewhere").containsOnly(true);
    }
}
