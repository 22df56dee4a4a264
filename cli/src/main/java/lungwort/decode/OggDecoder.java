package lungwort.decode;

import java.util.function.Consumer;
import lungwort.audio.AudioDecoder;
import lungwort.audio.ReadingOptions;
import lungwort.audio.Recording;
import org.jspecify.annotations.Nullable;

/** Ogg (RFC 3533) with Vorbis or Opus (RFC 7845). */
public final class OggDecoder implements AudioDecoder {
    @Override
    public String formats() {
        return "Ogg Vorbis and Opus";
    }

    @Override
    public boolean accepts(byte[] head) {
        return OggPages.isPage(head, 0);
    }

    @Override
    public Recording decode(byte[] content, String name, ReadingOptions options) {
        return Decoding.guarded("Ogg", content, name, options, () -> {
            Stream stream = new Stream(name, options);
            OggPages pages = OggPages.walk(content, stream);
            return stream.finish(pages);
        });
    }

    /** The first packet tells which of the two it is. */
    private static final class Stream implements Consumer<byte[]> {
        private final String name;
        private final PcmSink sink;
        private @Nullable VorbisStream vorbis;
        private @Nullable OpusStream opus;
        private int packets;

        Stream(String name, ReadingOptions options) {
            this.name = name;
            this.sink = new PcmSink(name, options);
        }

        @Override
        public void accept(byte[] packet) {
            if (packets++ == 0) {
                begin(packet);
            } else if (vorbis != null) {
                vorbis.packet(packet, name);
            } else if (opus != null && packets > 2) {
                // The second packet holds only tags.
                opus.packet(packet, name);
            }
        }

        private void begin(byte[] packet) {
            if (VorbisStream.isHead(packet)) {
                vorbis = new VorbisStream(sink);
                vorbis.packet(packet, name);
            } else if (OpusStream.isHead(packet)) {
                opus = new OpusStream(packet, sink, name);
                sink.trim((double) opus.preSkip() / OpusStream.RATE_HZ, Double.POSITIVE_INFINITY);
            } else {
                throw new Unsupported("kind of sound inside Ogg");
            }
        }

        Recording finish(OggPages pages) {
            long end = pages.lastGranule() - (opus == null ? 0 : opus.preSkip());
            if (pages.lastGranule() >= 0 && !pages.isCut()) {
                // Encoders fill the last packet up; its page says where the sound ends.
                sink.dropLast(sink.length() - Math.max(0, end));
            }
            return sink.finish("Ogg", opus == null ? "Vorbis" : "Opus", pages.isCut());
        }
    }
}
