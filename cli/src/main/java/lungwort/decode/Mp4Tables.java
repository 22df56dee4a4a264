package lungwort.decode;

import java.util.List;

/** The sample tables of a whole MP4 file: sizes, chunks and where chunks lie (ISO/IEC 14496-12 section 8.7). */
final class Mp4Tables {
    private Mp4Tables() {}

    static List<Mp4Track.Frame> frames(Mp4Box table) {
        List<Mp4Track.Frame> frames = Mp4Track.none();
        Mp4Box sizes = table.child("stsz");
        Mp4Box runs = table.child("stsc");
        Mp4Box offsets = table.child("stco");
        boolean isLong = offsets == null;
        offsets = isLong ? table.child("co64") : offsets;
        if (sizes == null || runs == null || offsets == null) {
            return frames;
        }
        long fixedSize = sizes.u32(4);
        // Each count is bounded by the box that holds its entries, so that no header makes more frames than the file
        // has room for.
        long left =
                Math.min(sizes.u32(8), fixedSize == 0 ? (sizes.length() - 12) / 4 : table.file().length / fixedSize);
        int chunks = (int) Math.min(offsets.u32(4), (offsets.length() - 8) / (isLong ? 8 : 4));
        int runCount = (int) Math.min(runs.u32(4), (runs.length() - 8) / 12);
        int run = 0;
        int index = 0;
        for (int chunk = 0; chunk < chunks && left > 0; chunk++) {
            while (run + 1 < runCount && runs.u32(8 + (run + 1) * 12) <= chunk + 1) {
                run++;
            }
            long inChunk = Math.min(left, runCount == 0 ? 0 : runs.u32(8 + run * 12 + 4));
            long at = isLong ? offsets.i64(8 + chunk * 8) : offsets.u32(8 + chunk * 4);
            for (int i = 0; i < inChunk; i++) {
                int size = (int) (fixedSize == 0 ? sizes.u32(12 + index * 4) : fixedSize);
                frames.add(new Mp4Track.Frame(at, size < 0 ? Integer.MAX_VALUE : size));
                at += size;
                index++;
            }
            left -= inChunk;
        }
        return frames;
    }
}
