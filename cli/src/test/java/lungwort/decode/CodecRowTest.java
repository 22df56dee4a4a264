package lungwort.decode;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Objects;
import lungwort.audio.Recording;
import lungwort.audio.Resampler;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class CodecRowTest {
    /** A tone comes back at its level and length; what came back is not what went in. Needs ffmpeg, which only encodes here. */
    @ParameterizedTest
    @EnumSource(CodecRow.class)
    void aToneSurvivesTheCodec(CodecRow row) {
        boolean there = Ffmpeg.find(Objects.requireNonNullElse(System.getenv("PATH"), ""))
                .isPresent();
        if (!there) {
            System.out.println("SKIPPED: the codec rows need ffmpeg, which is not installed.");
        }
        Assumptions.assumeTrue(there, "ffmpeg is not installed");
        double[] x = new double[3 * 8000];
        for (int i = 0; i < x.length; i++) {
            x[i] = 0.3 * Math.sin(2 * Math.PI * 400 * i / 8000);
        }
        Recording back = Resampler.toRate(row.apply(new Recording(x, 8000, "tone"), 1), 8000);
        assertThat(back.durationSeconds()).isBetween(2.95, 3.2);
        double energy = 0;
        double difference = 0;
        for (int i = 8000; i < 16_000; i++) {
            energy += back.sample(i) * back.sample(i);
            difference += Math.abs(back.sample(i) - x[i]);
        }
        // 0.3 / sqrt 2, within a decibel
        assertThat(Math.sqrt(energy / 8000)).isBetween(0.19, 0.24);
        assertThat(difference).isPositive();
        assertThat(CodecRow.ofId(row.id())).contains(row);
    }

    /** ffmpeg makes 7,350 Hz of 4,000 Hz, a rate that the AAC library cannot decode: sound files, so not to be called damaged. */
    @org.junit.jupiter.api.Test
    void aacOfASlowRecordingIsReadToo() {
        boolean there = Ffmpeg.find(Objects.requireNonNullElse(System.getenv("PATH"), ""))
                .isPresent();
        if (!there) {
            System.out.println("SKIPPED: AAC at 7,350 Hz needs ffmpeg, which is not installed.");
        }
        Assumptions.assumeTrue(there, "ffmpeg is not installed");
        double[] x = new double[4 * 4000];
        for (int i = 0; i < x.length; i++) {
            x[i] = 0.3 * Math.sin(2 * Math.PI * 400 * i / 4000);
        }
        Recording back = CodecRow.AAC_32.apply(new Recording(x, 4000, "tone"), 1);
        assertThat(back.durationSeconds()).isBetween(3.9, 4.4);
    }
}
