package lungwort.practice;

/**
 * What the microphone and its electronics do to the sound.
 *
 * @param gainDb gain in dB
 * @param highPassHz lower edge of the pass band, in Hz; 0 for none
 * @param lowPassHz upper edge of the pass band (steep, as a codec cuts), in Hz; 0 for none
 * @param peakHz middle of a resonance, in Hz; 0 for none
 * @param peakDb height of the resonance, in dB
 * @param clipLevel samples are cut off at this magnitude, in (0, 1]
 * @param automaticGain true if the device pulls every moment towards one level (attack 10 ms, release 300 ms)
 * @param gateDb noise suppression: what lies below this level (RMS over 20 ms, dB full scale, after gain) is pressed down by 30 dB; NaN for none
 */
public record Device(
        double gainDb,
        double highPassHz,
        double lowPassHz,
        double peakHz,
        double peakDb,
        double clipLevel,
        boolean automaticGain,
        double gateDb) {
    /** Changes nothing but for full scale. */
    public static final Device FLAT = new Device(0, 0, 0, 0, 0, 1, false, Double.NaN);

    public Device {
        if (!(clipLevel > 0 && clipLevel <= 1) || !(highPassHz >= 0) || !(lowPassHz >= 0) || !(peakHz >= 0)) {
            throw new IllegalArgumentException(
                    "device out of range: clip level %s, pass band %s to %s Hz, peak at %s Hz"
                            .formatted(clipLevel, highPassHz, lowPassHz, peakHz));
        }
    }

    /** The same with another gain, in dB. */
    public Device gain(double db) {
        return new Device(db, highPassHz, lowPassHz, peakHz, peakDb, clipLevel, automaticGain, gateDb);
    }

    /** The same with a pass band, in Hz; 0 leaves an end open. */
    public Device band(double fromHz, double toHz) {
        return new Device(gainDb, fromHz, toHz, peakHz, peakDb, clipLevel, automaticGain, gateDb);
    }

    /** The same with a resonance. */
    public Device resonance(double hz, double db) {
        return new Device(gainDb, highPassHz, lowPassHz, hz, db, clipLevel, automaticGain, gateDb);
    }

    /** The same, cutting off at a level in (0, 1]. */
    public Device clippingAt(double level) {
        return new Device(gainDb, highPassHz, lowPassHz, peakHz, peakDb, level, automaticGain, gateDb);
    }

    /** The same with automatic gain. */
    public Device withAutomaticGain() {
        return new Device(gainDb, highPassHz, lowPassHz, peakHz, peakDb, clipLevel, true, gateDb);
    }

    /** The same with noise suppression below a level in dB full scale. */
    public Device gatedBelow(double db) {
        return new Device(gainDb, highPassHz, lowPassHz, peakHz, peakDb, clipLevel, automaticGain, db);
    }
}
