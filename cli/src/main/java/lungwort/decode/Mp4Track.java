package lungwort.decode;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * The first sound track of an MP4 file.
 *
 * @param codec four characters: {@code mp4a} or {@code Opus}
 * @param config what the decoder needs to know: an AudioSpecificConfig, or an Opus header
 * @param frames where each coded frame lies
 * @param skipSeconds at the start that are no sound, by the edit list
 * @param keepSeconds how long the sound is after that, or infinite
 * @param isCut whether the file ends within a box
 */
@SuppressWarnings("ArrayRecordComponent") // carries the configuration, never compared
record Mp4Track(
        String codec, byte[] config, List<Frame> frames, double skipSeconds, double keepSeconds, boolean isCut) {
    /** Frames that hold sound are no longer than this in any codec here; more is damage. */
    private static final int MAX_FRAME_BYTES = 1 << 16;

    /**
     * One coded frame.
     *
     * @param start first byte, which may lie outside a file that was cut
     * @param length in bytes
     */
    record Frame(long start, int length) {}

    static Mp4Track find(byte[] file) {
        Mp4Box whole = Mp4Box.whole(file);
        Mp4Box movie = whole.child("moov");
        if (movie == null) {
            throw new IllegalStateException("no moov: the recording was not ended, or the file is cut");
        }
        for (Mp4Box track : movie.children(0)) {
            Mp4Box handler = track.at("mdia", "hdlr");
            if (track.tag().equals("trak") && handler != null && Mp4Box.isTag(file, handler.body() + 8, "soun")) {
                return of(whole, movie, track);
            }
        }
        throw new IllegalStateException("no sound track");
    }

    private static Mp4Track of(Mp4Box whole, Mp4Box movie, Mp4Box track) {
        Mp4Box table = track.at("mdia", "minf", "stbl");
        Mp4Box descriptions = table == null ? null : table.child("stsd");
        List<Mp4Box> entries = descriptions == null ? List.of() : descriptions.children(8);
        if (table == null || entries.isEmpty()) {
            throw new IllegalStateException("no description of the sound");
        }
        Mp4Box entry = entries.get(0);
        List<Frame> frames = Mp4Tables.frames(table);
        frames.addAll(Mp4Fragments.frames(whole, movie, trackId(track)));
        if (frames.stream().anyMatch(f -> f.length > MAX_FRAME_BYTES)) {
            throw new IllegalStateException("a frame is too long");
        }
        double[] edit = edit(movie, track);
        boolean cut = whole.children(0).stream().anyMatch(Mp4Box::isCut);
        return new Mp4Track(entry.tag(), Mp4Config.of(entry), frames, edit[0], edit[1], cut);
    }

    private static int trackId(Mp4Box track) {
        Mp4Box header = track.child("tkhd");
        return header == null ? 0 : header.i32(header.u8(0) == 1 ? 20 : 12);
    }

    /** The first edit that shows something: {seconds left out, seconds shown}. */
    private static double[] edit(Mp4Box movie, Mp4Box track) {
        Mp4Box list = track.at("edts", "elst");
        double movieScale = timeScale(movie.child("mvhd"));
        double mediaScale = timeScale(track.at("mdia", "mdhd"));
        double[] all = {0, Double.POSITIVE_INFINITY};
        if (list == null || movieScale <= 0 || mediaScale <= 0) {
            return all;
        }
        boolean isLong = list.u8(0) == 1;
        int entryBytes = isLong ? 20 : 12;
        long count = Math.min(list.u32(4), (list.length() - 8) / entryBytes);
        for (int i = 0; i < count; i++) {
            int at = 8 + i * entryBytes;
            double duration = isLong ? list.i64(at) : list.u32(at);
            double mediaTime = isLong ? list.i64(at + 8) : list.i32(at + 4);
            if (mediaTime >= 0) {
                return new double[] {mediaTime / mediaScale, duration > 0 ? duration / movieScale : all[1]};
            }
        }
        return all;
    }

    private static double timeScale(@Nullable Mp4Box header) {
        return header == null ? 0 : header.u32(header.u8(0) == 1 ? 20 : 12);
    }

    static List<Frame> none() {
        return new ArrayList<>();
    }
}
