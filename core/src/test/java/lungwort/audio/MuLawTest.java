package lungwort.audio;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.SplittableRandom;
import lungwort.golden.Golden;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

/** ITU-T G.711: its table 2a [M], and every code by an independent implementation (tests/golden/make_golden.py). */
class MuLawTest {
    static java.util.stream.Stream<Golden> golden() {
        return Golden.cases("mu-law");
    }

    /** Values of the 14-bit range of table 2a: what is sent (last bits of a segment, first of the next) and what it is heard as. */
    @ParameterizedTest
    @CsvSource({
        "0, 255, 0",
        "1, 254, 2",
        "2.99, 254, 2",
        "30.9, 240, 30",
        "31, 239, 33",
        "94.9, 224, 93",
        "95, 223, 99",
        "223, 207, 231",
        "479, 191, 495",
        "991, 175, 1023",
        "2015, 159, 2079",
        "4063, 143, 4191",
        "7903, 128, 8031",
        "7902.9, 129, 7775",
        "9000, 128, 8031",
        "-1, 126, -2",
        "-9000, 0, -8031"
    })
    void followsTheTable(double in, int code, double out) {
        assertThat(MuLaw.encode(in / 8192)).isEqualTo(code);
        assertThat(MuLaw.decode(code) * 8192).isEqualTo(out, within(1e-9));
    }

    @ParameterizedTest
    @MethodSource("golden")
    void agreesWithAnIndependentImplementation(Golden golden) {
        double[] samples = golden.array("samples");
        double[] codes = golden.array("codes");
        for (int i = 0; i < samples.length; i++) {
            if (golden.text("name").equals("encode")) {
                assertThat(MuLaw.encode(samples[i] / 32768))
                        .as("sample %s", samples[i])
                        .isEqualTo((int) codes[i]);
            } else {
                assertThat(MuLaw.decode((int) codes[i]) * 32768).isEqualTo(samples[i], within(1e-9));
            }
        }
    }

    /** Sixteen steps of equal width in a segment: the error is at most half of the widest step, a thirty-third of the sample and its bias. */
    @Test
    void theErrorGrowsWithTheSample() {
        SplittableRandom random = new SplittableRandom(711);
        for (int i = 0; i < 10_000; i++) {
            double v = 2 * random.nextDouble() - 1;
            double most = (Math.abs(v) + 33.0 / 8192) / 32;
            assertThat(MuLaw.decode(MuLaw.encode(v))).isEqualTo(v, within(Math.max(most, 1 - 8031.0 / 8192)));
            double soft = v / 1000;
            assertThat(MuLaw.decode(MuLaw.encode(soft))).isEqualTo(soft, within(1.01 / 8192));
        }
    }

    @Test
    void theLineCarriesEightThousandSamplesASecond() {
        double[] tone = new double[44_100];
        for (int i = 0; i < tone.length; i++) {
            tone[i] = 0.3 * Math.sin(2 * Math.PI * 500 * i / 44_100);
        }
        Recording heard = MuLaw.roundTrip(new Recording(tone, 44_100, "tone"));
        assertThat(heard.sampleRateHz()).isEqualTo(8000);
        double error = 0;
        double level = 0;
        for (int i = 400; i < 7600; i++) {
            double clean = 0.3 * Math.sin(2 * Math.PI * 500 * i / 8000);
            error += Math.pow(heard.sample(i) - clean, 2);
            level += clean * clean;
        }
        // G.712 asks 33 dB of a line for tones of this level [M]
        assertThat(10 * Math.log10(level / error)).isBetween(33.0, 45.0);
    }
}
