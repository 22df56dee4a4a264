package lungwort.practice;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.function.Function;
import lungwort.breath.BreathPhase;
import lungwort.breath.PhaseSpan;

/**
 * All that a synthesised recording is made of. The same scene always gives the same samples, and the same truth at any sample rate.
 *
 * @param name what it is called
 * @param durationSeconds length in (0, 600]
 * @param sampleRateHz in [4000, 48000]
 * @param seed of every random draw
 * @param breath how the person breathes
 * @param heart heart sounds
 * @param sounds what is added, in order of start
 * @param roomNoiseDb level of steady wide-band noise (RMS from 0 to 2 kHz, dB full scale); negative infinity for none
 * @param humHz mains frequency; 0 for none
 * @param humDb RMS level of the hum, dB full scale
 * @param device what the microphone does
 */
public record PracticeScene(
        String name,
        double durationSeconds,
        int sampleRateHz,
        long seed,
        BreathPattern breath,
        HeartPattern heart,
        List<AddedSound> sounds,
        double roomNoiseDb,
        double humHz,
        double humDb,
        Device device) {
    public PracticeScene {
        if (!(durationSeconds > 0 && durationSeconds <= 600) || sampleRateHz < 4000 || sampleRateHz > 48_000) {
            throw new IllegalArgumentException("scene %s: %s s at %d Hz, not 0 to 600 s at 4000 to 48000 Hz"
                    .formatted(name, durationSeconds, sampleRateHz));
        }
        sounds = sounds.stream()
                .sorted(Comparator.comparingDouble(AddedSound::startSeconds))
                .toList();
    }

    /** A builder that starts as a resting adult in a quiet room: 15 s at 8 kHz, nothing added. */
    public static Builder scene(String name) {
        return new Builder(name);
    }

    /** Makes the recording. */
    public PracticeRecording synthesise() {
        return Synthesiser.synthesise(this);
    }

    /** Collects a scene step by step. Phases ({@link #eachPhase}) are laid out when {@link #build} is called, so the order of calls does not matter. */
    public static final class Builder {
        private final String name;
        private double durationSeconds = 15;
        private int sampleRateHz = 8000;
        private long seed = 1;
        private BreathPattern breath = BreathPattern.RESTING;
        private HeartPattern heart = HeartPattern.NONE;
        private final List<AddedSound> sounds = new ArrayList<>();
        private final List<PhasePlan> plans = new ArrayList<>();
        private double roomNoiseDb = -62;
        private double humHz;
        private double humDb = -50;
        private Device device = Device.FLAT;

        private record PhasePlan(BreathPhase phase, Function<PhaseSpan, List<? extends AddedSound>> plan) {}

        private Builder(String name) {
            this.name = name;
        }

        /** Length in seconds. */
        public Builder seconds(double value) {
            durationSeconds = value;
            return this;
        }

        /** Sample rate in Hz. */
        public Builder rate(int hz) {
            sampleRateHz = hz;
            return this;
        }

        /** Seed of every random draw. */
        public Builder seed(long value) {
            seed = value;
            return this;
        }

        /** How the person breathes. */
        public Builder breath(BreathPattern value) {
            breath = value;
            return this;
        }

        /** Heart rate per minute and peak level in dB full scale. */
        public Builder heart(double perMinute, double levelDb) {
            heart = new HeartPattern(perMinute, levelDb);
            return this;
        }

        /** Adds sounds. */
        public Builder add(AddedSound... values) {
            sounds.addAll(List.of(values));
            return this;
        }

        /** Adds sounds. */
        public Builder add(List<? extends AddedSound> values) {
            sounds.addAll(values);
            return this;
        }

        /** Adds sounds in each phase of a kind: the plan is given the span and returns what to put there. */
        public Builder eachPhase(BreathPhase phase, Function<PhaseSpan, List<? extends AddedSound>> plan) {
            plans.add(new PhasePlan(phase, plan));
            return this;
        }

        /** Level of the room's noise (RMS from 0 to 2 kHz), in dB full scale. */
        public Builder roomNoise(double db) {
            roomNoiseDb = db;
            return this;
        }

        /** Mains hum: frequency in Hz and RMS level in dB full scale. */
        public Builder hum(double hz, double db) {
            humHz = hz;
            humDb = db;
            return this;
        }

        /** What the microphone does. */
        public Builder device(Device value) {
            device = value;
            return this;
        }

        /** The scene. */
        public PracticeScene build() {
            List<AddedSound> all = new ArrayList<>(sounds);
            var breaths = BreathSchedule.breaths(breath, durationSeconds, seed);
            for (PhasePlan plan : plans) {
                breaths.stream()
                        .flatMap(b -> b.phases().stream())
                        .filter(span -> span.phase() == plan.phase)
                        .forEach(span -> all.addAll(plan.plan.apply(span)));
            }
            all.removeIf(sound -> sound.endSeconds() > durationSeconds);
            return new PracticeScene(
                    name, durationSeconds, sampleRateHz, seed, breath, heart, all, roomNoiseDb, humHz, humDb, device);
        }

        /** The scene, made into a recording. */
        public PracticeRecording synthesise() {
            return build().synthesise();
        }
    }
}
