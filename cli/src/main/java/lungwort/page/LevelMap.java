package lungwort.page;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.Arrays;
import java.util.Base64;
import lungwort.audio.Recording;
import lungwort.audio.Resampler;
import lungwort.json.Json;
import lungwort.signal.Spectrogram;

/** The levels of a spectrogram as bytes, for the page to draw: 0 for the quiet of this recording to 255 for its loudest, so that a device's gain does not matter. */
final class LevelMap {
    private static final int RATE_HZ = 4_000;
    private static final int FRAME = 256;
    private static final int MIN_HOP = 40;
    private static final int FFT = 512;
    private static final int MAX_FRAMES = 6_000;
    private static final double SMALLEST = 1e-14;

    /** No picture spans less than this, so that silence does not look like sound. */
    private static final double MIN_SPAN_DB = 45;

    private LevelMap() {}

    /** {@code {frames, bins, firstSeconds, hopSeconds, topHz, levels}}; levels are base64 of bytes, frame after frame, from 0 Hz up. */
    static ObjectNode of(Recording recording) {
        // A microphone's constant offset would be the loudest thing in the picture and darken all the rest.
        double[] x = Resampler.withoutMean(recording, RATE_HZ);
        int hop = Math.max(MIN_HOP, x.length / MAX_FRAMES + 1);
        Spectrogram spectrogram = Spectrogram.of(x, RATE_HZ, FRAME, hop, FFT);
        double[] range = range(spectrogram);
        byte[] levels = new byte[spectrogram.frames() * spectrogram.bins()];
        int at = 0;
        for (int f = 0; f < spectrogram.frames(); f++) {
            for (double power : spectrogram.row(f)) {
                double share = (db(power) - range[0]) / (range[1] - range[0]);
                levels[at++] = (byte) Math.round(255 * Math.max(0, Math.min(1, share)));
            }
        }
        ObjectNode node = Json.object();
        node.put("frames", spectrogram.frames());
        node.put("bins", spectrogram.bins());
        Json.put(node, "firstSeconds", FRAME / 2.0 / RATE_HZ);
        Json.put(node, "hopSeconds", (double) hop / RATE_HZ);
        Json.put(node, "topHz", RATE_HZ / 2.0);
        Json.put(node, "durationSeconds", recording.durationSeconds());
        node.put("levels", Base64.getEncoder().encodeToString(levels));
        return node;
    }

    private static double db(double power) {
        return 10 * Math.log10(Math.max(power, SMALLEST));
    }

    private static double[] range(Spectrogram spectrogram) {
        int frames = spectrogram.frames();
        int bins = spectrogram.bins();
        double[] all = new double[Math.max(1, frames * bins)];
        Arrays.fill(all, SMALLEST);
        for (int f = 0; f < frames; f++) {
            System.arraycopy(spectrogram.row(f), 0, all, f * bins, bins);
        }
        Arrays.sort(all);
        double low = db(all[(int) (0.1 * (all.length - 1))]);
        double high = db(all[(int) (0.999 * (all.length - 1))]);
        return new double[] {low, Math.max(high, low + MIN_SPAN_DB)};
    }
}
