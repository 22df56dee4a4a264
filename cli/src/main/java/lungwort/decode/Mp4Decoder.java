package lungwort.decode;

import java.util.Arrays;
import lungwort.audio.AudioDecoder;
import lungwort.audio.ReadingOptions;
import lungwort.audio.Recording;

/** MP4, M4A, 3GP and QuickTime files (ISO/IEC 14496-12), whole or in fragments, with AAC or Opus. */
public final class Mp4Decoder implements AudioDecoder {
    @Override
    public String formats() {
        return "M4A (AAC)";
    }

    @Override
    public boolean accepts(byte[] head) {
        return Mp4Box.isTag(head, 4, "ftyp") || Mp4Box.isTag(head, 4, "moov") || Mp4Box.isTag(head, 4, "mdat");
    }

    @Override
    public Recording decode(byte[] content, String name, ReadingOptions options) {
        return Decoding.guarded("M4A", content, name, options, () -> {
            Mp4Track track = Mp4Track.find(content);
            PcmSink sink = new PcmSink(name, options);
            sink.trim(track.skipSeconds(), track.keepSeconds());
            boolean cut =
                    track.codec().equals("Opus") ? opus(content, track, sink, name) : aac(content, track, sink, name);
            return sink.finish("MP4", track.codec().equals("Opus") ? "Opus" : "AAC", cut);
        });
    }

    private static boolean aac(byte[] content, Mp4Track track, PcmSink sink, String name) {
        AacStream stream = new AacStream(track.config(), sink);
        return frames(content, track, frame -> stream.frame(frame, name));
    }

    private static boolean opus(byte[] content, Mp4Track track, PcmSink sink, String name) {
        OpusStream stream = new OpusStream(track.config(), sink, name);
        if (track.skipSeconds() == 0) {
            sink.trim((double) stream.preSkip() / OpusStream.RATE_HZ, track.keepSeconds());
        }
        return frames(content, track, packet -> stream.packet(packet, name));
    }

    /** Hands over every frame that the file holds whole; returns whether some are missing. */
    private static boolean frames(byte[] content, Mp4Track track, java.util.function.Consumer<byte[]> take) {
        for (Mp4Track.Frame frame : track.frames()) {
            if (frame.start() < 0 || frame.start() + frame.length() > content.length) {
                return true;
            }
            int start = (int) frame.start();
            take.accept(Arrays.copyOfRange(content, start, start + frame.length()));
        }
        return track.isCut();
    }
}
