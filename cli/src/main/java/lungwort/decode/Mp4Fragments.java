package lungwort.decode;

import java.util.List;
import org.jspecify.annotations.Nullable;

/** Movie fragments, as browsers record (ISO/IEC 14496-12 section 8.8): where each frame of a track lies. */
final class Mp4Fragments {
    private static final int BASE_OFFSET = 1;
    private static final int DESCRIPTION = 2;
    private static final int DEFAULT_DURATION = 8;
    private static final int DEFAULT_SIZE = 0x10;
    private static final int RUN_OFFSET = 1;
    private static final int RUN_FIRST_FLAGS = 4;
    private static final int RUN_SIZE = 0x200;

    private Mp4Fragments() {}

    static List<Mp4Track.Frame> frames(Mp4Box whole, Mp4Box movie, int trackId) {
        List<Mp4Track.Frame> frames = Mp4Track.none();
        long movieSize = defaultSize(movie.child("mvex"), trackId);
        for (Mp4Box fragment : whole.children(0)) {
            if (!fragment.tag().equals("moof")) {
                continue;
            }
            for (Mp4Box part : fragment.children(0)) {
                Mp4Box header = part.tag().equals("traf") ? part.child("tfhd") : null;
                if (header != null && header.i32(4) == trackId) {
                    runs(fragment, part, header, movieSize, frames);
                }
            }
        }
        return frames;
    }

    private static long defaultSize(@Nullable Mp4Box extension, int trackId) {
        if (extension == null) {
            return 0;
        }
        return extension.children(0).stream()
                .filter(b -> b.tag().equals("trex") && b.i32(4) == trackId)
                .mapToLong(b -> b.u32(16))
                .findFirst()
                .orElse(0);
    }

    private static void runs(Mp4Box fragment, Mp4Box part, Mp4Box header, long movieSize, List<Mp4Track.Frame> frames) {
        int flags = header.i32(0) & 0xFF_FFFF;
        int at = 8;
        long base = fragment.start();
        if ((flags & BASE_OFFSET) != 0) {
            base = header.i64(at);
            at += 8;
        }
        at += ((flags & DESCRIPTION) != 0 ? 4 : 0) + ((flags & DEFAULT_DURATION) != 0 ? 4 : 0);
        long size = (flags & DEFAULT_SIZE) != 0 ? header.u32(at) : movieSize;
        long next = base;
        for (Mp4Box run : part.children(0)) {
            if (run.tag().equals("trun")) {
                next = run(run, base, next, size, frames);
            }
        }
    }

    /** Adds a run's frames; returns the byte after them. */
    private static long run(Mp4Box run, long base, long next, long defaultSize, List<Mp4Track.Frame> frames) {
        int flags = run.i32(0) & 0xFF_FFFF;
        int at = 8;
        long place = next;
        if ((flags & RUN_OFFSET) != 0) {
            place = base + run.i32(at);
            at += 4;
        }
        at += (flags & RUN_FIRST_FLAGS) != 0 ? 4 : 0;
        // Per frame: duration 0x100, size 0x200, flags 0x400, time offset 0x800, four bytes each.
        int entryBytes = 4 * Integer.bitCount(flags & 0xF00);
        int sizeAt = (flags & 0x100) != 0 ? 4 : 0;
        boolean hasSize = (flags & RUN_SIZE) != 0;
        long room = entryBytes > 0 ? (run.length() - at) / entryBytes : run.file().length / Math.max(1, defaultSize);
        long count = Math.min(run.u32(4), room);
        for (int i = 0; i < count; i++, at += entryBytes) {
            int size = (int) Math.min(Integer.MAX_VALUE, hasSize ? run.u32(at + sizeAt) : defaultSize);
            frames.add(new Mp4Track.Frame(place, size));
            place += size;
        }
        return place;
    }
}
