package lungwort.practice;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Random;
import lungwort.audio.Recording;
import lungwort.breath.Breath;
import lungwort.sound.MeasuredSound;

/** Turns a scene into samples and truth. */
final class Synthesiser {
    private Synthesiser() {}

    static PracticeRecording synthesise(PracticeScene scene) {
        int rate = scene.sampleRateHz();
        double[] out = new double[(int) Math.round(scene.durationSeconds() * rate)];
        List<Breath> breaths = BreathSchedule.breaths(scene.breath(), scene.durationSeconds(), scene.seed());
        List<Truth.Beat> beats = HeartSounds.beats(scene);
        BreathNoise.add(out, scene, breaths);
        HeartSounds.add(out, scene, beats);
        addRoom(out, scene);
        addSounds(out, scene);
        DeviceChain.apply(out, scene.device(), rate);
        dropOut(out, scene);
        Truth truth = new Truth(breaths, sounds(scene), beats, disturbances(scene));
        return new PracticeRecording(scene, new Recording(out, rate, scene.name()), truth);
    }

    private static void addRoom(double[] out, PracticeScene scene) {
        int rate = scene.sampleRateHz();
        double level = Levels.amplitude(scene.roomNoiseDb()) * Math.sqrt(rate / 4000.0);
        Random random = Draws.stream(scene.seed(), Draws.ROOM);
        double hum = scene.humHz() > 0 ? Levels.amplitude(scene.humDb()) * Math.sqrt(2) : 0;
        for (int i = 0; i < out.length; i++) {
            double turn = 2 * Math.PI * scene.humHz() * i / rate;
            out[i] += level * random.nextGaussian();
            out[i] += hum * (0.9 * Math.sin(turn) + 0.35 * Math.sin(2 * turn) + 0.25 * Math.sin(3 * turn));
        }
    }

    private static void addSounds(double[] out, PracticeScene scene) {
        int rate = scene.sampleRateHz();
        int index = 0;
        for (AddedSound sound : scene.sounds()) {
            Random random = Draws.stream(scene.seed(), Draws.ADDED + index++);
            if (sound instanceof AddedSound.Tone tone) {
                ExtraSounds.add(out, tone, rate);
            } else if (sound instanceof AddedSound.SingleCrackle crackle) {
                ExtraSounds.add(out, crackle, rate);
            } else if (sound instanceof AddedSound.Disturbance what && !isDropout(what)) {
                Disturbances.add(out, what, rate, random);
            }
        }
    }

    /** Dropouts come last: nothing is left of what was there, the room's noise included. */
    private static void dropOut(double[] out, PracticeScene scene) {
        for (AddedSound sound : scene.sounds()) {
            if (sound instanceof AddedSound.Disturbance what && isDropout(what)) {
                Disturbances.add(out, what, scene.sampleRateHz(), new Random(0));
            }
        }
    }

    private static boolean isDropout(AddedSound.Disturbance what) {
        return what.kind() == AddedSound.Disturbance.Kind.DROPOUT;
    }

    private static List<MeasuredSound> sounds(PracticeScene scene) {
        List<MeasuredSound> sounds = new ArrayList<>();
        for (AddedSound sound : scene.sounds()) {
            if (sound instanceof AddedSound.Tone tone) {
                sounds.add(ExtraSounds.truth(tone, scene));
            } else if (sound instanceof AddedSound.SingleCrackle crackle) {
                sounds.add(ExtraSounds.truth(crackle, scene));
            }
        }
        sounds.sort(Comparator.comparingDouble(MeasuredSound::startSeconds));
        return sounds;
    }

    private static List<AddedSound.Disturbance> disturbances(PracticeScene scene) {
        return scene.sounds().stream()
                .filter(AddedSound.Disturbance.class::isInstance)
                .map(AddedSound.Disturbance.class::cast)
                .toList();
    }
}
