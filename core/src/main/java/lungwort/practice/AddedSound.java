package lungwort.practice;

import lungwort.sound.SoundKind;

/** A sound put into a scene at a known time. Levels are dB full scale before the device's gain: RMS for lasting sounds, peak for short ones. */
public sealed interface AddedSound {
    /** Start within the recording, in seconds. */
    double startSeconds();

    /** End within the recording, in seconds. */
    double endSeconds();

    /**
     * A tone that glides: wheeze, rhonchus or stridor, by its numbers alone.
     *
     * @param kind what it is meant to be: wheeze (stridor too: this program measures no site) or rhonchus
     * @param startSeconds start
     * @param lengthSeconds length, ramps of {@code rampSeconds} at both ends included
     * @param startHz fundamental at the start
     * @param endHz fundamental at the end; it glides along a straight line
     * @param levelDb RMS level
     * @param harmonics overtones above the fundamental
     * @param harmonicDb level of each overtone against the one below it, in dB
     * @param wobbleHz depth of a 5 Hz frequency wobble, in Hz
     * @param wobble depth of a 7 Hz amplitude wobble, in [0, 1)
     * @param rampSeconds raised-cosine ramp at both ends
     */
    record Tone(
            SoundKind kind,
            double startSeconds,
            double lengthSeconds,
            double startHz,
            double endHz,
            double levelDb,
            int harmonics,
            double harmonicDb,
            double wobbleHz,
            double wobble,
            double rampSeconds)
            implements AddedSound {
        @Override
        public double endSeconds() {
            return startSeconds + lengthSeconds;
        }

        /** A wheeze: slow glide, slight wobble, one weak overtone. */
        public static Tone wheeze(
                double startSeconds, double lengthSeconds, double startHz, double endHz, double levelDb) {
            return new Tone(
                    SoundKind.WHEEZE, startSeconds, lengthSeconds, startHz, endHz, levelDb, 1, -18, 3, 0.15, 0.01);
        }

        /** A rhonchus: low, with a rich row of overtones. */
        public static Tone rhonchus(double startSeconds, double lengthSeconds, double hz, double levelDb) {
            return new Tone(
                    SoundKind.RHONCHUS, startSeconds, lengthSeconds, hz, hz * 0.96, levelDb, 5, -4, 1.5, 0.25, 0.01);
        }

        /** A stridor: high and harsh. Put it into inspiration. */
        public static Tone stridor(double startSeconds, double lengthSeconds, double hz, double levelDb) {
            return new Tone(SoundKind.WHEEZE, startSeconds, lengthSeconds, hz, hz * 1.08, levelDb, 2, -8, 8, 0.3, 0.03);
        }

        /** A pure steady tone with ramps of 5 ms, called a rhonchus below 200 Hz (ATS 1977): for checks. */
        public static Tone pure(double startSeconds, double lengthSeconds, double hz, double levelDb) {
            SoundKind kind = hz < 200 ? SoundKind.RHONCHUS : SoundKind.WHEEZE;
            return new Tone(kind, startSeconds, lengthSeconds, hz, hz, levelDb, 0, 0, 0, 0, 0.005);
        }
    }

    /**
     * One crackle of the published shape ({@link lungwort.sound.CrackleShape}).
     *
     * @param startSeconds start of its initial deflection
     * @param initialDeflectionWidthMs IDW, in ms
     * @param twoCycleDurationMs 2CD, in ms
     * @param levelDb peak level
     */
    record SingleCrackle(
            double startSeconds, double initialDeflectionWidthMs, double twoCycleDurationMs, double levelDb)
            implements AddedSound {
        @Override
        public double endSeconds() {
            return startSeconds + twoCycleDurationMs / 1000;
        }
    }

    /**
     * What spoils a recording.
     *
     * @param kind what
     * @param startSeconds start
     * @param lengthSeconds length
     * @param levelDb peak level for {@link Kind#CLICK} and {@link Kind#THUMP}, RMS for the others; without meaning for {@link Kind#DROPOUT}
     */
    record Disturbance(Kind kind, double startSeconds, double lengthSeconds, double levelDb) implements AddedSound {
        @Override
        public double endSeconds() {
            return startSeconds + lengthSeconds;
        }

        /** The kinds of disturbance. */
        public enum Kind {
            /** A hard touch of the chest piece: wide band, under 2 ms, with a weak tail. */
            CLICK,
            /** A bump of the chest piece: a loud wide-band edge and a low ring of some tens of ms. */
            THUMP,
            /** Cloth or skin sliding along the chest piece: uneven wide-band noise. */
            RUB,
            /** Someone talking: pulse trains through formants, in syllables. */
            SPEECH,
            /** Tones in a row with overtones, as from a radio. */
            MUSIC,
            /** A cough: an explosive burst and a voiced end. */
            COUGH,
            /** The signal is missing. */
            DROPOUT
        }
    }
}
