package lungwort.classify;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import lungwort.feature.MelImage;
import lungwort.feature.TimeSpan;
import lungwort.sound.MeasuredSound;

/**
 * The facts by which the start and the end of a stretch are put right: about either, what the net says moment by moment of one kind of sound, how high the levels of eight groups of bands are, where the nearest measured tones
 * and crackles begin and end, and how far away the recording's own start and end are. Times in seconds, from the edge, later ones above zero.
 */
final class EventEdgeFacts {
    /** Frames of the image, of 20 ms, from an edge at which the net is asked: 0.64 s to either side, so that what a frame of the net sees is covered twice over. */
    private static final int REACH = 32;

    private static final int NET_STEP = 4;

    /** Levels are means of so many frames. */
    private static final int LEVEL_FRAMES = 8;

    private static final int LEVEL_REACH = 24;

    /** Rows of the image in one group: octaves and a little, low ones first, long windows before short ones. */
    private static final int ROWS_TOGETHER = 8;

    private static final int GROUPS = MelImage.ROWS / ROWS_TOGETHER;

    /** Where there is no sound on that side, so far away, in seconds. */
    private static final double NOWHERE = 9;

    /** Names of the facts, in order. */
    static final List<String> NAMES = names();

    private final float[][] frames;
    private final double[][] levels;
    private final double[] toneStarts;
    private final double[] toneEnds;
    private final double[] crackles;
    private final double seconds;

    /**
     * @param frames {@link NetLook#frames}
     * @param image of the recording ({@link MelImage}), of as many frames
     * @param sounds measured in it
     */
    EventEdgeFacts(float[][] frames, float[][] image, List<MeasuredSound> sounds) {
        if (image.length != MelImage.ROWS || image[0].length != frames[0].length) {
            throw new IllegalArgumentException("edges need the recording's image, of as many frames as the net's");
        }
        this.frames = frames;
        this.levels = runningSums(image);
        List<MeasuredSound> tones =
                sounds.stream().filter(s -> s.kind().continuous()).toList();
        this.toneStarts =
                tones.stream().mapToDouble(MeasuredSound::startSeconds).toArray();
        this.toneEnds = tones.stream().mapToDouble(MeasuredSound::endSeconds).toArray();
        this.crackles = EventFacts.middles(sounds.stream().filter(s -> !s.kind().continuous()));
        this.seconds = frames[0].length * MelImage.HOP_SECONDS;
    }

    /** The same in every locale: model files hold them. */
    static List<String> names() {
        List<String> names = new ArrayList<>();
        for (String edge : List.of("start", "end")) {
            for (int f = -REACH; f <= REACH; f += NET_STEP) {
                names.add(edge + ".net." + f);
            }
            for (int f = -LEVEL_REACH; f < LEVEL_REACH; f += LEVEL_FRAMES) {
                for (int group = 1; group <= GROUPS; group++) {
                    names.add(edge + ".level" + group + "." + f);
                }
            }
            for (String rest : List.of(
                    "toneStart", "toneEnd", "crackle", "crackleBefore", "crackleAfter", "sinceStart", "untilEnd")) {
                names.add(edge + "." + rest);
            }
        }
        return List.copyOf(names);
    }

    /** Sums over the rows of a group and all frames before one, so that a mean over any stretch is one difference. */
    private static double[][] runningSums(float[][] image) {
        double[][] sums = new double[GROUPS][image[0].length + 1];
        for (int group = 0; group < GROUPS; group++) {
            for (int f = 0; f < image[0].length; f++) {
                double sum = 0;
                for (int row = group * ROWS_TOGETHER; row < (group + 1) * ROWS_TOGETHER; row++) {
                    sum += image[row][f];
                }
                sums[group][f + 1] = sums[group][f] + sum / ROWS_TOGETHER;
            }
        }
        return sums;
    }

    /** Length of the recording, in seconds. */
    double seconds() {
        return seconds;
    }

    /** The facts of one stretch, in the order of {@link #NAMES}; all finite. */
    float[] of(boolean continuous, TimeSpan span) {
        float[] row = new float[NAMES.size()];
        int next = addEdge(row, 0, frames[continuous ? 0 : 1], span.startSeconds());
        addEdge(row, next, frames[continuous ? 0 : 1], span.endSeconds());
        return row;
    }

    private int addEdge(float[] row, int first, float[] net, double edge) {
        int at = first;
        int frame = (int) Math.round(edge / MelImage.HOP_SECONDS);
        for (int f = frame - REACH; f <= frame + REACH; f += NET_STEP) {
            row[at++] = net[inside(f, net.length - 1)];
        }
        for (int f = frame - LEVEL_REACH; f < frame + LEVEL_REACH; f += LEVEL_FRAMES) {
            int from = inside(f, net.length);
            int to = inside(f + LEVEL_FRAMES, net.length);
            for (double[] sums : levels) {
                row[at++] = (float) ((sums[to] - sums[from]) / Math.max(1, to - from));
            }
        }
        row[at++] = (float) nearest(toneStarts, edge);
        row[at++] = (float) nearest(toneEnds, edge);
        row[at++] = (float) nearest(crackles, edge);
        row[at++] = (float) Arrays.stream(crackles)
                .map(t -> t - edge)
                .filter(t -> t <= 0)
                .max()
                .orElse(-NOWHERE);
        row[at++] = (float) Arrays.stream(crackles)
                .map(t -> t - edge)
                .filter(t -> t > 0)
                .min()
                .orElse(NOWHERE);
        row[at++] = (float) edge;
        row[at++] = (float) (seconds - edge);
        return at;
    }

    private static int inside(int frame, int last) {
        return Math.max(0, Math.min(last, frame));
    }

    private static double nearest(double[] times, double edge) {
        double nearest = NOWHERE;
        for (double time : times) {
            nearest = Math.abs(time - edge) < Math.abs(nearest) ? time - edge : nearest;
        }
        return nearest;
    }
}
