package lungwort.decode;

import java.lang.invoke.MethodHandles;
import java.lang.invoke.VarHandle;
import java.util.List;
import java.util.logging.Logger;
import lungwort.BadInput;
import net.sourceforge.jaad.aac.AACException;
import net.sourceforge.jaad.aac.Decoder;
import net.sourceforge.jaad.aac.syntax.ICStream;
import net.sourceforge.jaad.mp4.MP4Exception;

/** AAC frames (ISO/IEC 14496-3) into a sink. */
final class AacStream {
    private static final double SCALE = 1 / 32_768.0;

    /** Kept, so that what is set on it is: the library logs what it stumbles over, and that is told by a sentence instead. */
    private static final Logger LIBRARY_LOG = Logger.getLogger("jaad");

    private static final VarHandle NOISE_STATE = noiseState();
    private static final int FIRST_NOISE_STATE = (int) NOISE_STATE.get();

    static {
        LIBRARY_LOG.setUseParentHandlers(false);
    }

    /** The index of 7,350 Hz, for which the library has no tables and fails on frames that are sound. */
    private static final int LOWEST_RATE = 12;

    private final Decoder decoder;
    private int ownNoiseState = FIRST_NOISE_STATE;
    private final PcmSink sink;
    private final boolean isMono;
    private boolean produced;

    /** @param config the AudioSpecificConfig */
    AacStream(byte[] config, PcmSink sink) {
        this.sink = sink;
        this.isMono = isMono(config);
        if (rateIndex(config) == LOWEST_RATE) {
            throw new Unsupported("AAC at 7,350 Hz");
        }
        try {
            decoder = Decoder.create(config);
        } catch (MP4Exception | AACException | IllegalArgumentException e) {
            throw new Unsupported("kind of AAC");
        }
        if (!Decoder.canDecode(decoder.getConfig().getProfile())) {
            throw new Unsupported("kind of AAC");
        }
    }

    /** The library gives two alike for a stream of one channel; of HE-AAC's parametric stereo, which is made from one, the first is taken. */
    private List<float[]> stored(List<float[]> planes) {
        return isMono ? planes.subList(0, 1) : planes;
    }

    /** Channels as the AudioSpecificConfig says: after the object type (5 bits) and the rate (4, or 28 where it is spelt out). */
    private static boolean isMono(byte[] config) {
        if (config.length < 2) {
            return false;
        }
        boolean isSpeltOut = rateIndex(config) == 15;
        int last = isSpeltOut && config.length >= 5 ? config[4] : config[1];
        return (last >> 3 & 0xF) == 1;
    }

    private static int rateIndex(byte[] config) {
        return config.length < 2 ? -1 : (config[0] & 7) << 1 | (config[1] >> 7 & 1);
    }

    /**
     * The library fills noisy bands from one random number for the whole program. Each stream gets its own instead, so that a file sounds the same whatever was
     * decoded before it or beside it.
     */
    private static VarHandle noiseState() {
        try {
            return MethodHandles.privateLookupIn(ICStream.class, MethodHandles.lookup())
                    .findStaticVarHandle(ICStream.class, "randomState", int.class);
        } catch (ReflectiveOperationException e) {
            throw new IllegalStateException("another version of the AAC library than this was written for", e);
        }
    }

    /** @throws BadInput if the frame cannot be decoded */
    void frame(byte[] frame, String name) {
        produced = false;
        synchronized (NOISE_STATE) {
            NOISE_STATE.set(ownNoiseState);
            decode(frame, name);
            ownNoiseState = (int) NOISE_STATE.get();
        }
    }

    private void decode(byte[] frame, String name) {
        try {
            decoder.decodeFrame(frame, (planes, frames, rateHz) -> {
                produced = true;
                sink.planar(stored(planes), 0, frames, rateHz, SCALE);
            });
        } catch (AACException e) {
            throw Decoding.damaged(name, "AAC", e);
        }
        if (!produced) {
            throw Decoding.damaged(name, "AAC", new IllegalStateException("a frame ends early"));
        }
    }
}
