package lungwort.classify;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import lungwort.feature.MelImage;
import lungwort.feature.TimeSpan;
import lungwort.sound.ContinuousSound;
import lungwort.sound.MeasuredSound;
import lungwort.sound.SoundKind;

/**
 * The facts by which a stretch of a recording is judged to be one extra sound or not: its length; what the net says in it, in its first and last quarter, in its middle, before and after it and in the whole recording, for
 * either kind; the tones and crackles measured in it; and what the whole recording sounds like.
 */
final class EventFacts {
    private static final String[] MOMENTS = {
        "most", "mean", "least", "first", "last", "middle", "before", "after", "median", "mostOfAll"
    };
    private static final String[] REST = {
        "tones.cover",
        "tones.first",
        "tones.last",
        "tones.count",
        "tones.longest",
        "tones.prominence",
        "tones.pitch",
        "tones.continuity",
        "tones.harmonics",
        "tones.polyphonic",
        "crackles.count",
        "crackles.fine",
        "crackles.rate",
        "recording.cracklesPerSecond",
        "recording.tonesPerSecond",
        "atStart",
        "atEnd",
        "recording.continuous",
        "recording.discontinuous"
    };

    /** Names of the facts, in order. */
    static final List<String> NAMES = names();

    /** What is before and after a stretch: so much of it, in frames of the image. */
    private static final int AROUND = 20;

    /** A stretch that begins or ends so near to the recording's end is cut off by it, in seconds. */
    private static final double AT_END_SECONDS = 0.08;

    private final float[][] frames;
    private final float[] median;
    private final float[] most;
    private final List<ContinuousSound> tones;
    private final double[] crackles;
    private final double[] fine;
    private final double continuous;
    private final double discontinuous;

    /**
     * @param frames {@link NetLook#frames}
     * @param sounds measured in the recording
     * @param whole class probabilities of the recording by itself
     */
    EventFacts(float[][] frames, List<MeasuredSound> sounds, double[] whole) {
        this.frames = frames;
        this.median = new float[frames.length];
        this.most = new float[frames.length];
        for (int m = 0; m < frames.length; m++) {
            float[] sorted = frames[m].clone();
            Arrays.sort(sorted);
            median[m] = sorted[sorted.length / 2];
            most[m] = sorted[sorted.length - 1];
        }
        this.tones = sounds.stream()
                .filter(ContinuousSound.class::isInstance)
                .map(ContinuousSound.class::cast)
                .toList();
        this.crackles = middles(sounds.stream().filter(s -> !s.kind().continuous()));
        this.fine = middles(sounds.stream().filter(s -> s.kind() == SoundKind.FINE_CRACKLE));
        double judged = Math.max(1e-9, 1 - RecordingClass.poorQuality(whole));
        this.continuous = ContextFeatures.logit(RecordingClass.continuous(whole) / judged);
        this.discontinuous = ContextFeatures.logit(RecordingClass.discontinuous(whole) / judged);
    }

    private static List<String> names() {
        List<String> names = new ArrayList<>(List.of("length"));
        for (String kind : List.of("continuous", "discontinuous")) {
            Arrays.stream(MOMENTS).forEach(moment -> names.add("net." + kind + "." + moment));
        }
        names.addAll(Arrays.asList(REST));
        return List.copyOf(names);
    }

    static double[] middles(java.util.stream.Stream<MeasuredSound> sounds) {
        return sounds.mapToDouble(s -> (s.startSeconds() + s.endSeconds()) / 2).toArray();
    }

    private double seconds() {
        return frames[0].length * MelImage.HOP_SECONDS;
    }

    /** The facts of one stretch, in the order of {@link #NAMES}; all finite. */
    float[] of(TimeSpan span) {
        double start = span.startSeconds();
        double end = span.endSeconds();
        double length = end - start;
        int last = frames[0].length - 1;
        int from = (int) Math.min(last, Math.round(start / MelImage.HOP_SECONDS));
        int to = (int) Math.min(last + 1, Math.max(from + 1, Math.round(end / MelImage.HOP_SECONDS)));
        Row row = new Row();
        row.add(length);
        for (int m = 0; m < frames.length; m++) {
            addMoments(row, m, from, to);
        }
        addTones(row, start, end, to - from);
        long inside = within(crackles, start, end);
        row.add(inside);
        row.add(within(fine, start, end));
        row.add(inside / length);
        row.add(crackles.length / seconds());
        row.add(tones.size() / seconds());
        row.add(start < AT_END_SECONDS ? 1 : 0);
        row.add(end > seconds() - AT_END_SECONDS ? 1 : 0);
        row.add(continuous);
        row.add(discontinuous);
        return row.values;
    }

    private void addMoments(Row row, int kind, int from, int to) {
        float[] v = frames[kind];
        int quarter = Math.max(1, (to - from) / 4);
        float high = v[from];
        float low = v[from];
        for (int f = from; f < to; f++) {
            high = Math.max(high, v[f]);
            low = Math.min(low, v[f]);
        }
        row.add(high);
        row.add(mean(v, from, to, kind));
        row.add(low);
        row.add(mean(v, from, Math.min(to, from + quarter), kind));
        row.add(mean(v, Math.max(from, to - quarter), to, kind));
        row.add(mean(v, from + quarter, Math.max(from + quarter + 1, to - quarter), kind));
        row.add(mean(v, Math.max(0, from - AROUND), from, kind));
        row.add(mean(v, to, Math.min(v.length, to + AROUND), kind));
        row.add(median[kind]);
        row.add(most[kind]);
    }

    /** The recording's median where there is no frame. */
    private double mean(float[] v, int from, int to, int kind) {
        int end = Math.min(to, v.length);
        if (from >= end) {
            return median[kind];
        }
        double sum = 0;
        for (int f = from; f < end; f++) {
            sum += v[f];
        }
        return sum / (end - from);
    }

    private void addTones(Row row, double start, double end, int frameCount) {
        boolean[] covered = new boolean[frameCount];
        int count = 0;
        double longest = 0;
        double loudest = 0;
        int harmonics = 0;
        boolean polyphonic = false;
        ContinuousSound main = null;
        for (ContinuousSound tone : tones) {
            double shared = Math.min(tone.endSeconds(), end) - Math.max(tone.startSeconds(), start);
            if (shared <= tone.durationSeconds() / 2) {
                continue;
            }
            count++;
            longest = Math.max(longest, tone.durationSeconds());
            loudest = Math.max(loudest, tone.prominenceDb());
            harmonics = Math.max(harmonics, tone.harmonics());
            polyphonic |= tone.polyphonic();
            main = main == null || weight(tone) > weight(main) ? tone : main;
            MelImage.mark(covered, Math.max(0, tone.startSeconds() - start), Math.max(0, tone.endSeconds() - start));
        }
        int quarter = Math.max(1, frameCount / 4);
        row.add(share(covered, 0, frameCount));
        row.add(share(covered, 0, quarter));
        row.add(share(covered, frameCount - quarter, frameCount));
        row.add(count);
        row.add(longest);
        row.add(loudest);
        row.add(main == null ? 0 : Math.log(main.dominantHz()));
        row.add(main == null ? 0 : main.continuity());
        row.add(harmonics);
        row.add(polyphonic ? 1 : 0);
    }

    private static double weight(ContinuousSound tone) {
        return tone.prominenceDb() * Math.sqrt(tone.durationSeconds());
    }

    private static double share(boolean[] covered, int from, int to) {
        int count = 0;
        for (int f = from; f < to; f++) {
            count += covered[f] ? 1 : 0;
        }
        return (double) count / (to - from);
    }

    private static long within(double[] middles, double start, double end) {
        return Arrays.stream(middles).filter(m -> m >= start && m < end).count();
    }

    private static final class Row {
        private final float[] values = new float[NAMES.size()];
        private int at;

        void add(double value) {
            values[at++] = (float) value;
        }
    }
}
