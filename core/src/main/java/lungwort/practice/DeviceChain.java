package lungwort.practice;

/** Runs the sound through the device: pass band, resonance, gain, automatic gain, noise suppression, full scale. */
final class DeviceChain {
    private static final double TARGET_RMS = 0.1;
    private static final double MOST_GAIN = 100;

    private DeviceChain() {}

    static double[] apply(double[] x, Device device, int rate) {
        if (device.highPassHz() > 0) {
            Biquad.highPass(device.highPassHz(), Math.sqrt(0.5), rate).apply(x);
        }
        if (device.lowPassHz() > 0 && device.lowPassHz() < 0.45 * rate) {
            steepLowPass(x, device.lowPassHz(), rate);
        }
        if (device.peakHz() > 0) {
            Biquad.peak(device.peakHz(), device.peakDb(), 2, rate).apply(x);
        }
        double gain = Levels.amplitude(device.gainDb());
        for (int i = 0; i < x.length; i++) {
            x[i] *= gain;
        }
        if (device.automaticGain()) {
            automaticGain(x, rate);
        }
        if (!Double.isNaN(device.gateDb())) {
            gate(x, Levels.amplitude(device.gateDb()), rate);
        }
        for (int i = 0; i < x.length; i++) {
            x[i] = Math.max(-device.clipLevel(), Math.min(device.clipLevel(), x[i]));
        }
        return x;
    }

    /** Butterworth of order 12: the section qualities are 1 / (2 sin((2k-1) pi / 24)). */
    private static void steepLowPass(double[] x, double hz, int rate) {
        for (int k = 1; k <= 6; k++) {
            double q = 1 / (2 * Math.sin((2 * k - 1) * Math.PI / 24));
            Biquad.lowPass(hz, q, rate).apply(x);
        }
    }

    private static void automaticGain(double[] x, int rate) {
        double attack = 1 - Math.exp(-1 / (0.010 * rate));
        double release = 1 - Math.exp(-1 / (0.300 * rate));
        double power = TARGET_RMS * TARGET_RMS;
        for (int i = 0; i < x.length; i++) {
            double now = x[i] * x[i];
            power += (now > power ? attack : release) * (now - power);
            x[i] *= Math.min(MOST_GAIN, TARGET_RMS / Math.sqrt(power + 1e-12));
        }
    }

    private static void gate(double[] x, double threshold, int rate) {
        double smooth = 1 - Math.exp(-1 / (0.020 * rate));
        double closed = Levels.amplitude(-30);
        double power = 0;
        double gain = closed;
        for (int i = 0; i < x.length; i++) {
            power += smooth * (x[i] * x[i] - power);
            double aim = Math.sqrt(power) > threshold ? 1 : closed;
            gain += smooth * (aim - gain);
            x[i] *= gain;
        }
    }
}
