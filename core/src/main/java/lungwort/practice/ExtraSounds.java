package lungwort.practice;

import java.util.ArrayList;
import java.util.List;
import lungwort.sound.ContinuousSound;
import lungwort.sound.Crackle;
import lungwort.sound.CrackleShape;
import lungwort.sound.SoundKind;

/** Renders tones and crackles, and says what they are. */
final class ExtraSounds {
    private static final double WOBBLE_HZ = 5;
    private static final double TREMOR_HZ = 7;
    private static final double TRACK_STEP_SECONDS = 0.01;

    /** CORSA 2000: a fine crackle's two cycles take less than 10 ms, a coarse one's more. */
    private static final double FINE_BELOW_2CD_MS = 10;

    private ExtraSounds() {}

    static void add(double[] out, AddedSound.Tone tone, int rate) {
        int from = (int) Math.ceil(tone.startSeconds() * rate);
        int to = (int) Math.min(out.length, Math.ceil(tone.endSeconds() * rate));
        double[] part = new double[Math.max(0, to - from)];
        for (int i = 0; i < part.length; i++) {
            double t = (double) (from + i) / rate - tone.startSeconds();
            part[i] =
                    edge(t, tone) * (1 + tone.wobble() * Math.sin(2 * Math.PI * TREMOR_HZ * t)) * voice(t, tone, rate);
        }
        Levels.toRms(part, Levels.amplitude(tone.levelDb()));
        for (int i = 0; i < part.length; i++) {
            out[from + i] += part[i];
        }
    }

    private static double edge(double t, AddedSound.Tone tone) {
        double near = Math.min(t, tone.lengthSeconds() - t) / tone.rampSeconds();
        return near >= 1 ? 1 : 0.5 - 0.5 * Math.cos(Math.PI * Math.max(0, near));
    }

    private static double voice(double t, AddedSound.Tone tone, int rate) {
        double glide = (tone.endHz() - tone.startHz()) / tone.lengthSeconds();
        double cycles = tone.startHz() * t + glide * t * t / 2;
        cycles += tone.wobbleHz() / (2 * Math.PI * WOBBLE_HZ) * (1 - Math.cos(2 * Math.PI * WOBBLE_HZ * t));
        double sum = 0;
        for (int h = 1; h <= tone.harmonics() + 1; h++) {
            if (h * hz(t, tone) < 0.45 * rate) {
                double weight = Levels.amplitude(tone.harmonicDb() * (h - 1));
                sum += weight * Math.sin(2 * Math.PI * h * cycles + 0.7 * (h - 1) * h);
            }
        }
        return sum;
    }

    private static double hz(double t, AddedSound.Tone tone) {
        return tone.startHz()
                + (tone.endHz() - tone.startHz()) * t / tone.lengthSeconds()
                + tone.wobbleHz() * Math.sin(2 * Math.PI * WOBBLE_HZ * t);
    }

    static void add(double[] out, AddedSound.SingleCrackle crackle, int rate) {
        CrackleShape shape = new CrackleShape(crackle.initialDeflectionWidthMs(), crackle.twoCycleDurationMs());
        double level = Levels.amplitude(crackle.levelDb());
        int from = (int) Math.ceil(crackle.startSeconds() * rate);
        int to = (int) Math.min(out.length, Math.ceil(crackle.endSeconds() * rate));
        for (int i = from; i < to; i++) {
            out[i] += level * shape.at(((double) i / rate - crackle.startSeconds()) * 1000);
        }
    }

    static ContinuousSound truth(AddedSound.Tone tone, PracticeScene scene) {
        List<ContinuousSound.TrackPoint> track = new ArrayList<>();
        for (int i = 0; i * TRACK_STEP_SECONDS <= tone.lengthSeconds(); i++) {
            double t = i * TRACK_STEP_SECONDS;
            track.add(new ContinuousSound.TrackPoint(tone.startSeconds() + t, hz(t, tone)));
        }
        boolean polyphonic = scene.sounds().stream().anyMatch(other -> sharesTimeWith(other, tone));
        return new ContinuousSound(
                tone.kind(),
                tone.startSeconds(),
                tone.endSeconds(),
                track,
                (tone.startHz() + tone.endHz()) / 2,
                tone.harmonics(),
                polyphonic,
                1,
                tone.levelDb() - scene.breath().levelDb());
    }

    private static boolean sharesTimeWith(AddedSound other, AddedSound.Tone tone) {
        return other instanceof AddedSound.Tone t
                && t != tone
                && t.startSeconds() < tone.endSeconds()
                && tone.startSeconds() < t.endSeconds();
    }

    static Crackle truth(AddedSound.SingleCrackle crackle, PracticeScene scene) {
        CrackleShape shape = new CrackleShape(crackle.initialDeflectionWidthMs(), crackle.twoCycleDurationMs());
        return new Crackle(
                crackle.twoCycleDurationMs() < FINE_BELOW_2CD_MS ? SoundKind.FINE_CRACKLE : SoundKind.COARSE_CRACKLE,
                crackle.startSeconds(),
                crackle.endSeconds(),
                crackle.initialDeflectionWidthMs(),
                crackle.twoCycleDurationMs(),
                shape.largestDeflectionWidthMs(),
                crackle.levelDb() - scene.breath().levelDb());
    }
}
