package lungwort.quality;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** Finds talking, coughs, touches and rubbing in the frames of a recording. Limits are common practice, checked on synthesised sound on both sides of each. */
final class DisturbanceFinder {
    private static final double HARMONICITY = 0.5;
    private static final int MIN_HARMONICS = 4;
    /** Below it there is room for more harmonics. */
    private static final double LOW_PITCH_HZ = 230;

    private static final double VOICE_OVER_DB = 6;

    /** A voice glides; a wheeze or rhonchus keeps its pitch: spread of log2 pitch within half a second, in octaves. */
    private static final double PITCH_SPREAD = 0.065;

    /** Two wheezes at once have no pitch of their own: what is taken for it jumps further than a voice does. */
    private static final double MAX_PITCH_SPREAD = 0.25;

    private static final double PITCH_SECONDS = 0.5;
    private static final int MIN_VOICED_FRAMES = 6;
    private static final double SYLLABLE_GAP_SECONDS = 0.25;

    private static final double COUGH_OVER_DB = 20;
    private static final double COUGH_HIGH_OVER_DB = 18;
    private static final double COUGH_RISE_SECONDS = 0.1;
    private static final double MIN_COUGH_SECONDS = 0.2;
    private static final double MAX_COUGH_SECONDS = 0.8;
    private static final int COUGH_GAP_FRAMES = 4;
    private static final int GAP_FRAMES = 2;

    private static final double TOUCH_OVER_DB = 18;
    private static final double TOUCH_LOW_OVER_DB = 8;
    private static final double MAX_TOUCH_SECONDS = 0.15;

    private static final double RUB_OVER_DB = 12;
    private static final double RUB_ROUGHNESS_DB = 2.2;
    private static final double MIN_RUB_SECONDS = 0.25;

    /** Rubbing moves the lowest band too; crackles do not. */
    private static final double RUB_LOW_OVER_DB = 6;

    private final List<FrameTrack.Frame> frames;
    private final Curves curves;

    DisturbanceFinder(List<FrameTrack.Frame> frames, Curves curves) {
        this.frames = frames;
        this.curves = curves;
    }

    /**
     * @param speechShare share of the time in which someone talks or cries
     * @param coughs each cough
     * @param touchesPerMinute hard touches and bumps
     * @param rubShare share of the time in which something slides along the chest piece
     */
    record Disturbances(double speechShare, List<Quality.Event> coughs, double touchesPerMinute, double rubShare) {}

    Disturbances find() {
        int n = frames.size();
        boolean[] speech = speech();
        boolean[] taken = speech.clone();
        List<Quality.Event> coughs = new ArrayList<>();
        for (int[] burst : runs(curves.highOver(), COUGH_HIGH_OVER_DB, COUGH_GAP_FRAMES)) {
            if (isCough(burst)) {
                coughs.add(new Quality.Event(Quality.EventKind.COUGH, seconds(burst[0]), seconds(burst[1])));
                Arrays.fill(taken, burst[0], burst[1], true);
                Arrays.fill(speech, burst[0], burst[1], false);
            }
        }
        int touches = 0;
        for (int[] burst : runs(curves.wideOver(), TOUCH_OVER_DB, GAP_FRAMES)) {
            touches += !taken[burst[0]] && isTouch(burst) ? 1 : 0;
        }
        double minutes = Math.max(1, n) * FrameTrack.HOP_SECONDS / 60;
        return new Disturbances(share(speech), coughs, touches / minutes, share(rub(taken)));
    }

    /** Loud voices, soft ones, and cries. */
    private boolean[] speech() {
        int n = frames.size();
        boolean[] speech = TalkFinder.find(frames);
        boolean[] cry = CryFinder.find(frames);
        PitchTrack loud = loudVoices();
        int reach = (int) (SYLLABLE_GAP_SECONDS / FrameTrack.HOP_SECONDS / 2);
        for (int t = 0; t < n; t++) {
            if (cry[t] || loud.voiced()[t] && glides(loud, t)) {
                Arrays.fill(speech, Math.max(0, t - reach), Math.min(n, t + reach + 1), true);
            }
        }
        return speech;
    }

    private PitchTrack loudVoices() {
        int n = frames.size();
        PitchTrack track = new PitchTrack(new boolean[n], new double[n], new int[n]);
        for (int t = 0; t < n; t++) {
            Voicing.Voice voice = frames.get(t).voice();
            boolean voiced = voice.harmonicity() > HARMONICITY
                    && voice.harmonics() >= MIN_HARMONICS
                    && isRow(frames.get(t).talk())
                    && curves.wideOver()[t] > VOICE_OVER_DB;
            track.set(t, voiced, voice.pitchHz(), voice.harmonics());
        }
        return track.withoutSteady();
    }

    /** Two wheezes at once look like the second and third harmonic of a pitch between, without the rest. */
    private static boolean isRow(HarmonicComb.Row row) {
        return row.harmonics() >= (row.pitchHz() < LOW_PITCH_HZ ? MIN_HARMONICS : MIN_HARMONICS - 1);
    }

    private static boolean glides(PitchTrack track, int at) {
        int half = (int) (PITCH_SECONDS / FrameTrack.HOP_SECONDS);
        List<PitchTrack.Run> near = new ArrayList<>();
        int n = 0;
        for (int t = Math.max(0, at - half); t < Math.min(track.voiced().length, at + half); t++) {
            if (track.voiced()[t]) {
                near.add(new PitchTrack.Run(t, t + 1));
                n++;
            }
        }
        return n >= MIN_VOICED_FRAMES && track.spread(near) > PITCH_SPREAD && track.spread(near) < MAX_PITCH_SPREAD;
    }

    /** An explosive start without voice, then more than a touch: noise, and often voice at the end. */
    private boolean isCough(int[] burst) {
        double seconds = (burst[1] - burst[0]) * FrameTrack.HOP_SECONDS;
        if (seconds < MIN_COUGH_SECONDS || seconds > MAX_COUGH_SECONDS) {
            return false;
        }
        int explosion = Math.min(burst[1], burst[0] + (int) (COUGH_RISE_SECONDS / FrameTrack.HOP_SECONDS));
        double loudest = Double.NEGATIVE_INFINITY;
        double harmonicity = 0;
        for (int t = burst[0]; t < explosion; t++) {
            loudest = Math.max(loudest, curves.wideOver()[t]);
            harmonicity += frames.get(t).voice().harmonicity() / (explosion - burst[0]);
        }
        return loudest >= COUGH_OVER_DB && harmonicity < HARMONICITY;
    }

    private boolean isTouch(int[] burst) {
        int peak = peak(burst);
        return (burst[1] - burst[0]) * FrameTrack.HOP_SECONDS <= MAX_TOUCH_SECONDS
                && curves.lowOver()[peak] >= TOUCH_LOW_OVER_DB
                && curves.highOver()[peak] >= TOUCH_OVER_DB;
    }

    private int peak(int[] burst) {
        int peak = burst[0];
        for (int t = burst[0]; t < burst[1]; t++) {
            peak = curves.wideOver()[t] > curves.wideOver()[peak] ? t : peak;
        }
        return peak;
    }

    private boolean[] rub(boolean[] taken) {
        double[] rough = Curves.roughness(curves.high(), 0.3);
        double[] over = new double[rough.length];
        for (int t = 0; t < over.length; t++) {
            boolean rubs = !taken[t] && rough[t] > RUB_ROUGHNESS_DB && curves.lowOver()[t] > RUB_LOW_OVER_DB;
            over[t] = rubs ? curves.highOver()[t] : Double.NEGATIVE_INFINITY;
        }
        boolean[] rub = new boolean[over.length];
        for (int[] run : runs(over, RUB_OVER_DB, GAP_FRAMES)) {
            if ((run[1] - run[0]) * FrameTrack.HOP_SECONDS >= MIN_RUB_SECONDS) {
                Arrays.fill(rub, run[0], run[1], true);
            }
        }
        return rub;
    }

    /** Stretches above a limit, start inclusive, end exclusive; short gaps are bridged. */
    private static List<int[]> runs(double[] x, double limit, int gapFrames) {
        List<int[]> runs = new ArrayList<>();
        for (int t = 0; t < x.length; t++) {
            if (x[t] < limit) {
                continue;
            }
            int[] last = runs.isEmpty() ? null : runs.get(runs.size() - 1);
            if (last != null && t - last[1] <= gapFrames) {
                last[1] = t + 1;
            } else {
                runs.add(new int[] {t, t + 1});
            }
        }
        return runs;
    }

    private static double share(boolean[] marked) {
        int n = 0;
        for (boolean m : marked) {
            n += m ? 1 : 0;
        }
        return marked.length == 0 ? 0 : (double) n / marked.length;
    }

    private static double seconds(int frame) {
        return FrameTrack.FRAME_SECONDS / 2 + frame * FrameTrack.HOP_SECONDS;
    }
}
