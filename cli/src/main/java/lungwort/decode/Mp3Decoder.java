package lungwort.decode;

import java.io.ByteArrayInputStream;
import javazoom.jl.decoder.Bitstream;
import javazoom.jl.decoder.BitstreamException;
import javazoom.jl.decoder.Decoder;
import javazoom.jl.decoder.DecoderException;
import javazoom.jl.decoder.Header;
import javazoom.jl.decoder.SampleBuffer;
import lungwort.audio.AudioDecoder;
import lungwort.audio.ReadingOptions;
import lungwort.audio.Recording;

/** MPEG-1, -2 and -2.5 layer III (ISO/IEC 11172-3, 13818-3), with or without an ID3v2 tag. */
public final class Mp3Decoder implements AudioDecoder {
    private static final double SCALE = 1 / 32_768.0;

    @Override
    public String formats() {
        return "MP3";
    }

    @Override
    public boolean accepts(byte[] head) {
        if (Mp3Frames.isId3(head)) {
            return true;
        }
        int next = Mp3Frames.frameBytes(head, 0);
        return next > 0 && (next + 4 > head.length || Mp3Frames.frameBytes(head, next) > 0);
    }

    @Override
    public Recording decode(byte[] content, String name, ReadingOptions options) {
        return Decoding.guarded("MP3", content, name, options, () -> {
            Mp3Frames frames = Mp3Frames.walk(content);
            PcmSink sink = new PcmSink(name, options);
            sink.trim(frames.skipSeconds(), frames.keepSeconds());
            try {
                decode(content, frames, sink);
            } catch (BitstreamException | DecoderException e) {
                throw Decoding.damaged(name, "MP3", e);
            }
            return sink.finish("MP3", "MP3", frames.isCut());
        });
    }

    private static void decode(byte[] content, Mp3Frames frames, PcmSink sink)
            throws BitstreamException, DecoderException {
        int length = frames.end() - frames.start();
        Bitstream in = new Bitstream(new ByteArrayInputStream(content, frames.start(), length));
        Decoder decoder = new Decoder();
        // No more frames than were counted: the library goes on at the end of the data.
        for (int i = 0; i < frames.count(); i++) {
            Header header = in.readFrame();
            if (header == null) {
                break;
            }
            SampleBuffer pcm = (SampleBuffer) decoder.decodeFrame(header, in);
            int channels = pcm.getChannelCount();
            sink.interleaved(
                    pcm.getBuffer(), pcm.getBufferLength() / channels, channels, pcm.getSampleFrequency(), SCALE);
            in.closeFrame();
        }
    }
}
