package lungwort.feature;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;

class ToneTracksTest {
    private static final double BIN_HZ = 8;

    /** Forty frames of sixty bins in which a peak of 15 dB stands at a bin that may move. */
    private static double[][] picture(int from, int to, int bin, int everyFramesABin) {
        double[][] p = new double[40][60];
        for (int f = from; f < to; f++) {
            p[f][bin + (everyFramesABin == 0 ? 0 : (f - from) / everyFramesABin)] = 15;
        }
        return p;
    }

    @Test
    void aPeakThatHoldsIsOneTone() {
        List<ToneTracks.Tone> tones = ToneTracks.find(picture(5, 30, 20, 0), 100, BIN_HZ);
        assertThat(tones).hasSize(1);
        assertThat(tones.get(0).from()).isEqualTo(5);
        assertThat(tones.get(0).to()).isEqualTo(30);
        assertThat(tones.get(0).prominenceDb()).isCloseTo(15, within(1e-9));
        assertThat(tones.get(0).hz()).isCloseTo(260, within(1e-9));
    }

    @Test
    void itMayGlide() {
        assertThat(ToneTracks.find(picture(5, 35, 10, 2), 100, BIN_HZ)).hasSize(1);
    }

    /** CORSA: a wheeze lasts over 100 ms; six frames of 16 ms are the least. */
    @Test
    void whatIsShorterThanSixFramesIsNone() {
        assertThat(ToneTracks.find(picture(5, 10, 20, 0), 100, BIN_HZ)).isEmpty();
        assertThat(ToneTracks.find(picture(5, 11, 20, 0), 100, BIN_HZ)).hasSize(1);
    }

    @Test
    void aGapOfTwoFramesIsBridgedAndOneOfThreeIsNot() {
        double[][] p = picture(0, 20, 20, 0);
        p[9] = new double[60];
        assertThat(ToneTracks.find(p, 100, BIN_HZ)).hasSize(1);
        p[10] = new double[60];
        p[11] = new double[60];
        assertThat(ToneTracks.find(p, 100, BIN_HZ)).hasSize(2);
    }
}
