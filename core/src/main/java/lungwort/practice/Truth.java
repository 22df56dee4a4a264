package lungwort.practice;

import java.util.List;
import lungwort.breath.Breath;
import lungwort.sound.ContinuousSound;
import lungwort.sound.Crackle;
import lungwort.sound.MeasuredSound;

/**
 * What is in a synthesised recording, exactly.
 *
 * @param breaths in order, with inspiration, expiration and pause; the last may be cut by the end of the recording
 * @param sounds wheezes, rhonchi and crackles in order of start; {@code prominenceDb} holds their level over the breath sound at its loudest, in dB
 * @param beats heart beats in order
 * @param disturbances what spoils the recording, in order of start
 */
public record Truth(
        List<Breath> breaths, List<MeasuredSound> sounds, List<Beat> beats, List<AddedSound.Disturbance> disturbances) {
    public Truth {
        breaths = List.copyOf(breaths);
        sounds = List.copyOf(sounds);
        beats = List.copyOf(beats);
        disturbances = List.copyOf(disturbances);
    }

    /** Wheezes and rhonchi alone. */
    public List<ContinuousSound> continuous() {
        return sounds.stream()
                .filter(ContinuousSound.class::isInstance)
                .map(ContinuousSound.class::cast)
                .toList();
    }

    /** Crackles alone. */
    public List<Crackle> crackles() {
        return sounds.stream()
                .filter(Crackle.class::isInstance)
                .map(Crackle.class::cast)
                .toList();
    }

    /**
     * One heart beat.
     *
     * @param firstSeconds start of the first heart sound
     * @param secondSeconds start of the second heart sound
     */
    public record Beat(double firstSeconds, double secondSeconds) {}
}
