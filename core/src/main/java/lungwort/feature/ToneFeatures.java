package lungwort.feature;

import java.util.List;

/** The tones of a stretch: the plainest evidence of a continuous sound, and the one that depends least on the device. */
final class ToneFeatures {
    private static final double FRAME_SECONDS = 0.016;

    /** ATS: a wheeze lasts over 250 ms. */
    private static final int LONG_FRAMES = 16;

    private static final double CLEAR_DB = 12;

    private ToneFeatures() {}

    /**
     * @param prefix put before each name
     * @param from first frame
     * @param to one past the last frame
     */
    static void write(String prefix, List<ToneTracks.Tone> tones, int from, int to, FeatureWriter w) {
        double highest = 0;
        double highestLong = 0;
        double hz = 0;
        double strongest = 0;
        int longest = 0;
        int longestClear = 0;
        double frames = 0;
        double clearFrames = 0;
        double weighted = 0;
        int count = 0;
        for (ToneTracks.Tone t : tones) {
            int overlap = Math.min(to, t.to()) - Math.max(from, t.from());
            if (overlap < 3) {
                continue;
            }
            count++;
            frames += overlap;
            weighted += overlap * t.prominenceDb();
            highest = Math.max(highest, t.prominenceDb());
            longest = Math.max(longest, t.frames());
            if (t.frames() >= LONG_FRAMES) {
                highestLong = Math.max(highestLong, t.prominenceDb());
            }
            if (t.prominenceDb() >= CLEAR_DB) {
                clearFrames += overlap;
                longestClear = Math.max(longestClear, t.frames());
            }
            double strength = t.prominenceDb() * Math.sqrt(t.frames());
            if (strength > strongest) {
                strongest = strength;
                hz = t.hz();
            }
        }
        double length = Math.max(1, to - from);
        String name = prefix + "tone";
        w.put(name, "prominence", "dB", "highest mean prominence of a tone of at least 96 ms", highest);
        w.put(name, "longProminence", "dB", "highest mean prominence of a tone of at least 250 ms", highestLong);
        w.put(name, "strength", "dB", "highest prominence times the root of the number of frames", strongest);
        w.put(name, "hz", "Hz", "mean frequency of the strongest tone", hz);
        w.put(name, "longest", "s", "length of the longest tone", longest * FRAME_SECONDS);
        w.put(name, "longestClear", "s", "length of the longest tone of at least 12 dB", longestClear * FRAME_SECONDS);
        w.put(name, "share", "1", "summed length of all tones over that of the stretch", frames / length);
        w.put(name, "clearShare", "1", "the same for tones of at least 12 dB", clearFrames / length);
        w.put(name, "weight", "dB", "summed length times prominence over that of the stretch", weighted / length);
        w.put(name, "rate", "1/s", "tones a second", count / (length * FRAME_SECONDS));
    }
}
